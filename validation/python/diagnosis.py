"""Recipe of data/diagnosis.json: causes weighed by scipy and numpy.

What faults of a made-up craft change by scipy.optimize and scipy.integrate, evidence by scipy.stats, that of faults as
other craft show them by scikit-learn's GaussianMixture, gains by scipy.stats.entropy, scores from their definitions, and how often a ranker of such chances is right by many draws.

Prints one JSON document. To record it again:

    python diagnosis.py > ../data/diagnosis.json

Speeds in m/s, turns a minute, times in s.
"""

import json
import platform
from pathlib import Path

import check_craft
import numpy as np
import scipy
import sklearn
from check_craft import FAULTS, SEVERITIES, effects
from scipy.special import logsumexp
from scipy.stats import entropy, multivariate_normal, norm
from sklearn.mixture import GaussianMixture

PLAIN = "the same sums in another order"
OFF = np.array([0.45, 75.0, 0.25, 0.5, 150.0])
OFF_GRATE = np.array([0.45, 300.0, 0.25, 0.5, 300.0])
PRIOR = {
    "Nothing": 0.25, "Clearance": 0.15, "Air": 0.12, "Grate": 0.08, "Blade": 0.07, "NozzleWide": 0.03,
    "NozzleNarrow": 0.03, "Engine": 0.12, "Dirty": 0.06, "Heavy": 0.05, "Slip": 0.04,
}  # fmt: skip
NAMES = list(PRIOR)
ASKED = [0.2, 0.4, 0.6, 0.8, 1.0]


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def within(relative, because):
    return {"relative": relative, "because": because}


def off(fault):
    return OFF_GRATE if fault == "Grate" else OFF


TABLES = {fault: {s: effects(fault, s) for s in SEVERITIES} for fault in FAULTS}


def points():
    for v, row in check_craft.points():
        yield case(
            f"the sound craft at {v} m/s",
            "scipy.optimize.brentq of engine against pump",
            {"speed_m_s": v},
            row,
            within(0.0, "a given of the other parts"),
        )


def crafts():
    """What later parts are given: every fault's effects, and of none the quantities themselves."""
    yield case(
        "Nothing",
        "scipy.optimize.brentq, scipy.integrate.quad",
        {"severities": [0.0]},
        {"seen": [check_craft.SOUND.seen()]},
        within(0.0, "a given of the other parts"),
    )
    for fault, table in TABLES.items():
        yield case(
            fault,
            "scipy.optimize.brentq, scipy.integrate.quad",
            {"severities": SEVERITIES},
            {"seen": [table[s] for s in SEVERITIES]},
            within(0.0, "a given of the other parts"),
        )


def rows():
    """Signatures of one belief each, nothing wrong first."""
    yield {"fault": "Nothing", "severity": 0.0, "beliefs": [[0.0] * 5], "off": OFF.tolist()}
    for fault, table in TABLES.items():
        for s in ASKED:
            yield {"fault": fault, "severity": s, "beliefs": [table[s]], "off": off(fault).tolist()}


def density(row, seen, spread, times=1.0):
    """Log density of what was seen, beliefs by numpy's mean and covariance."""
    beliefs = np.array(row["beliefs"])
    known = np.array([y is not None for y in seen])
    covariance = np.cov(beliefs.T, ddof=0).reshape(len(seen), len(seen)) + np.diag(np.square(row["off"]))
    covariance = times**2 * covariance + np.diag(np.square([u or 0.0 for u in spread]))
    y = np.array([y for y in seen if y is not None])
    return float(multivariate_normal.logpdf(y, beliefs.mean(axis=0)[known], covariance[np.ix_(known, known)]))


def weighed(table, prior, seen, spread):
    """Density of every row, log evidence, chances and mean severity of every fault."""
    each = np.array([density(row, seen, spread) for row in table])
    logs, severity = {}, {}
    for fault in prior:
        own = [at for at, row in enumerate(table) if row["fault"] == fault]
        logs[fault] = float(logsumexp(each[own]) - np.log(len(own)))
        if fault != "Nothing":
            share = np.exp(each[own] - logsumexp(each[own]))
            severity[fault] = float(share @ [table[at]["severity"] for at in own])
    joint = np.array([logs[fault] + np.log(prior[fault]) for fault in prior])
    chances = dict(zip(prior, np.exp(joint - logsumexp(joint)).tolist(), strict=True))
    logs["Unlisted"] = density(table[0], seen, spread, times=4.0)
    return {"densities": each.tolist(), "evidence": logs, "chances": chances, "severity": severity}


OBSERVED = {
    "slower, turning faster": [-1.3, 80.0, 0.28, 0.75, 90.0],
    "flaring off the line": [-0.3, 70.0, 0.55, 0.6, 480.0],
    "turning slower everywhere": [-2.0, -560.0, 0.35, 1.1, -560.0],
    "as it was": [0.1, 10.0, 0.02, -0.1, 20.0],
}


def asked(name, table, prior, observed):
    """One table, and what is said of several days on the water; uncertainties last."""
    return case(
        name,
        "scipy.stats.multivariate_normal, scipy.special.logsumexp, numpy.cov",
        {"prior": prior, "table": table, "seen": [y for y, _ in observed], "uncertainties": [u for _, u in observed]},
        {"weighed": [weighed(table, prior, y, u) for y, u in observed]},
        within(1e-9, PLAIN),
    )


def posteriors():
    table, none = list(rows()), [0.0] * 5
    first = OBSERVED["slower, turning faster"]
    # With independent quantities their own normal laws have to say the same.
    alone = norm.logpdf(first, 0.0, OFF).sum()
    assert abs(alone - weighed(table, PRIOR, first, none)["evidence"]["Nothing"]) < 1e-12
    observed = [(seen, none) for seen in OBSERVED.values()]
    observed += [
        ([-1.3, 80.0, 0.28, None, 90.0], none),
        ([None, None, 0.55, 0.6, None], [0.0, 0.0, 0.1, 0.2, 0.0]),
    ]
    yield asked("one belief a signature", table, PRIOR, observed)
    # Beliefs that move quantities together: what is unknown of the craft makes every effect larger or less.
    rng = np.random.default_rng(9)
    names = ["Nothing", "Clearance", "Grate", "Heavy"]
    several = []
    for row in table:
        if row["fault"] in names:
            size = 1 + 0.25 * rng.normal(size=(7, 1)) + 0.1 * rng.normal(size=(7, 5))
            shift = 0.4 * rng.normal(size=(7, 1)) * OFF
            several.append(row | {"beliefs": (size * row["beliefs"][0] + shift).round(6).tolist()})
    spread = [0.2, 20.0, 0.1, 0.2, 40.0]
    observed = [(first, spread), ([-1.3, None, 0.28, None, 90.0], spread), (OBSERVED["as it was"], none)]
    yield asked("seven beliefs a signature", several, {name: PRIOR[name] for name in names}, observed)


OTHERS = Path(__file__).parents[2] / "crates/domain/diagnosis/src/others.txt"
# Top speed, engine there, times to 30 and 50 mph, engine at 3 m/s and as 20, 30 and 40 mph are passed.
SIZES = np.array([27.0, 800.0, np.nan, np.nan, 780.0, 770.0, 780.0, 790.0])


# The sort of craft comes first: time to 30 mph, that to 50 over it, engine at 3 m/s over that at top speed, and that over
# the limiter's.
SORT = 4
TIMES = [SORT + 2, SORT + 3]


def other_craft():
    """Shares, means and covariances of the laws of every fault."""
    laws = {}
    for line in OTHERS.read_text().splitlines():
        name, *numbers = line.split()
        if name != "#":
            laws.setdefault(name, []).append(np.array(numbers, float))
    for fault, rows in laws.items():
        rows = np.array(rows)
        factors = np.zeros((len(rows), SORT + 8, SORT + 8))
        factors[:, *np.tril_indices(SORT + 8)] = rows[:, 3 + SORT + 8 :]
        yield fault, rows[:, 0], rows[:, 3 : 3 + SORT + 8], factors @ factors.transpose(0, 2, 1)


def mixture(shares, means, covariances):
    made = GaussianMixture(len(shares))
    made.weights_, made.means_ = shares, means
    made.precisions_cholesky_ = np.linalg.cholesky(np.linalg.inv(covariances))
    return made


def mixtures():
    """Evidence of every fault by what other craft show of it; times by their logarithms, the rest as it is read."""
    rng = np.random.default_rng(11)
    times = np.isnan(SIZES)
    scatter = np.where(times, 0.05, 0.01 * SIZES)
    points = (rng.normal(size=(6, 8)) * scatter).round(4)
    logs = {}
    for fault, shares, means, covariances in other_craft():
        means, covariances = means[:, SORT:], covariances[:, SORT:, SORT:]
        slopes = np.where(times, 1.0, SIZES * np.exp(means))
        covariances = covariances * slopes[:, :, None] * slopes[:, None, :]
        means = np.where(times, means, SIZES * np.expm1(means))
        logs[fault] = mixture(shares, means, covariances).score_samples(points).tolist()
    sizes = [None if np.isnan(size) else size for size in SIZES]
    # The laws are narrow in some directions: an inverse loses a few digits there.
    narrow = within(1e-7, "an inverse against a solution")
    yield case(
        "what other craft show",
        "sklearn.mixture.GaussianMixture.score_samples",
        {"sizes": sizes, "well": [None] * 8, "limiter": None, "seen": points.tolist()},
        {"evidence": logs},
        narrow,
    )
    # All that tells the sort, then neither the time to 50 mph nor the limiter.
    for name, known in [("what craft of a sort show", [0, 1, 2, 3]), ("of a sort half known", [0, 2])]:
        sort = np.array([1.1, 0.7, -0.01, -0.05])
        fifty, limiter = (sort[0] + sort[1], 800.0 * np.exp(-sort[3])) if 1 in known else (None, None)
        well = [None, 800.0, sort[0], fifty, 800.0 * np.exp(sort[2]), None, None, None]
        seen = [[None, None, *point, None, None, None, None] for point in points[:, 2:4].tolist()]
        logs = {}
        for fault, shares, means, covariances in other_craft():
            both = [*known, *TIMES]
            whole = mixture(shares, means[:, both], covariances[:, both][:, :, both])
            part = mixture(shares, means[:, known], covariances[:, known][:, :, known])
            told = np.column_stack([np.tile(sort[known], (len(points), 1)), points[:, 2:4]])
            logs[fault] = (whole.score_samples(told) - part.score_samples(told[:, : len(known)])).tolist()
        yield case(
            name,
            "sklearn.mixture.GaussianMixture.score_samples of all less that of the sort",
            {"sizes": sizes, "well": well, "limiter": limiter, "seen": seen},
            {"evidence": logs},
            narrow,
        )


def told(shares, chances):
    """Chance that something is found, bits, and the shares after it."""
    shares, chances = np.array(shares), np.array(chances)
    something = float(shares @ chances)
    found, clear = shares * chances / something, shares * (1 - chances) / (1 - something)
    left = something * entropy(found, base=2) + (1 - something) * entropy(clear, base=2)
    return something, float(entropy(shares, base=2) - left), found.tolist(), clear.tolist()


CHECKS = [
    ("a feeler gauge through the ring", "Clearance", 0.95, 0.05),
    ("the hull weighed", "Heavy", 0.90, 0.05),
    ("a look at the bottom", "Dirty", 0.95, 0.10),
    ("a look up the intake", "Grate", 0.95, 0.03),
    ("the paint mark", "Slip", 0.95, 0.02),
    ("the edges of the blades", "Blade", 0.90, 0.10),
    ("a caliper across the nozzle", "NozzleWide", 0.98, 0.02),
    ("compression and fuel", "Engine", 0.85, 0.10),
    ("soap on the seals", "Air", 0.80, 0.10),
]


def gains():
    first = weighed(list(rows()), PRIOR, OBSERVED["slower, turning faster"], [0.0] * 5)["chances"]
    sets = [("three causes", [0.5, 0.3, 0.2], [0.1, 0.6, 0.3])]
    sets += [
        (name, list(first.values()), [sens if fault == target else alarm for fault in first])
        for name, target, sens, alarm in CHECKS
    ]
    for name, shares, chances in sets:
        something, bits, found, clear = told(shares, chances)
        yield case(
            name,
            "scipy.stats.entropy",
            {"shares": shares, "chances": chances},
            {
                "entropy": float(entropy(shares, base=2)),
                "something": something,
                "bits": bits,
                "entropies_after": [float(entropy(clear, base=2)), float(entropy(found, base=2))],
                "clear": clear,
                "found": found,
            },
            # Bits are what is left of two entropies near each other.
            within(1e-9, "a difference of sums"),
        )


def scores():
    for shares in [[0.6, 0.3, 0.1], [0.2, 0.2, 0.2, 0.4], [0.98, 0.01, 0.01]]:
        for truth in (0, len(shares) - 1):
            hit = np.eye(len(shares))[truth]
            yield case(
                f"{shares}, it was number {truth}",
                "the definitions by numpy",
                {"shares": shares, "truth": truth},
                {
                    "brier": float(((np.array(shares) - hit) ** 2).sum()),
                    "surprise": float(-np.log(shares[truth])),
                },
                within(1e-12, "one formula"),
            )


def ranked(count, noise, wrong, rng):
    """Figures of a ranker over draws of fault, severity and noise."""
    priors = np.array(list(PRIOR.values()))
    grid = np.array([[np.zeros(5)] * len(SEVERITIES)] + [[t[s] for s in SEVERITIES] for t in TABLES.values()])
    offs = np.array([off(fault) for fault in NAMES])
    truth = rng.choice(len(NAMES), count, p=priors)
    s = rng.uniform(0.2, 1.0, count)
    at = np.minimum(((s - 0.2) / 0.1).astype(int), len(SEVERITIES) - 2)
    part = ((s - 0.2) / 0.1 - at)[:, None]
    mean = (1 - part) * grid[truth, at] + part * grid[truth, at + 1]
    if wrong:
        mean = mean * rng.uniform(0.6, 1.5, (count, 5))
    y = mean + noise * offs[truth] * rng.normal(size=(count, 5))
    logs = np.empty((count, len(NAMES)))
    for k in range(len(NAMES)):
        each = [norm.logpdf(y, grid[k, SEVERITIES.index(s)], offs[k]).sum(axis=1) for s in ASKED]
        logs[:, k] = logsumexp(each, axis=0) - np.log(len(ASKED))
    joint = logs + np.log(priors)
    p = np.exp(joint - logsumexp(joint, axis=1)[:, None])
    right = p[np.arange(count), truth]
    place = (p > right[:, None]).sum(axis=1)
    confidence, hit = p.max(axis=1), place == 0
    order = np.argsort(confidence, kind="stable")
    equal = sum(abs(confidence[b].mean() - hit[b].mean()) * len(b) for b in np.array_split(order, 10)) / count
    return {
        "top_1": float(hit.mean()),
        "top_3": float((place < 3).mean()),
        "brier": float(((p - np.eye(len(NAMES))[truth]) ** 2).sum(axis=1).mean()),
        "log": float(-np.log(right).mean()),
        "calibration": float(equal),
        "by_fault": {name: float(hit[truth == k].mean()) for k, name in enumerate(NAMES)},
    }


def rankers():
    rng = np.random.default_rng(76)
    for name, noise, wrong in [
        ("noise as assumed", 1.0, False),
        ("noise half of what is assumed", 0.5, False),
        ("effects wrong by 0.6 to 1.5", 1.0, True),
    ]:
        yield case(
            name,
            "numpy draws, scipy.stats.norm",
            {"noise": noise, "factors": [0.6, 1.5] if wrong else [1.0, 1.0], "draws": 100_000},
            ranked(100_000, noise, wrong, rng),
            within(0.0, "of draws that are not ours: held by their own scatter"),
        )


PARTS = {
    "points": points,
    "crafts": crafts,
    "posteriors": posteriors,
    "mixtures": mixtures,
    "gains": gains,
    "scores": scores,
    "rankers": rankers,
}


def main():
    document = {
        "recipe": "python/diagnosis.py",
        "libraries": {
            "python": ".".join(platform.python_version_tuple()[:2]),
            "numpy": np.__version__,
            "scipy": scipy.__version__,
            "scikit-learn": sklearn.__version__,
        },
        **{name: list(part()) for name, part in PARTS.items()},
    }
    print(json.dumps(document, indent=1))


if __name__ == "__main__":
    main()
