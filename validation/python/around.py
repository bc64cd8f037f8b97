"""Recipe of data/around.json: what surrounds the gap, by numpy and scipy, by another road than the crate's.

Circles by sequences of linear programmes, sleeves by a solve for the constants of both walls, uptake by
images of the half-space, limits met by a search for the running time at which a test just holds.

Prints one JSON document. To record it again:

    python around.py > ../data/around.json

Coherent SI unless a name says otherwise.
"""

import itertools
import json
import platform

import numpy as np
import scipy
from scipy import integrate, optimize, special, stats

PLAIN = "two roads of plain arithmetic, a few digits lost in differences"


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def within(relative, because):
    return {"relative": relative, "because": because}


RINGS = {
    "twelve points": [12.0, 18.0, 25.0, 14.0, -6.0, -20.0, -24.0, -10.0, 4.0, 8.0, 2.0, 5.0],
    "nine points": [0.0, 31.0, 12.0, -8.0, 22.0, 40.0, 5.0, -17.0, 9.0],
}


def programme(x, y, kind):
    """Centre of the minimum zone, the outer or the inner circle: linear programmes until they stand.

    About a centre the distance of a point is linear in a small move; the programme moves the centre.
    """
    a = b = 0.0
    for _ in range(60):
        d = np.hypot(x - a, y - b)
        c, s = (x - a) / d, (y - b) / d
        one, none = np.ones_like(d), np.zeros_like(d)
        # Unknowns: move (da, db), outer and inner radius as departures from the mean distance.
        base = d.mean()
        below = np.column_stack([-c, -s, -one, none])  # d - c da - s db <= outer
        above = np.column_stack([c, s, none, one])  # inner <= d - c da - s db
        weight = {"zone": (1, -1), "outer": (1, 0), "inner": (0, -1)}[kind]
        scale = 1e6
        found = optimize.linprog(
            [0, 0, *weight],
            A_ub=np.vstack([below, above]),
            b_ub=np.concatenate([base - d, d - base]) * scale,
            bounds=[(-1e3, 1e3)] * 4,
            method="highs",
            options={"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10},
        )
        da, db = found.x[:2] / scale
        a, b = a + da, b + db
        if np.hypot(da, db) < 1e-15:
            break
    d = np.hypot(x - a, y - b)
    return a, b, d.min(), d.max()


def circles():
    for name, off in RINGS.items():
        r = 0.07 + np.array(off) * 1e-6
        t = 2 * np.pi * np.arange(len(r)) / len(r)
        x, y = r * np.cos(t), r * np.sin(t)
        fit = optimize.least_squares(
            lambda p, x=x, y=y: (np.hypot(x - p[0], y - p[1]) - 0.07 - p[2]) * 1e6,
            [0.0, 0.0, 0.0],
            xtol=1e-15,
            ftol=1e-15,
            gtol=1e-15,
            x_scale=1e-6,
        )
        yield case(
            name,
            "scipy.optimize.least_squares; scipy.optimize.linprog about the moving centre; numpy.fft.rfft",
            {"radius_m": list(r)},
            {
                "least_squares_m": [fit.x[0], fit.x[1], 0.07 + fit.x[2]],
                "zone_width_m": (lambda z: z[3] - z[2])(programme(x, y, "zone")),
                "circumscribed_radius_m": programme(x, y, "outer")[3],
                "inscribed_radius_m": programme(x, y, "inner")[2],
                "lobe_amplitude_m": list(
                    2 * np.abs(np.fft.rfft(r - 0.07))[1 : (len(r) - 1) // 2 + 1] / len(r)
                ),
            },
            within(1e-6, "picometres of a micrometre: where the searches of the recipe stop"),
        )


def risks():
    priors = {
        "gamma": stats.gamma(4.0, scale=0.25),
        "normal": stats.norm(1.0, 0.5),
    }
    for name, law in priors.items():

        def share(low, high, f):
            return integrate.quad(f, low, high, epsabs=1e-14, epsrel=1e-12, limit=400)[0]

        def consumer(accept, law=law):
            return share(2.0, 12.0, lambda x: law.pdf(x) * stats.norm.cdf((accept - x) / 0.25))

        def producer(accept, law=law):
            return share(-5.0, 2.0, lambda x: law.pdf(x) * stats.norm.sf((accept - x) / 0.25))

        accept = [1.5, 2.0, 2.4]
        yield case(
            name,
            "scipy.integrate.quad over scipy.stats laws; scipy.optimize.brentq for the acceptance",
            {"mean": 1.0, "sd": 0.5, "limit": 2.0, "uncertainty": 0.25, "accept": accept},
            {
                "nonconforming": law.sf(2.0),
                "consumer": [consumer(a) for a in accept],
                "producer": [producer(a) for a in accept],
                "acceptance": optimize.brentq(lambda a: consumer(a) - 1e-3, 1.0, 2.5, xtol=1e-13),
            },
            within(1e-8, "quad is asked for 1e-12 of the greatest share; the smallest is 1e-4 of it"),
        )


def walls(bore, seat, skin, inner, outer, jump, strain):
    """u = A r + B / r in both walls: free faces, equal pressure, a jump of the seat; 4 equations."""

    def row(r, e, nu):
        factor = e / (1 - nu**2)
        return np.array([factor * (1 + nu), -factor * (1 - nu) / r**2])

    none = np.zeros(2)
    equations = np.array(
        [
            [*row(bore, *inner), *none],
            [*none, *row(skin, *outer)],
            [*row(seat, *inner), *-row(seat, *outer)],
            [-seat, -1 / seat, seat, 1 / seat],
        ]
    )
    scale = np.abs(equations).max(axis=1)
    a, b, c, d = np.linalg.solve(equations / scale[:, None], np.array([0, 0, 0, jump]) / scale)
    pressure = -row(seat, *inner) @ [a, b]
    return pressure, a * bore + b / bore + strain * bore, c * skin + d / skin


def sleeves():
    shapes = [
        ("thin sleeve", 0.070, 0.0715, 0.081, (193e9, 0.30), (69e9, 0.33), 40e-6),
        ("thick bush", 0.020, 0.035, 0.060, (103e9, 0.32), (206e9, 0.29), 15e-6),
        ("polymer ring", 0.070, 0.076, 0.086, (1.5e9, 0.42), (71e9, 0.33), 120e-6),
    ]
    for name, bore, seat, skin, inner, outer, jump in shapes:
        pressure, at_bore, at_skin = walls(bore, seat, skin, inner, outer, jump, 0.0)
        _, swollen, _ = walls(bore, seat, skin, inner, outer, 0.004 * seat, 0.004)
        yield case(
            name,
            "numpy.linalg.solve for the constants of both walls",
            {
                "radii_m": [bore, seat, skin],
                "sleeve": inner,
                "housing": outer,
                "interference_m": jump,
                "strain": 0.004,
            },
            {
                "pressure_pa": pressure,
                "bore_m": at_bore,
                "skin_m": at_skin,
                "bonded_bore_m": swollen,
            },
            within(1e-10, PLAIN),
        )


def uptakes():
    def ierfc(x):
        return np.exp(-x * x) / np.sqrt(np.pi) - x * special.erfc(x)

    def share(at):
        n = np.arange(1, 60)
        images = np.sum((-1.0) ** n * ierfc(n / (2 * np.sqrt(at))))
        return 4 * np.sqrt(at) * (1 / np.sqrt(np.pi) + 2 * images)

    at = [1e-5, 0.002, 0.02, 0.05, 0.1, 0.3, 0.8]
    shares = [0.05, 0.3, 0.5, 0.9, 0.99]
    yield case(
        "uptake of a wall wet on both faces",
        "images of the half-space, scipy.special.erfc; scipy.optimize.brentq of their sum",
        {"diffusion_times": at, "shares": shares},
        {
            "share": [share(t) for t in at],
            "diffusion_times": [
                optimize.brentq(lambda t, s=s: share(t) - s, 1e-8, 2.0, xtol=1e-16) for s in shares
            ],
        },
        within(1e-9, "two series that meet; near saturation the time is lost in the share's digits"),
    )


# Invented: hours since a ring was changed, clearance in thou.
HOURS = np.array([0.0, 12.0, 27.0, 41.0, 58.0, 75.0, 90.0])
THOU = np.array([13.2, 13.5, 14.4, 14.6, 15.6, 16.1, 17.2])
LEAVES = np.array([13.0, 13.0, 14.0, 14.0, 15.0, 16.0, 17.0])
# Twelve visits with leaves 2 thou apart, one of them off: no line goes through all.
MANY = np.arange(12) * 8.0
ODD = np.array([12.0, 12.5, 12.5, 13.0, 13.5, 16.5, 14.0, 14.5, 15.0, 15.0, 15.5, 16.0])


def lines():
    found = stats.linregress(HOURS, THOU)
    t = stats.t.ppf(0.975, len(HOURS) - 2)
    n, mean = len(HOURS), HOURS.mean()
    square = ((HOURS - mean) ** 2).sum()
    scatter = np.sqrt(
        ((THOU - found.intercept - found.slope * HOURS) ** 2).sum() / (len(HOURS) - 2)
    )

    def statistic(x, own):
        y = found.intercept + found.slope * x
        return abs(y - 20.0) / scatter / np.sqrt(own + 1 / n + (x - mean) ** 2 / square)

    at = (20.0 - found.intercept) / found.slope
    ends = [
        [
            optimize.brentq(lambda x, own=own: statistic(x, own) - t, low, high, xtol=1e-11)
            for low, high in [(mean, at), (at, 1e3)]
        ]
        for own in [0, 1]
    ]
    yield case(
        "plain readings",
        "scipy.stats.linregress; scipy.optimize.brentq of the t of the limit",
        {"run": list(HOURS), "low": list(THOU), "high": list(THOU), "scatter": None, "limit": 20.0},
        {
            "slope": found.slope,
            "run": at,
            "gap": ends[0],
            "reading": ends[1],
        },
        within(1e-9, "a root to 1e-11 of the time"),
    )


def likelihood(a, b, s, seen):
    hours, low, high = seen
    below, above = ((e - a - b * (hours - hours.mean())) / s for e in (low, high))
    # Mirrored, so that no tail is the difference of two ones.
    flip = below > 0
    below, above = np.where(flip, -above, below), np.where(flip, -below, above)
    top, bottom = special.log_ndtr(above), special.log_ndtr(below)
    return np.sum(top + np.log1p(-np.exp(bottom - top)))


def search(f, start):
    """A minimum by simplex, begun again until it stands."""
    best = np.array(start, dtype=float)
    for _ in range(12):
        found = optimize.minimize(
            f, best, method="Nelder-Mead", options={"xatol": 1e-12, "fatol": 1e-14, "maxiter": 20000}
        )
        best = found.x
    return found


def crossings():
    for name, seen, stated in [
        ("leaves, scatter stated", (HOURS, LEAVES, LEAVES + 1.0), 0.2),
        ("leaves, scatter free", (MANY, ODD, ODD + 2.0), None),
    ]:
        hours, low, high = seen
        n = len(hours)
        fixed = [] if stated else [np.log(0.5)]

        def scatter(p, stated=stated):
            return stated if stated else np.exp(p[-1])

        top = -search(
            lambda p, seen=seen, s=scatter: -likelihood(p[0], p[1], s(p), seen),
            [15.0, 0.04, *fixed],
        ).fun
        if stated:
            floor = top - 0.5 * stats.norm.ppf(0.975) ** 2
        else:
            t = stats.t.ppf(0.975, n - 2)
            floor = top - 0.5 * n * np.log1p(t * t / (n - 2))

        def held(x, seen=seen, s=scatter, fixed=fixed):
            # A line through the limit at x: level at the mean from its slope.
            d = x - seen[0].mean()
            return -search(
                lambda p: -likelihood(20.0 - p[0] * d, p[0], s(p), seen),
                [(20.0 - 15.0) / d, *fixed],
            ).fun

        inside = 150.0
        ends = [
            optimize.brentq(lambda x, f=floor: held(x) - f, a, b, xtol=1e-7)
            for a, b in [(92.0, inside), (inside, 2000.0)]
        ]
        yield case(
            name,
            "scipy.optimize.minimize of the likelihood of intervals, free and held to the limit; "
            "scipy.optimize.brentq of their difference",
            {
                "run": list(hours),
                "low": list(low),
                "high": list(high),
                "scatter": stated,
                "limit": 20.0,
            },
            {"gap": ends},
            within(1e-6, "the simplex stops within 1e-12 of a flat top, the root within 1e-7"),
        )


def leaks():
    def lost(p):
        g1, g2, t1, t2, air, drift = p
        return (g1 + air) * t2 / t1 - (g2 + air + drift)

    base = [70e3, 65e3, 293.15, 288.65, 100.2e3, 0.0]
    u = [150.0, 150.0, 0.3, 0.3, 400.0, 30.0]
    slopes = []
    for i in range(len(base)):
        # A complex step: no difference is taken.
        step = [complex(v, 1e-30 if k == i else 0) for k, v in enumerate(base)]
        slopes.append(lost(step).imag / 1e-30)
    loss, total = lost(base), np.sqrt(np.sum((np.array(slopes) * u) ** 2))
    yield case(
        "pressure held while it cools",
        "slopes by complex steps; scipy.stats.norm.cdf",
        {"base": base, "uncertainty": u, "allowed_pa": 2500.0},
        {
            "loss_pa": loss,
            "uncertainty_pa": total,
            "probability": stats.norm.cdf(2500.0, loss, total),
        },
        within(1e-11, PLAIN),
    )


def rotors():
    stations, totals, angles = [0.03, 0.11], [0.05e-3, 0.08e-3], [20.0, 130.0]
    high = [t / 2 * np.exp(1j * np.radians(a)) for t, a in zip(totals, angles, strict=True)]
    slope, start = np.polyfit(stations, high, 1)
    at = slope * 0.24 + start
    yield case(
        "two stations",
        "numpy.polyfit through complex eccentricities",
        {"stations_m": stations, "total_m": totals, "high_deg": angles, "at_m": 0.24},
        {
            "eccentricity_m": abs(at),
            "angle_rad": np.angle(at),
            "tilt_rad": abs(slope),
            "tilt_angle_rad": np.angle(slope),
        },
        within(1e-11, PLAIN),
    )


def shims():
    at_hand = [0.1e-3, 0.15e-3, 0.2e-3, 0.25e-3, 0.3e-3, 0.5e-3, 0.8e-3]
    slope = np.tan(np.radians(7.5))
    wanted = [0.22e-3, 0.27e-3, 0.34e-3, 0.41e-3]
    thickness, fewest = [], []
    for gap in wanted:
        stacks = [
            stack
            for size in range(len(at_hand) + 1)
            for stack in itertools.combinations(at_hand, size)
        ]
        best = min(stacks, key=lambda s: (round(abs(0.2e-3 + sum(s) * slope - gap) / 1e-9), len(s)))
        thickness.append(sum(best))
        fewest.append(len(best))
    yield case(
        "seven shims",
        "itertools.combinations, every stack",
        {"shims_m": at_hand, "half_angle_deg": 7.5, "bare_m": 0.2e-3, "wanted_m": wanted},
        {"thickness_m": thickness, "shims": fewest},
        within(1e-12, PLAIN),
    )


def main():
    parts = [circles, risks, sleeves, uptakes, lines, crossings, leaks, rotors, shims]
    document = {
        "recipe": "python/around.py",
        "libraries": {
            "python": ".".join(platform.python_version_tuple()[:2]),
            "numpy": np.__version__,
            "scipy": scipy.__version__,
        },
    }
    for part in parts:
        document[part.__name__] = list(part())
    print(json.dumps(document, indent=1))


if __name__ == "__main__":
    main()
