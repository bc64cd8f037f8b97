"""Recipe of data/service.json: lives, costs, fits and posteriors by scipy and numpy.

Ends of parts by scipy.integrate.quad, cheapest ages by scipy.optimize.minimize_scalar on the cost itself, fits by
scipy.optimize.minimize, posteriors by a Gauss-Legendre rule of numpy, growth of wear by scipy.stats. All lives,
prices and records are made up.

Prints one JSON document. To record it again:

    python service.py > ../data/service.json

Times in hours.
"""

import json
import platform

import numpy as np
import scipy
from scipy.integrate import quad
from scipy.optimize import minimize, minimize_scalar
from scipy.stats import gamma, weibull_min


def case(name, recipe, given, expect, relative, because):
    within = {"relative": relative, "because": because}
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def left(t, shape, scale, ruin):
    return weibull_min.sf(t, shape, scale=scale) * np.exp(-ruin * t)


def integral(f, end):
    """In pieces, so that no bend of a steep life is stepped over."""
    ends = np.linspace(0.0, end, 33)
    return sum(quad(f, a, b, epsabs=0, epsrel=1e-12)[0] for a, b in zip(ends, ends[1:], strict=False))


LIVES = [(2.2, 120.0, 0.001875), (3.0, 400.0, 0.001875), (1.0, 80.0, 0.01), (0.7, 150.0, 0.002), (8.0, 200.0, 0.0005)]


def ends():
    for shape, scale, ruin in LIVES:
        for age in (0.1 * scale, 0.8 * scale, 1.5 * scale):
            good = left(age, shape, scale, ruin)
            struck = ruin * integral(lambda t: left(t, shape, scale, ruin), age)
            # The hazard of wear times survival, in t = age s^4: it may be without bound at 0.
            worn = integral(
                lambda s: weibull_min.pdf(age * s**4, shape, scale=scale) * np.exp(-ruin * age * s**4) * 4 * age * s**3,
                1.0,
            )
            yield case(
                f"shape {shape}, scale {scale}, by {age}",
                "scipy.stats.weibull_min, scipy.integrate.quad",
                {"life": [shape, scale, ruin], "age": age},
                {"ends": [good, struck, worn]},
                1e-11,
                "quad's own error, beside the largest: worn is what the others leave",
            )


def costs():
    for shape, scale, ruin in [(2.2, 120.0, 0.001875), (3.0, 400.0, 0.0), (1.5, 90.0, 0.004), (6.0, 300.0, 0.001)]:
        for planned, failed, fading in [(53.0, 203.0, 0.0), (93.0, 293.0, 0.004), (40.0, 400.0, 0.05)]:

            def rate(age, shape=shape, scale=scale, ruin=ruin, cost=(planned, failed, fading)):
                r = left(age, shape, scale, ruin)
                run = integral(lambda t: left(t, shape, scale, ruin), age)
                worn = integral(lambda t: t * left(t, shape, scale, ruin), age)
                return (cost[0] * r + cost[1] * (1 - r) + cost[2] * worn) / run

            found = minimize_scalar(rate, bounds=(0.05 * scale, 3 * scale), method="bounded", options={"xatol": 1e-9})
            yield case(
                f"shape {shape}, scale {scale}, ends {planned} and {failed}, fading {fading}",
                "scipy.optimize.minimize_scalar on the cost, scipy.integrate.quad",
                {"life": [shape, scale, ruin], "cost": [planned, failed, fading]},
                {"at": found.x, "rate": found.fun, "half": rate(0.5 * scale)},
                2e-6,
                "a least value tells its place to the root of rounding only",
            )


RECORDS = {
    "one worn, one good": [["failed", 95.0], ["good", 60.0]],
    "inspections": [
        ["between", 0.0, 40.0], ["between", 20.0, 60.0], ["between", 40.0, 80.0], ["between", 60.0, 100.0],
        ["good", 60.0], ["good", 100.0],
    ],
    "of every kind": [
        ["failed", 95.0], ["failed", 140.0], ["between", 50.0, 90.0], ["between", 100.0, 130.0], ["good", 60.0],
        ["good", 120.0],
    ],
    "all good": [["good", 60.0], ["good", 80.0], ["good", 50.0]],
}  # fmt: skip


def log_likelihood(records, shape, scale):
    total = 0.0
    for kind, *ages in records:
        if kind == "failed":
            total = total + weibull_min.logpdf(ages[0], shape, scale=scale)
        elif kind == "good":
            total = total + weibull_min.logsf(ages[0], shape, scale=scale)
        else:
            first, last = (weibull_min.sf(age, shape, scale=scale) for age in ages)
            with np.errstate(divide="ignore"):
                total = total + np.log(first - last)
    return total


def fits():
    for name in ("inspections", "of every kind"):
        records = RECORDS[name]
        found = minimize(
            lambda at, records=records: -log_likelihood(records, np.exp(at[0]), np.exp(at[1])),
            [0.7, np.log(90.0)],
            method="Nelder-Mead",
            options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 4000},
        )
        yield case(
            name,
            "scipy.optimize.minimize, Nelder-Mead",
            {"records": records},
            {"shape": np.exp(found.x[0]), "scale": np.exp(found.x[1]), "log_likelihood": -found.fun},
            1e-6,
            "a least value tells its place to the root of rounding only",
        )


def posteriors():
    nodes, weight = np.polynomial.legendre.leggauss(300)
    x = 8 * nodes
    weight = weight * np.exp(-0.5 * x**2)
    shape, scale = 2.2 * np.exp(0.25 * x)[:, None], 120 * np.exp(0.5 * x)[None, :]
    for name, records in RECORDS.items():
        joint = weight[:, None] * weight[None, :] * np.exp(log_likelihood(records, shape, scale))

        def mean(what, joint=joint):
            return float((joint * what).sum() / joint.sum())

        yield case(
            name,
            "numpy.polynomial.legendre.leggauss",
            {"records": records, "prior": [2.2, 0.25, 120.0, 0.5]},
            {
                "shape": mean(shape + 0 * scale),
                "scale": mean(scale + 0 * shape),
                "survival": mean(weibull_min.sf(50.0, shape, scale=scale)),
                "through": mean(np.exp((30.0 / scale) ** shape - (80.0 / scale) ** shape)),
            },
            2e-7,
            "a prior cut off at six standard deviations here, at eight there",
        )


def growths():
    seen = [[25.0, 0.020], [25.0, 0.035], [30.0, 0.025], [20.0, 0.010], [40.0, 0.050], [35.0, 0.030]]
    t, x = np.array(seen).T

    def worth(at):
        return -gamma.logpdf(x, np.exp(at[0]) * t, scale=np.exp(-at[1])).sum()

    found = minimize(worth, [-2.0, 5.0], method="Nelder-Mead", options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 4000})
    shape, rate = np.exp(found.x)
    yield case(
        "six readings",
        "scipy.optimize.minimize, Nelder-Mead, on both numbers at once; scipy.stats.gamma",
        {"seen": seen, "margin": 0.12, "time": 100.0},
        {"shape": shape, "rate": rate, "stays": gamma.cdf(0.12, shape * 100.0, scale=1 / rate)},
        1e-6,
        "a least value tells its place to the root of rounding only",
    )


PARTS = {"ends": ends, "costs": costs, "fits": fits, "posteriors": posteriors, "growths": growths}


def main():
    document = {
        "recipe": "python/service.py",
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
