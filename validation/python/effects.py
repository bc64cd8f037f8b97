"""What faults change of other craft, and of which sort each is, as mixtures of normal laws: the file that
`diagnosis::others` reads.

Reads lines `fault severity l w1 .. w8 c1 .. c8`: logarithms of the limiter's speed, of eight quantities when all is well and
of what the fault leaves of each, `-` where one was not reached, as the study `effects` writes them, and prints one line a law:

    PUMPWRIGHT_ROWS=ROWS cargo xtask study effects
    ENV/bin/python effects.py < ROWS > ../../crates/domain/diagnosis/src/others.txt

Fits by expectation and maximisation: scikit-learn's GaussianMixture.
"""

import sys

import numpy as np
from sklearn.mixture import GaussianMixture

LAWS = 12
# What a quantity scatters by from day to day: the laws need be no narrower than a part of that.
SCALE = np.array([0.0086, 0.0064, 0.05, 0.05, 0.010, 0.0085, 0.0085, 0.0085])
NARROW = 0.05
# So many scales off a change is as large as it can be of use.
FAR = 80.0
# Runs that lack one of these are left out: top speed, its engine, the time to 30 mph, the engine at 3 m/s.
ALWAYS = [0, 1, 2, 4]


def rows(lines):
    """Sizes, limiters, quantities and changes by fault, in the order they come."""
    found = {}
    for line in lines:
        words = line.split()
        if len(words) != 19 or not words[0].isalpha():
            continue
        numbers = [np.nan if word == "-" else float(word) for word in words[2:]]
        found.setdefault(words[0], []).append([float(words[1]), *numbers])
    return {fault: np.array(all_) for fault, all_ in found.items()}


def filled(table):
    """What was not reached goes as it does with what no run lacks, where it was."""
    table = table.copy()
    known = np.column_stack([np.ones(len(table)), table[:, ALWAYS]])
    for at in range(table.shape[1]):
        missing = np.isnan(table[:, at])
        if missing.any():
            rule, *_ = np.linalg.lstsq(known[~missing], table[~missing, at], rcond=None)
            table[missing, at] = known[missing] @ rule
    return table


def sorts(limiter, well):
    """Which sort of craft: time to 30 mph, that to 50 over it, engine at 3 m/s over that at the top, that over the limiter's."""
    return np.column_stack([well[:, 2], well[:, 3] - well[:, 2], well[:, 4] - well[:, 1], well[:, 1] - limiter])


def main():
    print("# What faults change of other craft: validation/python/effects.py made this from invented craft; do not edit.")
    print("# fault share severity(mean sd) mean(12) factor(78): logarithms of the time to 30 mph, of that to 50 over it, of the")
    print("# engine at 3 m/s over that at top speed and of that over the limiter's, all well; then of what a fault leaves of top")
    print("# speed, engine there, times to 30 and 50 mph, engine at 3 m/s and as 20, 30 and 40 mph are passed.")
    for fault, table in rows(sys.stdin).items():
        table = table[~np.isnan(table[:, 2:][:, [*ALWAYS, *(8 + np.array(ALWAYS))]]).any(axis=1)]
        sizes, limiter, well, changes = table[:, 0], table[:, 1], filled(table[:, 2:10]), filled(table[:, 10:])
        sort = sorts(limiter, well)
        kinds = sort.shape[1]
        middle, scale = np.append(sort.mean(axis=0), np.zeros(8)), np.append(sort.std(axis=0), SCALE)
        told = np.column_stack([(sort - middle[:kinds]) / scale[:kinds], np.clip(changes / SCALE, -FAR, FAR)])
        laws = GaussianMixture(LAWS, reg_covar=NARROW, max_iter=300, random_state=0).fit(told)
        belongs = laws.predict_proba(told)
        belongs /= belongs.sum(axis=0)
        means = belongs.T @ sizes
        spreads = np.sqrt(np.maximum(belongs.T @ sizes**2 - means**2, 0.0))
        for law in np.argsort(means):
            factor = np.linalg.cholesky(laws.covariances_[law] * np.outer(scale, scale))
            numbers = [laws.weights_[law], means[law], spreads[law]]
            numbers += list(laws.means_[law] * scale + middle) + list(factor[np.tril_indices(len(scale))])
            print(fault, *(f"{number:.4g}" for number in numbers))


if __name__ == "__main__":
    main()
