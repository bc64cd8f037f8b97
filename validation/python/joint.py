"""Recipe of data/joint.json: screwed joints by scipy, by another road than the crate's.

Torque comes from a block pushed up an incline, yield from a search for a root, the gentlest friction
from a search for a minimum, and the clamped cone from an integral over its sections.

Prints one JSON document. To record it again:

    python joint.py > ../data/joint.json

Coherent SI unless a name says otherwise.
"""

import json
import platform

import numpy as np
import scipy
from scipy import constants, integrate, optimize

# Designation, d, P, dw, dh.
SCREWS = [
    ("M5", 5e-3, 0.8e-3, 6.88e-3, 5.5e-3),
    ("M6", 6e-3, 1e-3, 8.88e-3, 6.6e-3),
    ("M8x1", 8e-3, 1e-3, 11.63e-3, 9e-3),
    ("M10", 10e-3, 1.5e-3, 14.63e-3, 11e-3),
]
ROUNDING = "two roads of plain arithmetic, each to a few parts in 1e15"
SEARCH = "the search of the recipe stops within 1e-12 of its unknown"


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def profile(d, pitch):
    height = pitch / (2 * np.tan(np.radians(30)))
    return d - 2 * 3 / 8 * height, d - 2 * 17 / 24 * height


def wedge(d, pitch, friction, preload):
    """Thread torque: a block on an incline, its normal force raised by the slope of the flank."""
    d2, _ = profile(d, pitch)
    slope = np.arctan2(pitch, np.pi * d2)
    rub = friction / np.cos(np.radians(30))
    # Along the axis: N cos s - rub N sin s = F. Round it: N sin s + rub N cos s = push.
    forces = np.array(
        [[np.cos(slope) - rub * np.sin(slope), 0.0], [-np.sin(slope) - rub * np.cos(slope), 1.0]]
    )
    _, push = np.linalg.solve(forces, [preload, 0.0])
    return push * d2 / 2


def torque(screw, friction, head, preload):
    _, d, pitch, dw, dh = screw
    return wedge(d, pitch, friction, preload) + head * preload * (dw + dh) / 4


def torques():
    for screw in SCREWS:
        friction, head = [0.04, 0.12, 0.20, 0.35], [0.30, 0.12, 0.08, 0.35]
        yield case(
            screw[0],
            "numpy.linalg.solve of the forces on a block in the thread, plus the ring of the head",
            {"thread": friction, "head": head, "preload_n": 7000.0},
            {
                "torque_nm": [
                    torque(screw, *pair, 7000.0) for pair in zip(friction, head, strict=True)
                ]
            },
            {"relative": 1e-13, "because": ROUNDING},
        )


def stress(screw, friction, preload, prevailing):
    """Tension and twist together, the section plastic all through in torsion (VDI 2230:2003)."""
    _, d, pitch, _, _ = screw
    d2, d3 = profile(d, pitch)
    radius = (d2 + d3) / 4
    area = np.pi * radius**2
    # A plastic section bears the same shear everywhere: the integral of 2 pi r^2 dr.
    twisting = 2 * np.pi * radius**3 / 3
    lever = d2 / 2 * (pitch / (np.pi * d2) + friction / np.cos(np.radians(30)))
    return np.hypot(preload / area, np.sqrt(3) * (preload * lever + prevailing) / twisting)


def ceilings():
    for screw in SCREWS:
        friction, head, prevailing = [0.05, 0.12, 0.30], [0.2, 0.12, 0.3], [0.0, 0.4, 1.5]
        loads, turning = [], []
        for mu, mub, free in zip(friction, head, prevailing, strict=True):
            load = optimize.brentq(
                lambda f, mu=mu, free=free: stress(screw, mu, f, free) - 0.9 * 450e6,
                0.0,
                1e6,
                xtol=1e-9,
                rtol=1e-14,
            )
            loads.append(load)
            turning.append(torque(screw, mu, mub, load) + free)
        yield case(
            screw[0],
            "scipy.optimize.brentq of the stress of class 70 less 0.9 of 450 MPa",
            {"thread": friction, "head": head, "prevailing_nm": prevailing},
            {"preload_n": loads, "torque_nm": turning},
            {"relative": 1e-11, "because": SEARCH},
        )


def utilisations():
    for screw in SCREWS:
        given = {
            "torque_nm": 6.0,
            "error": 0.04,
            "prevailing_nm": 0.3,
            "thread": [0.04, 0.50],
            "head": [0.10, 0.40],
        }

        def share(at, mu, mub, screw=screw):
            load = (at - 0.3) / torque(screw, mu, mub, 1.0)
            return stress(screw, mu, load, 0.3) / 450e6

        found = optimize.minimize_scalar(
            lambda mu, share=share: share(6.0 * 0.96, mu, 0.40),
            bounds=(0.04, 0.50),
            method="bounded",
            options={"xatol": 1e-9},
        )
        grid = np.linspace(0.04, 0.50, 2001)
        yield case(
            screw[0],
            "scipy.optimize.minimize_scalar over the friction in the thread; the most on a grid",
            given,
            {
                "least": min(found.fun, share(5.76, 0.04, 0.40), share(5.76, 0.50, 0.40)),
                "most": max(share(6.24, mu, 0.10) for mu in grid),
            },
            {
                "relative": 1e-12,
                "because": "both searches stop within 1e-8 of the friction, and a minimum is flat",
            },
        )


def cones():
    for screw in SCREWS:
        thickness, modulus = [2e-3, 5e-3, 10e-3, 25e-3], [1.5e9, 10e6, 71e9, 110e9]

        def stiffness(t, e, screw=screw):
            dw, dh = screw[3], screw[4]
            spread = 2 * np.tan(np.radians(30))
            give, _ = integrate.quad(
                lambda x: 1 / (np.pi / 4 * ((dw + spread * x) ** 2 - dh**2)),
                0.0,
                t,
                epsabs=0,
                epsrel=1e-13,
            )
            return e / give

        yield case(
            screw[0],
            "scipy.integrate.quad of dx / (E A(x)) down the cone",
            {"thickness_m": thickness, "modulus_pa": modulus},
            {"stiffness_n_per_m": [stiffness(*p) for p in zip(thickness, modulus, strict=True)]},
            {"relative": 1e-11, "because": "an integral to 1e-13, a logarithm of a ratio near one"},
        )


def units():
    lbf_in, lbf_ft = constants.lbf * constants.inch, constants.lbf * constants.foot
    yield case(
        "slips",
        "scipy.constants: printed unit over meant unit",
        {"pairs": ["N m as lbf ft", "lbf in as lbf ft", "N m as kgf m", "lbf in as N m"]},
        {"factor": [lbf_ft, lbf_ft / lbf_in, constants.kgf, 1 / lbf_in]},
        {"relative": 1e-14, "because": "the same definitions, a few units in the last place"},
    )


def main():
    print(
        json.dumps(
            {
                "recipe": "python/joint.py",
                "libraries": {
                    "python": ".".join(platform.python_version_tuple()[:2]),
                    "numpy": np.__version__,
                    "scipy": scipy.__version__,
                },
                "torques": list(torques()),
                "ceilings": list(ceilings()),
                "utilisations": list(utilisations()),
                "cones": list(cones()),
                "units": list(units()),
            },
            indent=1,
        )
    )


if __name__ == "__main__":
    main()
