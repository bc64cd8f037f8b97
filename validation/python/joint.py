"""Recipe of data/joint.json: screwed joints by scipy, by another road than the crate's.

Torque comes from a block pushed up an incline, yield from a search for a root, the gentlest friction
from a search for a minimum, the clamped cone from an integral over its sections, the shorn thread
from a drawn flank, the adapter from moments as vectors, and a circle of screws from a matrix.

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


def shears():
    # Size, P; d min, d2 min, D2 max, D1 max of 6g and 6H.
    for name, pitch, major, screw_pitch, hole_pitch, minor in [
        ("M5", 0.8e-3, 4.826e-3, 4.361e-3, 4.605e-3, 4.334e-3),
        ("M6", 1.0e-3, 5.794e-3, 5.212e-3, 5.500e-3, 5.153e-3),
        ("M8", 1.25e-3, 7.760e-3, 7.042e-3, 7.348e-3, 6.912e-3),
        ("M10", 1.5e-3, 9.732e-3, 8.862e-3, 9.206e-3, 8.676e-3),
    ]:
        rise = np.tan(np.radians(60))

        def tooth(pitch_diameter, diameter, grows, pitch=pitch, rise=rise):
            # Both flanks of one tooth drawn as lines through the pitch line, cut at the cylinder.
            radius, cut = pitch_diameter / 2, diameter / 2
            foot = radius - grows * rise * pitch / 4
            left = np.linalg.solve([[grows * rise, 1], [0, 1]], [foot, cut])
            right = np.linalg.solve([[-grows * rise, 1], [0, 1]], [foot, cut])
            return abs(right[0] - left[0])

        def area(diameter, width, pitch=pitch):
            return np.pi * diameter * width * 9e-3 / pitch

        # The tooth of the hole widens outward, that of the screw inward.
        hole = area(major, tooth(hole_pitch, major, 1))
        screw = area(minor, tooth(screw_pitch, minor, -1))
        sharp = pitch * np.cos(np.radians(30))
        stressed = np.pi / 4 * (float(name[1:]) * 1e-3 - 13 / 12 * sharp) ** 2

        def needed(tensile, shear, hole=hole, screw=screw, stressed=stressed):
            # What either thread alone would need; the screw breaks before both only over the longer.
            alone = [shear * hole, tensile / 2 * screw]
            return max(tensile * stressed * 9e-3 / strips for strips in alone)

        yield case(
            name,
            "numpy.linalg.solve of the flanks with the cylinder that shears",
            {
                "engagement_m": 9e-3,
                "shear_pa": [143e6, 221e6],
                "classes": ["50", "70", "80"],
            },
            {
                "hole_m2": hole,
                "screw_m2": screw,
                "least_m": [needed(tensile, 221e6) for tensile in [500e6, 700e6, 800e6]],
                "most_m": [needed(tensile, 143e6) / 0.897 for tensile in [500e6, 700e6, 800e6]],
            },
            {"relative": 1e-12, "because": "a tooth is a difference of radii ten times its width"},
        )


def adapters():
    lever, offset = [0.4, 0.4, 0.35, 0.45], [0.05, 0.05, 0.04, 0.04]
    degrees, torque = [0.0, 60.0, 100.0, 180.0], [80.0, 80.0, 40.0, 100.0]
    settings = []
    for hand, out, turn, wanted in zip(lever, offset, degrees, torque, strict=True):
        square, turn = np.array([hand, 0.0, 0.0]), np.radians(turn)
        screw = square + out * np.array([np.cos(turn), np.sin(turn), 0.0])
        # The hand at the origin pushes across the handle.
        push = np.array([0.0, -1.0, 0.0])
        gives = np.cross(-screw, push)[2]
        settings.append(wanted / gives * np.cross(-square, push)[2])
    yield case(
        "adapters",
        "numpy.cross of the force of the hand with its arm to screw and square",
        {"lever_m": lever, "offset_m": offset, "degrees": degrees, "torque_nm": torque},
        {"setting_nm": settings},
        {"relative": 1e-13, "because": ROUNDING},
    )


def circles():
    for count in [5, 6, 8, 12]:
        loss, passes = 0.15, [0.3, 0.7, 1.0, 1.0]
        beside = np.roll(np.eye(count), 1, axis=0) + np.roll(np.eye(count), -1, axis=0)
        loads, after = np.zeros(count), []
        for aim in passes:
            gains = np.full(count, aim)
            if after:
                # Each makes up what it lacks and what those before it took: (I - a L) g = p - F.
                gains = np.linalg.solve(np.eye(count) - loss * np.tril(beside), aim - loads)
                loads = loads + (np.eye(count) - loss * beside) @ gains
            else:
                # Slack screws have nothing to lose yet.
                loads = (np.eye(count) - loss * np.triu(beside)) @ gains
            after.append(list(loads))
        yield case(
            f"{count} screws round the circle",
            "numpy.linalg.solve of the gains of a pass, all at once",
            {"count": count, "passes": passes, "loss": loss},
            {"preloads": after},
            {"relative": 1e-13, "because": ROUNDING},
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
                "shears": list(shears()),
                "adapters": list(adapters()),
                "circles": list(circles()),
            },
            indent=1,
        )
    )


if __name__ == "__main__":
    main()
