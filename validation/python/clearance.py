"""Recipe of data/clearance.json: tip clearance by scipy, by another road than the crate's.

Prints one JSON document. To record it again:

    python clearance.py > ../data/clearance.json

Lengths are in metres unless a name says otherwise.
"""

import json
import platform

import numpy as np
import scipy
from scipy import integrate, interpolate, optimize, special, stats

THOU = 25.4e-6
MONTE_CARLO = (
    "share of draws below the length: four standard errors of 10 000 draws, and 5e-4 for the "
    "steps of this sum and of the crate's grid"
)


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def tails():
    """Logarithms of the normal law: tails, and cells far out and very narrow."""
    x = [-37.0, -30.0, -12.5, -6.0, -1.0, 0.0, 0.7, 3.0, 6.5, 8.2]
    ln_cdf = special.log_ndtr(x)
    yield case(
        "normal tails",
        "scipy.special.log_ndtr(x)",
        {"x": x},
        {"ln_cdf": list(ln_cdf)},
        {"relative": 1e-13, "because": "two libraries, each to a few parts in 1e15 of a logarithm"},
    )
    cells = [(-36.0, -35.0), (-9.0, -8.999), (-2.0, 1.5), (0.0, 0.25), (5.0, 5.5), (30.0, 31.0)]

    def ln_cell(a, b):
        # The density over its value at the end nearer to zero, integrated: no difference of tails.
        near = a if a > 0 else (b if b < 0 else 0.0)
        part, _ = integrate.quad(
            lambda t: np.exp(0.5 * (near - t) * (near + t)), a, b, epsabs=0, epsrel=1e-13
        )
        return np.log(part) - 0.5 * near**2 - 0.5 * np.log(2 * np.pi)

    yield case(
        "normal cells",
        "log of scipy.integrate.quad over the normal density, scaled by its greatest value",
        {"low": [a for a, _ in cells], "high": [b for _, b in cells]},
        {"ln_probability": [ln_cell(a, b) for a, b in cells]},
        {"relative": 1e-11, "because": "quad is asked for 1e-13; the narrow cell loses two digits"},
    )


def quantiles():
    """Quantiles behind acceptance limits and expanded uncertainties."""
    p = [0.80, 0.90, 0.95, 0.975, 0.99, 0.999]
    yield case(
        "normal quantiles",
        "scipy.stats.norm.ppf(p)",
        {"p": p},
        {"z": list(stats.norm.ppf(p))},
        {"relative": 1e-12, "because": "1 - p loses up to three of sixteen digits"},
    )
    freedom = [1, 2, 3, 5, 8, 16, 30, 50, 75, 99, 100, 101, 1000, 10**6, 10**9]
    yield case(
        "student quantiles",
        "scipy.stats.t.ppf(0.975, freedom)",
        {"level": 0.95, "freedom": freedom},
        {"t": list(stats.t.ppf(0.975, freedom))},
        {"relative": 1e-9, "because": "from 100 degrees on, an expansion cut off after the fourth power of 1 / 100"},
    )


def populations():
    """Interval likelihood by scipy.stats.CensoredData, with its curvature and its profile."""
    twelve = [
        (12, 13), (13, 14), (13, 15), (14, 15), (15, 16), (13, 14),
        (12, 13), (14, 16), (15, 16), (13, 15), (14, 15), (16, 17),
    ]  # fmt: skip
    within = {"relative": 1e-6, "because": "second differences at a step of 1e-4 keep six digits"}
    sets = {
        "twelve cells": twelve,
        "twelve cells, one open below, one above": [*twelve, (None, 12), (17, None)],
    }
    for name, thou in sets.items():
        low = np.array([-np.inf if a is None else a * THOU for a, _ in thou])
        high = np.array([np.inf if b is None else b * THOU for _, b in thou])
        finite = np.isfinite(low) & np.isfinite(high)
        # CensoredData is fitted in thou: its optimiser assumes numbers near one.
        data = stats.CensoredData(
            interval=[(low[i] / THOU, high[i] / THOU) for i in np.flatnonzero(finite)],
            left=[high[i] / THOU for i in np.flatnonzero(~np.isfinite(low))],
            right=[low[i] / THOU for i in np.flatnonzero(~np.isfinite(high))],
        )
        mean, sd = stats.norm.fit(data, optimizer=tight)

        def loss(mean, sd, low=low / THOU, high=high / THOU):
            a, b = (low - mean) / sd, (high - mean) / sd
            flip = a > 0
            a, b = np.where(flip, -b, a), np.where(flip, -a, b)
            return -np.sum(np.log(special.ndtr(b) - special.ndtr(a)))

        def profile(at, sd=sd, loss=loss):
            return optimize.minimize_scalar(
                lambda ln_sd: loss(at, np.exp(ln_sd)),
                bracket=(np.log(sd) - 0.1, np.log(sd) + 0.1),
                options={"xtol": 1e-12},
            ).fun

        best = loss(mean, sd)
        drop = 0.5 * stats.chi2.ppf(0.95, 1)
        ends = [
            optimize.brentq(lambda at: profile(at) - best - drop, mean, mean + side, xtol=1e-10)
            for side in (-4, 4)
        ]
        errors = curvature(lambda p: loss(p[0], np.exp(p[1])), np.array([mean, np.log(sd)]))
        yield case(
            name,
            "scipy.stats.norm.fit(CensoredData), observed information by central differences, "
            "profile by minimize_scalar and brentq",
            {
                "low_m": [None if np.isinf(x) else x for x in low],
                "high_m": [None if np.isinf(x) else x for x in high],
                "drop": drop,
            },
            {
                "mean_m": mean * THOU,
                "sd_m": sd * THOU,
                "ln_likelihood": -best,
                "mean_error_m": errors[0] * THOU,
                "ln_sd_error": errors[1],
                "profile_m": [end * THOU for end in ends],
            },
            within,
        )


def tight(func, x0, args=(), disp=0):
    """The optimiser of scipy.stats fits, asked for more digits than its default."""
    return optimize.fmin(func, x0, args=args, disp=disp, xtol=1e-10, ftol=1e-13, maxiter=10_000, maxfun=10_000)


def curvature(f, at):
    """Standard errors from the inverse of the observed information."""
    h = 1e-4
    matrix = np.empty((2, 2))
    for i in range(2):
        for j in range(2):
            step_i, step_j = h * np.eye(2)[i], h * np.eye(2)[j]
            matrix[i, j] = (
                f(at + step_i + step_j) - f(at + step_i - step_j) - f(at - step_i + step_j) + f(at - step_i - step_j)
            ) / (4 * h * h)
    return np.sqrt(np.diag(np.linalg.inv(matrix)))


class Quadrature:
    """Exact law of the gaps: sums over mean, spread and shared shift of products over the spots.

    With y = g - c - b and the spots independent given (m, sd),

        P(all y_i > t, data | m, sd) = prod_i S_i(t),
        S_i(t) = integral from t of [(1 - e) N(y; m, sd) + e N(y; m, 10 spread)]
                 [Phi((H_i - y)/tau) - Phi((L_i - y)/tau)] dy,   e = 0.1 the share of odd spots.

    c and b only enter through their sum, the shift.
    """

    Y = np.linspace(-8, 8, 1601)
    # The odd spots' law is wide, so its cells need a fine ladder.
    WIDE = np.linspace(-8, 8, 8001)
    ODD, WIDER = 0.1, 10.0

    def __init__(self, cells, model):
        self.low = np.array([a for a, _ in cells])
        self.high = np.array([np.inf if b is None else b for _, b in cells])
        self.tau = model["scatter_m"]
        self.spread = model["spread_m"]
        self.last = None, None
        self.shift, self.shift_weight = self.shifts(model["chord_m"], model["leaf_tolerance_m"])
        self.x, least, greatest, first, total = self.ladder(cells), 0.0, 0.0, 0.0, 0.0
        for weight, m, s in self.grid():
            node = self.node(m, s)
            floor = self.above(node, -self.shift)[:, None, :]
            cut = np.minimum(floor, self.above(node, self.x[:, None] - self.shift))
            mean = lambda product: weight * (product @ self.shift_weight)
            total += mean(np.prod(floor, axis=0))
            least += mean(np.prod(cut, axis=0))
            greatest += mean(np.prod(floor - cut, axis=0))
            first += mean(cut[0] * np.prod(floor[1:], axis=0))
        self.least, self.greatest, self.first = 1 - least / total, greatest / total, 1 - first / total

    def ladder(self, cells):
        """Lengths at which the laws are tabled: all a gap can be."""
        ends = self.high[np.isfinite(self.high)]
        slack = 5 * self.tau + self.shift.max()
        near = np.linspace(max(0.0, self.low.min() - 5 * self.tau), ends.max() + slack, 240)
        if len(ends) == len(cells):
            return near
        # A spot without an upper end may be an odd one, far out.
        return np.concatenate([near, near[-1] + 5 * self.WIDER * self.spread * np.linspace(0, 1, 81)[1:] ** 2])

    def quantiles(self, law, p):
        """Lengths below which the shares p lie."""
        rise = interpolate.PchipInterpolator(self.x, law)
        return [optimize.brentq(lambda x: rise(x) - q, self.x[0], self.x[-1], xtol=1e-12) for q in p]

    @staticmethod
    def shifts(chord, tolerance, n=8):
        """Gauss-Legendre nodes of c + b, c even on [0, chord], b even on [-tolerance, tolerance]."""
        x, w = np.polynomial.legendre.leggauss(n)
        if chord == 0:
            return tolerance * x, w / 2
        # The density of the sum is a trapezium: straight between these corners.
        narrow = min(chord, 2 * tolerance)
        corners = np.array([0.0, narrow, chord + 2 * tolerance - narrow, chord + 2 * tolerance]) - tolerance
        nodes, weights = [], []
        for start, end, rises in zip(corners, corners[1:], (1, 0, -1)):
            t = 0.5 * (x + 1)
            height = {1: t, 0: np.ones(n), -1: 1 - t}[rises]
            nodes.append(start + (end - start) * t)
            weights.append(0.5 * (end - start) * w * height)
        weights = np.concatenate(weights)
        return np.concatenate(nodes), weights / weights.sum()

    def grid(self):
        """Midpoints in sd from nothing to 6 spreads, and in the mean over all that matters."""
        u = (np.arange(60) + 0.5) / 60
        s = 6 * self.spread * u**2  # closer together near nothing; d s = 2 sqrt(s) d u
        total = np.hypot(s, self.tau)
        ends = np.concatenate([self.low, self.high[np.isfinite(self.high)]])
        first, last = ends.min() - 7 * total, ends.max() + 7 * total
        m = first[:, None] + (last - first)[:, None] * np.linspace(0, 1, 161)
        chance = np.ones_like(m)
        wide = np.hypot(self.WIDER * self.spread, self.tau)
        for low, high in zip(self.low, self.high):
            cell = lambda total, low=low, high=high: special.ndtr((high - m) / total) - special.ndtr((low - m) / total)
            chance *= (1 - self.ODD) * cell(total[:, None]) + self.ODD * cell(wide)
        weight = np.exp(-0.5 * (s / self.spread) ** 2) * np.sqrt(s) * (last - first)
        size = chance * weight[:, None]
        for i, j in zip(*np.nonzero(size > 1e-7 * size.max())):
            yield weight[i], m[i, j], s[i]

    def table(self, m, s, ladder):
        """Integrals from each height of the ladder up, of one law, for every spot."""
        y = m + s * ladder
        cell = special.ndtr((self.high[:, None] - y) / self.tau) - special.ndtr((self.low[:, None] - y) / self.tau)
        density = cell * np.exp(-0.5 * ladder**2) / np.sqrt(2 * np.pi)
        below = integrate.cumulative_simpson(density, dx=ladder[1] - ladder[0], initial=0)
        return below[:, -1:] - below

    def node(self, m, s):
        """S_i on ladders of heights, for every spot: of the ordinary law, and of the odd one."""
        w = self.WIDER * self.spread
        if self.last[0] != m:
            self.last = m, self.table(m, w, self.WIDE)
        return m, s, self.table(m, s, self.Y), w, self.last[1]

    def above(self, node, t):
        """S_i(t) of every spot."""
        m, s, ordinary, w, odd = node
        u, v = (t - m) / s, (t - m) / w
        return np.array(
            [
                (1 - self.ODD) * np.interp(u, self.Y, a) + self.ODD * np.interp(v, self.WIDE, b)
                for a, b in zip(ordinary, odd)
            ]
        )


def posteriors():
    """Least, greatest and single gaps by quadrature, where the crate draws."""
    plain = {"scatter_m": 5e-6, "leaf_tolerance_m": 5e-6, "chord_m": 0.0, "spread_m": 50e-6}
    chord = {**plain, "chord_m": 64.315e-6}
    goes = 10e-6
    thou = lambda *pairs: [(a * THOU + goes if a else 0.0, b * THOU + goes if b else None) for a, b in pairs]
    eight = thou((13, 15), (12, 13), (13, 14), (14, 16), (13, 15), (15, 16), (12, 13), (14, 15))
    swollen = thou(*[(14, 15)] * 6, (14, 16), (12, 12.4))
    rubbing = thou((None, 2), (None, 2), (2, 3), (None, 2), (3, 5), (4, 6), (5, None), (2, 4))
    for name, cells, model in [
        ("one spot", eight[:1], plain),
        ("one spot, chord", eight[:1], chord),
        ("eight spots", eight, plain),
        ("eight spots, chord", eight, chord),
        ("eight spots, one swollen", swollen, plain),
        ("eight spots near rubbing", rubbing, plain),
    ]:
        law = Quadrature(cells, model)
        p = [0.05, 0.5, 0.95]
        expect = {
            "least_m": law.quantiles(law.least, p),
            "greatest_m": law.quantiles(law.greatest, p),
            "first_m": law.quantiles(law.first, p),
        }
        yield case(
            name,
            "sum over mean, spread and shift of products over the spots (class Quadrature)",
            {"low_m": [a for a, _ in cells], "high_m": [b for _, b in cells], "model": model, "p": p},
            expect,
            {"standard_errors": 4, "absolute": 5e-4, "because": MONTE_CARLO},
        )


EXAMPLE_THOU = [
    [15, 17, 15, 13, 14, 10, 12, 13],
    [15, 17, 15, 14, 14, 10, 11, 12],
    [17, 19, 17, 16, 16, 12, 14, 14],
    [16, 17, 15, 14, 14, 10, 12, 13],
]  # fmt: skip


def columns(angles, blades, local=None):
    """Rows of c, blades with their sum held at nothing, two waves and at most one local term."""
    rows = []
    for k in range(blades):
        for p, t in enumerate(angles):
            own = [(k == j) - (k == blades - 1) for j in range(blades - 1)]
            waves = [np.cos(t), np.sin(t), np.cos(2 * t), np.sin(2 * t)]
            rows.append([1, *own, *waves, *([] if local is None else [p == local])])
    return np.array(rows, float)


class Likelihood:
    """Interval likelihood of a linear model with the scatter held, its slope and its curvature."""

    def __init__(self, x, low, high, sigma):
        self.x, self.low, self.high, self.sigma = x, low, high, sigma

    def loss(self, b):
        low, high = (self.low - self.x @ b) / self.sigma, (self.high - self.x @ b) / self.sigma
        flip = low > 0
        low, high = np.where(flip, -high, low), np.where(flip, -low, high)
        return -np.sum(np.log(special.ndtr(high) - special.ndtr(low)))

    def slopes(self, b):
        low, high = (self.low - self.x @ b) / self.sigma, (self.high - self.x @ b) / self.sigma
        chance = special.ndtr(high) - special.ndtr(low)
        fall = (stats.norm.pdf(low) - stats.norm.pdf(high)) / chance
        bend = fall**2 + (high * stats.norm.pdf(high) - low * stats.norm.pdf(low)) / chance
        return -self.x.T @ fall / self.sigma, (self.x.T * bend) @ self.x / self.sigma**2

    def best(self, start, held=None):
        """The top by scipy's trust region, over all parameters or all but the last."""
        fill = lambda b: b if held is None else np.append(b, held)
        size = len(start) if held is None else len(start) - 1
        cut = lambda pair: (pair[0][:size], pair[1][:size, :size])
        return optimize.minimize(
            lambda b: self.loss(fill(b)),
            start[:size],
            jac=lambda b: cut(self.slopes(fill(b)))[0],
            hess=lambda b: cut(self.slopes(fill(b)))[1],
            method="trust-exact",
            options={"gtol": 1e-10},
        )


def causes():
    """The worked example: least squares, interval likelihood, linear programmes, evidence."""
    angles = 2 * np.pi * np.arange(8) / 8
    low = np.array(EXAMPLE_THOU, float).ravel()
    high, sigma = low + 1, 0.30
    for name, local in [("without a local term", None), ("with a local term", 5)]:
        x = columns(angles, 4, local)
        middle = low + 0.5
        ols, ssr, *_ = np.linalg.lstsq(x, middle, rcond=None)
        ols_error = np.sqrt(ssr[0] / (len(low) - x.shape[1]) * np.diag(np.linalg.inv(x.T @ x)))
        law = Likelihood(x, low, high, sigma)
        top = law.best(ols)
        error = np.sqrt(np.diag(np.linalg.inv(law.slopes(top.x)[1])))
        floor = top.fun + 0.5 * stats.chi2.ppf(0.9, 1)
        profile = lambda value: law.best(top.x, held=value).fun - floor
        ends = [optimize.brentq(profile, top.x[-1], top.x[-1] + side * 6 * error[-1], xtol=1e-9) for side in (-1, 1)]
        a = np.vstack([x, -x])
        spans = [
            [sign * optimize.linprog(sign * e, a, np.append(high, -low), bounds=(None, None)).fun for sign in (1, -1)]
            for e in np.eye(x.shape[1])
        ] if local is not None else None
        slack = np.hstack([a, -np.ones((len(a), 1))])
        free = [(None, None)] * x.shape[1] + [(0, None)]
        by = optimize.linprog(np.append(np.zeros(x.shape[1]), 1), slack, np.append(high, -low), bounds=free).fun
        thou = lambda values: [float(v) * THOU for v in np.ravel(values)]
        yield case(
            name,
            "numpy.linalg.lstsq; scipy.optimize.minimize(trust-exact) on the interval likelihood; profile of the last "
            "parameter by brentq; scipy.optimize.linprog(highs)",
            {"low_thou": EXAMPLE_THOU, "scatter_m": sigma * THOU, "local": local},
            {
                "least_squares_m": thou(ols),
                "least_squares_error_m": thou(ols_error),
                "likely_m": thou(top.x),
                "likely_error_m": thou(error),
                "ln_likelihood": -top.fun,
                "profile_m": thou(ends),
                "spans_m": None if spans is None else thou(spans),
                "violation_m": by * THOU if local is None else None,
            },
            {
                "relative": 1e-6,
                "bounds": 1e-5,
                "because": "optimisers stop within 1e-8; the programmes leave 1e-6 of the scatter open at every bound",
            },
        )


def evidence():
    """Probability of cells under sets of causes, by quadrature over all parameters and three scatters."""
    unit, mean_scale, effect_scale = 1e-6, 1e-3, 100e-6
    # Two blades at four positions, in micrometres: position 2 is tight.
    low = np.array([[400, 400, 350, 400], [400, 450, 350, 400]], float)
    high, feel, roughness = low + 50, 5.0, [4.0, 8.0, 16.0]
    middle = 0.5 * (low.min() + high.max())
    sets = {
        "none": lambda b: np.zeros((2, 4)),
        "local": lambda b: np.array([[0, 0, b, 0], [0, 0, b, 0]]),
        "blade": lambda b: np.array([[b] * 4, [0] * 4]),
    }
    c, b = np.linspace(middle - 150, middle + 150, 1201), np.linspace(-200, 200, 401)
    of_mean = stats.norm.pdf(c, middle, mean_scale / unit)
    of_effect = stats.norm.pdf(b, 0, effect_scale / unit)

    def chance(adds, sigma):
        """Probability of the cells at every mean."""
        m = c[:, None, None] + adds
        return np.prod(special.ndtr((high - m) / sigma) - special.ndtr((low - m) / sigma), axis=(1, 2))

    def integral(name, sigma):
        inner = lambda x: integrate.simpson(chance(sets[name](x), sigma) * of_mean, x=c)
        return inner(0.0) if name == "none" else integrate.simpson([inner(x) for x in b] * of_effect, x=b)

    scatters = [np.hypot(feel, rough) for rough in roughness]
    expect = {name: float(np.log(np.mean([integral(name, sigma) for sigma in scatters]))) for name in sets}
    yield case(
        "evidence",
        "scipy.integrate.simpson over the mean and one effect, mean of three scatters",
        {"roughness_m": [rough * unit for rough in roughness], "low_m": list(low.ravel() * unit), "high_m": list(high.ravel() * unit)},
        {"ln_evidence": expect},
        {"absolute": 0.1, "because": "the crate's evidence is expectation propagation: an approximation, and this far off"},
    )


def main():
    print(
        json.dumps(
            {
                "recipe": "python/clearance.py",
                "libraries": {
                    "python": ".".join(platform.python_version_tuple()[:2]),
                    "numpy": np.__version__,
                    "scipy": scipy.__version__,
                },
                "tails": list(tails()),
                "quantiles": list(quantiles()),
                "populations": list(populations()),
                "posteriors": list(posteriors()),
                "causes": list(causes()),
                "evidence": list(evidence()),
            },
            indent=1,
        )
    )


if __name__ == "__main__":
    main()
