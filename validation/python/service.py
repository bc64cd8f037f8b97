"""Recipe of data/service.json: lives, costs, fits and posteriors by scipy and numpy.

Ends of parts by scipy.integrate.quad, cheapest ages by scipy.optimize.minimize_scalar on the cost itself, fits by
scipy.optimize.minimize, posteriors by a Gauss-Legendre rule of numpy, growth of wear by scipy.stats; costs over a
horizon by Stieltjes sums of numpy over thousands of cells, by quadrature where two renewals are all there is, and by
parts drawn one after another; strikes by scipy.stats. All lives, prices and records are made up.

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


def renewals(life, cost, at, age, hours, cells):
    """The renewal equation by Stieltjes sums over middles; the cost has a step at every multiple of the age."""
    shape, scale, ruin = life
    planned, failed, fading = cost
    never = at is None
    step = (hours if never else at) / cells
    nodes = round(hours / step)
    t = step * np.arange(nodes + 1)
    reach = nodes if never else min(cells, nodes)

    def worn(start, share):
        """Cost of running worn up to every node, by the trapezoid rule."""
        force = (start + t) * (1 - share)
        return fading * np.concatenate([[0.0], np.cumsum(0.5 * step * (force[1:] + force[:-1]))])

    share = 1 - left(t, shape, scale, ruin)
    alone = failed * share + worn(0.0, share)
    gain = np.diff(share[: reach + 1])
    stays = 0.0 if never else 1 - share[reach]
    # What is to come just short of a node and just beyond it, and in the middle of the cell before it.
    below, above = np.zeros(nodes + 1), np.zeros(nodes + 1)
    middle = np.zeros(nodes + 1)
    for j in range(1, nodes + 1):
        k = min(j, reach)
        total = alone[k] + gain[1:k] @ middle[j - k + 1 : j][::-1] + 0.5 * gain[0] * above[j - 1]
        if not never and j > reach:
            total += stays * (planned + below[j - reach])
        below[j] = total / (1 - 0.5 * gain[0])
        above[j] = below[j]
        if not never and j % reach == 0:
            above[j] += stays * (above[j - reach] - below[j - reach] + (planned if j == reach else 0.0))
        middle[j] = 0.5 * (above[j - 1] + below[j])
    if age == 0:
        return below[nodes]
    share = 1 - left(age + t, shape, scale, ruin) / left(age, shape, scale, ruin)
    reach = nodes if never else min(round((at - age) / step), nodes)
    total = failed * share[reach] + worn(age, share)[reach]
    total += np.diff(share[: reach + 1]) @ middle[nodes - reach + 1 : nodes + 1][::-1]
    if reach < nodes:
        total += (1 - share[reach]) * (planned + below[nodes - reach])
    return total


def horizons():
    for life, cost, at, age, hours in [
        ((2.2, 120.0, 0.0), (53.0, 203.0, 0.0), None, 0.0, 100.0),
        ((2.2, 120.0, 0.001875), (53.0, 203.0, 0.0), 70.0, 0.0, 350.0),
        ((2.2, 120.0, 0.001875), (53.0, 203.0, 0.02), 70.0, 35.0, 241.5),
        ((3.0, 400.0, 0.001875), (268.0, 418.0, 0.004), None, 200.0, 900.0),
        ((1.5, 90.0, 0.004), (93.0, 293.0, 0.05), 60.0, 15.0, 600.0),
        ((8.0, 200.0, 0.0005), (40.0, 400.0, 0.0), 150.0, 0.0, 1050.0),
        ((1.0, 80.0, 0.01), (50.0, 200.0, 0.01), 40.0, 20.0, 130.0),
    ]:
        yield case(
            f"shape {life[0]}, scale {life[1]}, at {at}, from {age}, {hours} more",
            "Stieltjes sums over middles of 4000 cells to the age, numpy",
            {"life": life, "cost": cost, "at": at, "age": age, "hours": hours},
            {"cost": renewals(life, cost, at, age, hours, 4000)},
            5e-5,
            "our grid of a few dozen cells",
        )
    # A life so steep that a third failure, and a second age, are out of reach.
    shape, scale, hours, failed = 10.0, 100.0, 120.0, 203.0
    second = integral(lambda t: weibull_min.pdf(t, shape, scale=scale) * weibull_min.cdf(hours - t, shape, scale=scale), hours)
    yield case(
        "two failures at most",
        "scipy.integrate.quad",
        {"life": [shape, scale, 0.0], "cost": [53.0, failed, 0.0], "at": None, "age": 0.0, "hours": hours},
        {"cost": failed * (weibull_min.cdf(hours, shape, scale=scale) + second)},
        5e-5,
        "our grid; a third failure has a chance of 1e-8",
    )


def drawn(life, cost, at, age, hours, rng, draws):
    """Cost until the end of parts drawn one after another, how the first ended, and which lasted to the end."""
    shape, scale, ruin = life
    planned, failed, fading = cost
    rest, old = np.full(draws, hours), np.full(draws, age)
    paid = np.zeros(draws)
    first = np.array(["good"] * draws, dtype=object)
    for cycle in range(10_000):
        wear = scale * ((old / scale) ** shape + rng.exponential(size=draws)) ** (1 / shape) - old
        strike = rng.exponential(size=draws) / ruin if ruin > 0 else np.full(draws, np.inf)
        due = np.inf if at is None else np.maximum(at - old, 0.0)
        lasts = np.minimum(np.minimum(wear, strike), due)
        run = np.minimum(lasts, rest)
        paid += fading * run * (old + 0.5 * run)
        ends = (lasts < rest) & (rest > 0)
        breaks = ends & (np.minimum(wear, strike) < due)
        paid += np.where(breaks, failed, np.where(ends, planned, 0.0))
        if cycle == 0:
            first[breaks & (wear < strike)] = "worn"
            first[breaks & (strike <= wear)] = "struck"
        rest = np.where(ends, rest - run, 0.0)
        old = np.zeros(draws)
        if not ends.any():
            return paid, first
    raise RuntimeError("parts follow one another without end")


def draws():
    """Seeded, so that the same comes out; what ours may be off is told by the spread of the draws."""
    many = 400_000
    for seed, (life, cost, at, age, hours) in enumerate(
        [
            ((2.2, 120.0, 0.001875), (53.0, 203.0, 0.0), 70.0, 0.0, 50.0),
            ((2.2, 120.0, 0.001875), (53.0, 203.0, 0.02), 70.0, 60.0, 200.0),
            ((3.0, 400.0, 0.001875), (268.0, 418.0, 0.0), None, 200.0, 900.0),
            ((0.7, 150.0, 0.002), (40.0, 400.0, 0.0), None, 0.0, 400.0),
            ((5.0, 200.0, 0.0005), (40.0, 400.0, 0.01), 130.0, 90.0, 1000.0),
        ]
    ):
        paid, first = drawn(life, cost, at, age, hours, np.random.default_rng(seed), many)
        ends = [float((first == end).mean()) for end in ("good", "struck", "worn")]
        yield case(
            f"shape {life[0]}, scale {life[1]}, at {at}, from {age}, {hours} more",
            "numpy.random.default_rng, 400 000 owners",
            {"life": life, "cost": cost, "at": at, "age": age, "hours": hours, "draws": many},
            {"cost": paid.mean(), "error": paid.std() / many**0.5, "ends": ends},
            4.0,
            "in standard errors of the draws: one seed in some thousands would miss by more",
        )


def rates():
    """Cost for every hour of many hours: what an owner pays in the second half of a long time."""
    many = 20_000
    for seed, (life, cost, at) in enumerate(
        [
            ((2.2, 120.0, 0.001875), (53.0, 203.0, 0.0), 70.0),
            ((3.0, 400.0, 0.001875), (268.0, 418.0, 0.004), None),
            ((1.5, 90.0, 0.004), (93.0, 293.0, 0.05), 60.0),
        ]
    ):
        hours = 40 * life[1]
        paid = [
            drawn(life, cost, at, 0.0, length, np.random.default_rng(100 + seed), many)[0] for length in (hours, 2 * hours)
        ]
        rate = (paid[1].mean() - paid[0].mean()) / hours
        error = np.hypot(paid[0].std(), paid[1].std()) / hours / many**0.5
        yield case(
            f"shape {life[0]}, scale {life[1]}, at {at}",
            "numpy.random.default_rng, 20 000 owners",
            {"life": life, "cost": cost, "at": at},
            {"rate": rate, "error": error},
            4.0,
            "in standard errors of the draws, taken as if the two lengths were drawn apart",
        )


def strikes():
    for guess, seen, hours in [(80.0, 0, 60.0), (80.0, 2, 90.0), (300.0, 14, 400.0)]:
        law = gamma(1 + seen, scale=1 / (guess + hours))
        for chance, run in [(0.15, 50.0), (1.0, 200.0)]:
            yield case(
                f"{seen} in {hours} after one in {guess}, chance {chance}, {run} more",
                "scipy.stats.gamma, scipy.integrate.quad over the rate",
                {"guess": guess, "seen": seen, "hours": hours, "chance": chance, "run": run},
                {
                    "mean": law.mean(),
                    "low": law.ppf(0.1),
                    "high": law.ppf(0.9),
                    "survival": integral(
                        lambda rate, law=law, chance=chance, run=run: law.pdf(rate) * np.exp(-chance * rate * run),
                        law.isf(1e-16),
                    ),
                },
                1e-9,
                "the tail beyond the last rate, and the inverse of the incomplete gamma function",
            )


PARTS = {
    "ends": ends, "costs": costs, "fits": fits, "posteriors": posteriors, "growths": growths,
    "horizons": horizons, "draws": draws, "rates": rates, "strikes": strikes,
}  # fmt: skip


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
