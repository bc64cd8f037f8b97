"""Recipe of data/alignment.json: shafts in space, read by exact geometry, and fits by numpy.

A coupling is a cylinder and a plane about an axis that is off and tilted in space; a dial is a ray that
meets it. Nothing is taken for small. The engine is then moved as a stiff body until its axis is the pump's.

Prints one JSON document. To record it again:

    python alignment.py > ../data/alignment.json

x forward, y to port, z up, metres and radians. Clock angles clockwise from the top, seen looking forward.
"""

import itertools
import json
import platform

import numpy as np
import scipy
from scipy import integrate, optimize, stats

PLAIN = "two roads of plain arithmetic, a few digits lost in differences"
CLOCKS = np.radians([0.0, 90.0, 180.0, 270.0])


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def within(relative, because):
    return {"relative": relative, "because": because}


def out(t):
    """The way from the axis to clock t: up at 12, to starboard at 3."""
    return np.array([0.0, -np.sin(t), np.cos(t)])


def frame(offset, slope):
    """A point of the engine's axis in the plane x = 0, and its direction."""
    point = np.array([0.0, offset[1], offset[0]])
    way = np.array([1.0, slope[1], slope[0]])
    return point, way / np.linalg.norm(way)


def turned_about(way, angle, v):
    """v turned about way, clockwise looking along it (Rodrigues)."""
    return v * np.cos(angle) + np.cross(way, v) * np.sin(angle) + way * (way @ v) * (1 - np.cos(angle))


def rim(point, way, radius, t):
    """A ray from far out at clock t inward in the plane x = 0: how far out it meets the cylinder."""
    far = 10 * radius
    start, ray = far * out(t), -out(t)
    a = ray - (ray @ way) * way
    b = (start - point) - ((start - point) @ way) * way
    # |b + s a| = radius, the first meeting.
    roots = np.roots([a @ a, 2 * a @ b, b @ b - radius**2])
    return far - roots.real.min() - radius


def face(point, way, across, t):
    """A ray forward at clock t on a circle: how far aft of x = 0 it meets the plane."""
    start = 0.5 * across * out(t)
    return -((point - start) @ way) / way[0]


def dials():
    rows = {
        "high, nose up, to port": ([0.42e-3, 0.15e-3], [2.1e-3, -0.9e-3]),
        "low, nose down": ([-0.80e-3, -0.05e-3], [-3.3e-3, 0.4e-3]),
        "in line but for a hair": ([0.011e-3, -0.007e-3], [0.09e-3, 0.06e-3]),
    }
    for name, (offset, slope) in rows.items():
        radius, across = 0.045, 0.072
        point, way = frame(offset, slope)
        # The face's middle lies on the axis where the coupling's plane is.
        rims = [rim(point, way, radius, t) for t in CLOCKS]
        faces = [face(point, way, across, t) for t in CLOCKS]
        mounts = [[0.16, 0.19], [0.16, -0.19], [0.52, 0.14], [0.52, -0.14]]
        yield case(
            name,
            "ray against cylinder and plane in space; scipy.optimize.least_squares of a stiff body",
            {"rim_m": rims, "face_m": faces, "across_m": across, "mounts_m": mounts},
            {
                "offset_m": offset,
                "slope_rad": slope,
                **stiff(point, way, mounts),
            },
            within(
                5e-4,
                "sines taken for angles: of the largest value, squares of slopes and of offset over radius, and "
                "mounts aside of the axis that swing by the product of both slopes",
            ),
        )


def stiff(point, way, mounts):
    """Moves of the mounts when the engine, a stiff body, is turned and moved until its axis is the pump's.

    The turn is the shortest one from one axis to the other, so no roll is added.
    """
    ahead = np.array([1.0, 0.0, 0.0])
    axis = np.cross(way, ahead)
    size = np.linalg.norm(axis)
    turn = axis / size * np.arcsin(size)

    def moved(p, x):
        angle = np.linalg.norm(x[:3])
        about = x[:3] / angle
        return turned_about(about, angle, p - point) + point + np.array([0.0, x[3], x[4]])

    def miss(x):
        here, there = moved(point, x), moved(point + way, x)
        return [*here[1:], *(there - here)[1:], x[0]]

    found = optimize.least_squares(miss, [*turn * 1.1, 0.0, 0.0], xtol=1e-15, ftol=1e-15, gtol=1e-15).x
    # Mounts are level with the pump's axis before the move, in the engine's own frame about its axis.
    steps = []
    for forward, port in mounts:
        mount = point + forward * way + np.array([0.0, port, 0.0])
        steps.append(moved(mount, found) - mount)
    return {"up_m": [s[2] for s in steps], "port_m": [s[1] for s in steps]}


def turns():
    noise = np.random.default_rng(20).normal(size=64) * 4e-6
    rows = {
        "four places": [0.0, 90.0, 180.0, 270.0],
        "half round": [0.0, 180.0],
        "three places, uneven": [0.0, 90.0, 180.0],
    }
    for name, places in rows.items():
        phi = np.radians(places)
        rows_, readings = [], []
        for k, turned in enumerate(phi):
            for j, t in enumerate(CLOCKS):
                own = [1.0 if i == k else 0.0 for i in range(len(phi))]
                rows_.append([*own, np.cos(t), -np.sin(t), np.cos(t - turned), np.sin(t - turned)])
                readings.append(
                    0.1e-3 * k
                    + 0.21e-3 * np.cos(t)
                    - 0.13e-3 * np.sin(t)
                    + 0.06e-3 * np.cos(t - turned - 0.8)
                    + noise[4 * k + j]
                )
        a, y = np.array(rows_), np.array(readings)
        found, *_ = np.linalg.lstsq(a, y, rcond=None)
        n = len(phi)
        covariance = np.linalg.inv(a.T @ a)
        up, port, c, s = found[n:]
        yield case(
            name,
            "numpy.linalg.lstsq of every reading, a zero of its own for each place of the shaft",
            {"turned_rad": list(phi), "reading_m": [list(y[4 * k : 4 * k + 4]) for k in range(n)]},
            {
                "up_m": 2 * up,
                "port_m": 2 * port,
                "runout_m": 2 * np.hypot(c, s),
                "runout_rad": np.arctan2(s, c),
                "spread": 2 * np.sqrt(covariance[n, n]),
            },
            within(1e-9, "micrometres out of readings of tenths, solved by another factoring"),
        )


def planes():
    rows = {
        "four mounts": [[0.16, 0.19], [0.16, -0.19], [0.52, 0.14], [0.52, -0.14]],
        "three mounts": [[0.15, 0.2], [0.15, -0.2], [0.6, 0.0]],
        "two mounts in the middle": [[0.15, 0.0], [0.6, 0.0]],
    }
    for name, mounts in rows.items():
        high = (np.array([0.04, -0.03, 0.05, 0.02]) * 1e-3)[: len(mounts)]
        a = np.column_stack([np.ones(len(mounts)), np.array(mounts)])
        found, *_ = np.linalg.lstsq(a, high, rcond=None)
        yield case(
            name,
            "numpy.linalg.lstsq, the shortest answer",
            {"mounts_m": mounts, "high_m": list(high)},
            {"offset_m": found[0], "slope_rad": found[1]},
            within(1e-9, PLAIN),
        )


def shares():
    shims = [0.1e-3, 0.15e-3, 0.25e-3, 0.4e-3, 0.4e-3, 0.8e-3, 1.0e-3]
    wanted = [0.52e-3, 0.61e-3, 1.37e-3]
    best = None
    for places in itertools.product(range(len(wanted) + 1), repeat=len(shims)):
        thick = [sum(s for s, p in zip(shims, places, strict=True) if p == m) for m in range(len(wanted))]
        cost = sum((t - w) ** 2 for t, w in zip(thick, wanted, strict=True))
        cost += sum(p < len(wanted) for p in places) * 1e-12
        if best is None or cost < best[0] - 1e-18:
            best = (cost, thick)
    yield case(
        "seven shims under three mounts",
        "itertools.product, every way to share them out",
        {"shims_m": shims, "wanted_m": wanted},
        {"thickness_m": best[1]},
        within(1e-12, PLAIN),
    )


def limits():
    rows = {
        "alike in both planes": (0.06e-3, 0.05e-3, 0.01e-3, 0.01e-3),
        "near the middle": (0.0, 0.01e-3, 0.03e-3, 0.03e-3),
        "unlike": (0.07e-3, -0.06e-3, 0.02e-3, 0.004e-3),
    }
    limit = 0.1e-3
    for name, (x, y, u, v) in rows.items():
        if u == v:
            # The square of the distance follows the law of chi square off its centre.
            p = stats.ncx2.cdf((limit / u) ** 2, 2, (x * x + y * y) / u**2)
            recipe = "scipy.stats.ncx2.cdf"
        else:
            p, _ = integrate.dblquad(
                lambda r, t, x=x, y=y, u=u, v=v: (
                    r
                    * np.exp(-0.5 * ((r * np.cos(t) - x) / u) ** 2 - 0.5 * ((r * np.sin(t) - y) / v) ** 2)
                    / (2 * np.pi * u * v)
                ),
                0.0,
                2 * np.pi,
                0.0,
                limit,
                epsabs=1e-12,
                epsrel=1e-12,
            )
            recipe = "scipy.integrate.dblquad round the clock and outward"
        yield case(
            name,
            recipe,
            {"off_m": [x, y], "uncertainty_m": [u, v], "limit_m": limit},
            {"probability": p},
            within(1e-7, "where the outside double integral stops; Simpson's rule comes nearer"),
        )


def main():
    parts = [dials, turns, planes, shares, limits]
    document = {
        "recipe": "python/alignment.py",
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
