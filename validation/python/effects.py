"""What faults change of other craft, as mixtures of normal laws: the file that `diagnosis::others` reads.

Reads lines `fault severity c1 .. c8` of changes of logarithms, `-` where a quantity was not reached, as the study `effects`
writes them, and prints one line a law:

    PUMPWRIGHT_ROWS=ROWS cargo xtask study effects
    ENV/bin/python effects.py < ROWS > ../../crates/domain/diagnosis/src/others.txt

Fits by expectation and maximisation: scikit-learn's GaussianMixture.
"""

import sys

import numpy as np
from sklearn.mixture import GaussianMixture

LAWS = 8
# What a quantity scatters by from day to day: the laws need be no narrower than a part of that.
SCALE = np.array([0.0086, 0.0064, 0.05, 0.05, 0.010, 0.0085, 0.0085, 0.0085])
NARROW = 0.02
# So many scales off a change is as large as it can be of use.
FAR = 80.0


def rows(lines):
    """Sizes and changes by fault, in the order they come."""
    found = {}
    for line in lines:
        words = line.split()
        if len(words) != 10 or not words[0].isalpha():
            continue
        changes = [np.nan if word == "-" else float(word) for word in words[2:]]
        found.setdefault(words[0], []).append([float(words[1]), *changes])
    return {fault: np.array(all_) for fault, all_ in found.items()}


def filled(changes):
    """What was not reached goes as it does with top speed, its engine and the time to 30 where it was."""
    changes = changes[~np.isnan(changes[:, [0, 1, 2, 4]]).any(axis=1)].copy()
    known = np.column_stack([np.ones(len(changes)), changes[:, [0, 1, 2, 4]]])
    for at in range(changes.shape[1]):
        missing = np.isnan(changes[:, at])
        if missing.any():
            rule, *_ = np.linalg.lstsq(known[~missing], changes[~missing, at], rcond=None)
            changes[missing, at] = known[missing] @ rule
    return changes


def main():
    print("# What faults change of other craft: validation/python/effects.py made this from invented craft; do not edit.")
    print("# fault share severity(mean sd) mean(8) factor(36): logarithms of top speed, engine there, times to 30 and 50 mph,")
    print("# engine at 3 m/s and as 20, 30 and 40 mph are passed.")
    for fault, table in rows(sys.stdin).items():
        whole = ~np.isnan(table[:, 1:][:, [0, 1, 2, 4]]).any(axis=1)
        sizes = table[whole, 0]
        changes = np.clip(filled(table[:, 1:]) / SCALE, -FAR, FAR)
        laws = GaussianMixture(LAWS, reg_covar=NARROW, max_iter=300, random_state=0).fit(changes)
        belongs = laws.predict_proba(changes)
        belongs /= belongs.sum(axis=0)
        means = belongs.T @ sizes
        spreads = np.sqrt(np.maximum(belongs.T @ sizes**2 - means**2, 0.0))
        for law in np.argsort(means):
            factor = np.linalg.cholesky(laws.covariances_[law] * np.outer(SCALE, SCALE))
            numbers = [laws.weights_[law], means[law], spreads[law]]
            numbers += list(laws.means_[law] * SCALE) + list(factor[np.tril_indices(8)])
            print(fault, *(f"{number:.4g}" for number in numbers))


if __name__ == "__main__":
    main()
