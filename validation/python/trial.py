"""Recipe of data/trial.json: water tests by scipy and numpy.

Smoothers against scipy and against one batch of least squares, levels against going through all segmentations,
currents by numpy and scipy least squares, starts by numpy polyfit on the same readings, lag by an integrator,
Student's law, comparisons and power by scipy.

Prints one JSON document. To record it again:

    python trial.py > ../data/trial.json

SI throughout; courses from true north, clockwise.
"""

import itertools
import json
import platform

import numpy as np
import scipy
from scipy import integrate, optimize, signal, stats

PLAIN = "two roads of plain arithmetic, a few digits lost in differences"
RNG = np.random.default_rng(20)


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def within(relative, because):
    return {"relative": relative, "because": because}


def smoothers():
    for half, degree, derivative in [(2, 2, 0), (2, 2, 1), (4, 3, 0), (5, 2, 2), (10, 4, 1)]:
        read = np.cumsum(RNG.normal(0, 1, 60)).round(3)
        found = signal.savgol_filter(read, 2 * half + 1, degree, deriv=derivative, delta=1.0)
        yield case(
            f"half {half}, degree {degree}, derivative {derivative}",
            "scipy.signal.savgol_filter, mode interp",
            {"readings_m_s": read.tolist(), "half": half, "degree": degree, "derivative": derivative},
            {"smoothed_m_s": found.tolist()},
            within(1e-9, PLAIN),
        )


def motions():
    """Mean and spread of every state given every reading, as one batch of weighted least squares."""
    for variance, unrest, count in [(0.04, 1.0, 20), (0.0025, 4.0, 60), (0.0225, 0.3, 40)]:
        steps = RNG.choice([0.2, 1.0, 1.0, 2.0, 3.0], count - 1)
        t = np.r_[0.0, np.cumsum(steps)]
        z = (10 * np.tanh(t / 8) + RNG.normal(0, variance**0.5, count)).round(3)
        start, doubt = np.array([0.3, 0.1]), np.array([1.0, 4.0])
        rows, sides = [], []

        def add(block, side, spread):
            # A row counts by the root of the inverse of its spread.
            root = np.linalg.inv(np.linalg.cholesky(np.atleast_2d(spread)))
            rows.append(root @ block)
            sides.append(root @ np.atleast_1d(side))

        block = np.zeros((2, 2 * count))
        block[:, :2] = np.eye(2)
        add(block, start, np.diag(doubt))
        for i in range(count):
            block = np.zeros((1, 2 * count))
            block[0, 2 * i] = 1
            add(block, z[i], variance)
        for i, d in enumerate(np.diff(t)):
            block = np.zeros((2, 2 * count))
            block[:, 2 * i : 2 * i + 2] = -np.array([[1, d], [0, 1]])
            block[:, 2 * i + 2 : 2 * i + 4] = np.eye(2)
            add(block, np.zeros(2), unrest * np.array([[d**3 / 3, d**2 / 2], [d**2 / 2, d]]))
        a, b = np.vstack(rows), np.concatenate(sides)
        x = np.linalg.lstsq(a, b, rcond=None)[0]
        spread = np.linalg.inv(a.T @ a)
        yield case(
            f"{count} readings, variance {variance}, unrest {unrest}",
            "numpy.linalg.lstsq over all states at once",
            {
                "times_s": t.tolist(),
                "speeds_m_s": z.tolist(),
                "variance": variance,
                "unrest": unrest,
                "start": start.tolist(),
                "doubt": doubt.tolist(),
            },
            {
                "speed_m_s": x[::2].tolist(),
                "acceleration_m_s2": x[1::2].tolist(),
                "deviation_m_s": np.sqrt(np.diag(spread)[::2]).tolist(),
            },
            within(1e-8, "a batch that squares the condition of its matrix"),
        )


def levels():
    """Least cost over every segmentation, without leaving any out."""
    for penalty, least, count in [(2.0, 2, 80), (0.5, 1, 60), (8.0, 5, 120)]:
        read = np.repeat(RNG.normal(20, 3, count // 20), 20) + RNG.normal(0, 0.4, count)
        read = read.round(3)
        best, last = np.full(count + 1, np.inf), np.zeros(count + 1, int)
        best[0] = -penalty
        for end in range(least, count + 1):
            costs = [best[s] + read[s:end].var() * (end - s) + penalty for s in range(end - least + 1)]
            last[end] = int(np.argmin(costs))
            best[end] = costs[last[end]]
        ends = [count]
        while last[ends[0]] > 0:
            ends.insert(0, int(last[ends[0]]))
        yield case(
            f"{count} readings, penalty {penalty}, at least {least}",
            "all segmentations by dynamic programming, numpy.var",
            {"readings_m_s": read.tolist(), "penalty": penalty, "least": least},
            {"ends": ends},
            within(0.0, "whole numbers"),
        )


def currents():
    for degree, count in [(0, 2), (0, 5), (1, 3), (1, 6), (2, 4), (2, 8)]:
        t = np.cumsum(RNG.uniform(60, 300, count)).round(1)
        sign = (-1.0) ** np.arange(count)
        speeds = (25 + sign * (0.5 - 0.001 * t) + RNG.normal(0, 0.1, count)).round(3)
        # Time from minus one at the first run to one at the last.
        x = (2 * t - t[0] - t[-1]) / (t[-1] - t[0])
        a = np.column_stack([np.ones(count)] + [sign * x**k for k in range(degree + 1)])
        found = np.linalg.lstsq(a, speeds, rcond=None)[0]
        left = speeds - a @ found
        freedom = count - degree - 2
        yield case(
            f"{count} runs, current of degree {degree}",
            "numpy.linalg.lstsq and pinv",
            {"times_s": t.tolist(), "speeds_m_s": speeds.tolist(), "degree": degree},
            {
                "speed_m_s": found[0],
                "current_m_s": found[1:].tolist(),
                "weights": np.linalg.pinv(a)[0].tolist(),
                "deviation_m_s": float(np.sqrt(left @ left / freedom)) if freedom else 0.0,
            },
            within(1e-9, PLAIN),
        )


def circles():
    for count, scatter in [(3, 0.0), (4, 0.2), (6, 0.3), (40, 0.5)]:
        heading = np.sort(RNG.uniform(0, 2 * np.pi, count)) if count > 4 else np.linspace(0.3, 5.0, count)
        v = 25 + RNG.normal(0, scatter, count)
        east, north = v * np.sin(heading) + 0.7, v * np.cos(heading) - 0.4
        speed, course = np.hypot(east, north), np.arctan2(east, north) % (2 * np.pi)
        a = np.column_stack([2 * east, 2 * north, np.ones(count)])
        x = np.linalg.lstsq(a, east**2 + north**2, rcond=None)[0]
        plain = [x[0], x[1], float(np.sqrt(x[2] + x[0] ** 2 + x[1] ** 2))]

        def miss(p):
            return np.hypot(east - p[0], north - p[1]) - p[2]

        fit = optimize.least_squares(miss, plain, xtol=1e-15, ftol=1e-15, gtol=1e-15)
        left = miss(fit.x)
        spread = np.linalg.inv(fit.jac.T @ fit.jac)[2, 2] * (left @ left) / max(count - 3, 1)
        yield case(
            f"{count} headings, scatter {scatter}",
            "numpy.linalg.lstsq and scipy.optimize.least_squares",
            {"speeds_m_s": speed.tolist(), "courses_rad": course.tolist()},
            {
                "plain": [float(p) for p in plain],
                "round": fit.x.tolist(),
                "left_m_s": float(np.sqrt(np.mean(left**2))),
                "uncertainty_m_s": float(np.sqrt(spread)) if count > 3 else None,
            },
            within(1e-7, "a search that stops where its cost no longer falls"),
        )


def begun(t, v):
    """A line through readings above 1 and up to 6.5 m/s, before 30 miles an hour."""
    upto = np.argmax(v >= 13.4112)
    on = (np.arange(len(v)) < upto) & (v > 1.0) & (v <= 6.5)
    rise, at = np.polyfit(t[on], v[on], 1)
    return -at / rise


def crossed(t, v, level):
    """A parabola through three steps or half a second to each side of the straight crossing."""
    k = int(np.argmax(v >= level))
    straight = t[k - 1] + (level - v[k - 1]) / (v[k] - v[k - 1]) * (t[k] - t[k - 1])
    near = np.abs(t - straight) <= max(0.5, 3 * (t[k] - t[k - 1]))
    roots = np.roots(np.polyfit(t[near] - straight, v[near] - level, 2))
    return straight + min(roots.real, key=abs)


def starts():
    for rate, noise in [(5, 0.05), (5, 0.15), (10, 0.05), (10, 0.15)]:
        for phase in [0.013, 0.071]:
            t = np.arange(-5 + phase, 12, 1 / rate)
            true = np.where(t > 0, 27 * np.tanh(t / 6.4), 0)
            v = np.abs(true + RNG.normal(0, noise, len(t))).round(4)
            v = np.where(t < 0, np.minimum(v, 0.9), v)
            first = begun(t, v)
            yield case(
                f"{rate} readings a second, noise {noise}, phase {phase}",
                "numpy.polyfit, numpy.roots",
                {"times_s": t.tolist(), "speeds_m_s": v.tolist()},
                {"instant_s": first, "times_s": [crossed(t, v, level) - first for level in (13.4112, 22.352)]},
                within(1e-8, "roots of a parabola in two forms, differences of times"),
            )


def lags():
    for lag in [0.2, 0.5, 1.0]:
        found = integrate.solve_ivp(
            lambda t, y: (27 * np.tanh(t / 6.4) - y) / lag, (0, 12), [0.0], rtol=1e-11, atol=1e-12, dense_output=True
        )
        levels = [1.0, 13.4112, 22.352]
        shifts = [
            optimize.brentq(lambda t: found.sol(t)[0] - v, 1e-9, 12, xtol=1e-13) - 6.4 * np.arctanh(v / 27)
            for v in levels
        ]
        yield case(
            f"lag {lag}",
            "scipy.integrate.solve_ivp, scipy.optimize.brentq",
            {"lag_s": lag, "levels_m_s": levels},
            {"shifts_s": shifts},
            within(1e-5, "straight lines of a millisecond in ours"),
        )


def students():
    freedoms = [1.0, 1.5, 2.0, 3.0, 4.4545, 7.9925, 12.0, 50.0, 136.875, 326.0, 5000.0, 1e6]
    for level in [0.5, 0.9, 0.95, 0.99, 0.999]:
        yield case(
            f"level {level}",
            "scipy.stats.t.ppf",
            {"level": level, "freedoms": freedoms},
            {"factors": [float(stats.t.ppf(0.5 * (1 + level), nu)) for nu in freedoms]},
            within(1e-9, "two ways to the incomplete beta function, and its inverse"),
        )


def comparisons():
    for n, m, effect in [(3, 4, 1.3), (4, 4, 0.2), (6, 3, -0.5), (8, 9, 0.4)]:
        before = RNG.normal(24.5, 0.25, n).round(2)
        after = RNG.normal(24.5 + effect, 0.4, m).round(2)
        unlike = stats.ttest_ind(after, before, equal_var=False)
        alike = stats.ttest_ind(after, before)
        span = unlike.confidence_interval(0.95)

        def middle(x, y, axis):
            return np.mean(x, axis=axis) - np.mean(y, axis=axis)

        # Both ends together: the share of all splits whose means differ by as much.
        whole = np.r_[before, after]
        found = abs(after.mean() - before.mean()) - 1e-9
        splits = [list(pick) for pick in itertools.combinations(range(n + m), m)]
        gaps = [abs(whole[p].mean() - np.delete(whole, p).mean()) for p in splits]
        yield case(
            f"{n} before, {m} after",
            "scipy.stats.ttest_ind, itertools.combinations",
            {"before_m_s": before.tolist(), "after_m_s": after.tolist()},
            {
                "welch": [float(unlike.statistic), float(unlike.df), float(unlike.pvalue)],
                "interval_m_s": [float(span.low), float(span.high)],
                "pooled": [float(alike.statistic), float(alike.df), float(alike.pvalue)],
                "permutation": float(np.mean(np.array(gaps) >= found)),
            },
            within(1e-9, PLAIN),
        )


def shown(difference, scatter, n):
    """Power by quadrature over the scatter found; the library's law agrees where it gives a number."""
    nu, off = 2 * n - 2, difference / (scatter * np.sqrt(2 / n))
    t = stats.t.ppf(0.975, nu)

    def both(w):
        far = stats.norm.sf(t * w - off) + stats.norm.cdf(-t * w - off)
        return far * 2 * nu * w * stats.chi2.pdf(nu * w * w, nu)

    ends = np.sqrt(stats.chi2.ppf([1e-15, 0.5], nu) / nu).tolist() + [np.sqrt(stats.chi2.isf(1e-15, nu) / nu)]
    power = sum(integrate.quad(both, a, b, epsabs=1e-13, epsrel=1e-12)[0] for a, b in itertools.pairwise(ends))
    law = stats.nct.sf(t, nu, off) + stats.nct.cdf(-t, nu, off)
    assert np.isnan(law) or abs(law - power) < 1e-9, (law, power)
    return float(power)


def powers():
    for difference, scatter in [(0.5, 0.3), (0.3, 0.3), (1.0, 0.2), (0.1, 0.4)]:
        counts = [2, 3, 4, 6, 8, 15, 40, 120, 200]
        yield case(
            f"to see {difference} through {scatter}",
            "scipy.integrate.quad; scipy.stats.nct where it gives a number",
            {"difference_m_s": difference, "scatter_m_s": scatter, "counts": counts},
            {"power": [shown(difference, scatter, n) for n in counts]},
            within(1e-9, "two quadratures"),
        )


PARTS = {
    "smoothers": smoothers,
    "motions": motions,
    "levels": levels,
    "currents": currents,
    "circles": circles,
    "starts": starts,
    "lags": lags,
    "students": students,
    "comparisons": comparisons,
    "powers": powers,
}


def main():
    document = {
        "recipe": "python/trial.py",
        "libraries": {
            "python": ".".join(platform.python_version_tuple()[:2]),
            "numpy": np.__version__,
            "scipy": scipy.__version__,
        },
        **{name: list(part()) for name, part in PARTS.items()},
    }
    print(json.dumps(document, indent=1))


if __name__ == "__main__":
    main()
