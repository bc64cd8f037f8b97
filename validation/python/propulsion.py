"""Recipe of data/propulsion.json: water, hulls, and what drives a jet craft.

Water by iapws and gsw; planing by openplaning, and by the paper's equations under scipy's brentq; the regression
before planing by numpy. The craft itself is in jet.py.

Prints one JSON document. To record it again:

    python propulsion.py > ../data/propulsion.json

With `time`, prints the seconds of one balance of a small hull by openplaning, over speeds from 10 to 30 m/s.

SI throughout, unless a key says otherwise.
"""

import json
import math
import platform
import sys
import time
import warnings
from importlib.metadata import version

import gsw
import numpy as np
import scipy
from scipy.optimize import brentq

import jet
from jet import case, within

warnings.filterwarnings("ignore")
# The library asks for a package that says it will go.
from iapws import IAPWS95, SeaWater  # noqa: E402
from openplaning.openplaning import PlaningBoat  # noqa: E402

ZERO, ATMOSPHERE, G = 273.15, 0.101325, 9.80665
SEA = 0.03516504
# Not on whole degrees: a table would be at its worst.
TEMPERATURES = [0.02, 0.5, 2.5, 5.0, 7.5, 12.3, 15.0, 17.5, 22.5, 25.0, 27.5, 32.5, 37.5, 42.5, 47.5, 49.98]


def fresh():
    for t in TEMPERATURES:
        water = IAPWS95(T=t + ZERO, P=ATMOSPHERE)
        yield case(
            f"fresh at {t} degrees",
            "iapws.IAPWS95",
            {"temperature_k": t + ZERO},
            {
                "density_kg_m3": water.rho,
                "viscosity_m2_s": water.mu / water.rho,
                "vapour_pressure_pa": IAPWS95(T=t + ZERO, x=0).P * 1e6,
            },
            within(1e-4, "the fits of the supplementary releases, at 0.1 MPa"),
        )


def salt():
    for s in [0.002, 0.01, 0.02, 0.03, SEA]:
        for t in [0.5, 7.5, 15.0, 22.5, 32.5, 42.5, 49.5]:
            density = SeaWater(T=t + ZERO, P=ATMOSPHERE, S=s).rho
            assert abs(gsw.rho_t_exact(1e3 * s, t, 0) / density - 1) < 1e-6
            # In joules a gram. What the salt takes from the water's potential, it takes from the logarithm of the vapour's pressure.
            taken = gsw.chem_potential_water_t_exact(1e3 * s, t, 0) - gsw.chem_potential_water_t_exact(0, t, 0)
            pressure = IAPWS95(T=t + ZERO, x=0).P * 1e6 * math.exp(1e3 * taken / (461.5236 * (t + ZERO)))
            yield case(
                f"salinity {s} at {t} degrees",
                "iapws.SeaWater, gsw.rho_t_exact, gsw.chem_potential_water_t_exact",
                {"temperature_k": t + ZERO, "salinity": s},
                {"density_kg_m3": density, "vapour_pressure_pa": pressure},
                within(5e-4, "the equation of state of 1980; a factor on the vapour without temperature"),
            )


# What is not said of a hull.
PLAIN = {"ahr": 0.0, "roughness_penalty_type": 1, "wetted_lengths_type": 2}
PAPER = {
    "speed": 20.574, "weight": 266893.297, "beam": 4.2672, "lcg": 8.8392, "vcg": 0.6096, "r_g": 4.572, "beta": 10.0,
    "epsilon": 4.0, "vT": 0.4572, "lT": 8.8392, "rho": 999.8349, "nu": 9.290304e-7,
}  # fmt: skip
BOAT = {
    "speed": 13.07, "weight": 827400.0, "beam": 7.315, "lcg": 10.67, "vcg": 7.315 / 7, "r_g": 6.095, "beta": 15.0,
    "epsilon": 0.0, "vT": 7.315 / 7, "lT": 10.67, "Lf": 0.3048, "sigma": 1.0, "delta": 5.0, "ahr": 150e-6,
    "roughness_penalty_type": 2, "wetted_lengths_type": 3, "rho": 1025.87, "nu": 1.19e-6,
}  # fmt: skip
NARROW = {
    "speed": 8.33, "weight": 200 * G, "beam": 0.6, "lcg": 1.0, "vcg": 0.33, "r_g": 0.5, "beta": 10.0, "epsilon": 0.0,
    "vT": 0.1, "lT": 0.0, "ahr": 150e-6, "wetted_lengths_type": 1, "rho": 1013.0, "nu": 1.35e-6,
}  # fmt: skip
SMALL = {
    "weight": 420 * G, "beam": 1.0, "lcg": 1.05, "vcg": 0.45, "r_g": 0.8, "beta": 22.0, "epsilon": 0.0, "vT": 0.1,
    "lT": 0.0, "rho": 999.1026, "nu": 1.1386e-6,
}  # fmt: skip
BOX = {"l_air": 1.2, "h_air": 1.2, "b_air": 0.6, "C_shape": 1.0, "C_D": 0.7, "rho_air": 1.225}


def hulls():
    yield "the example of the paper", PAPER
    yield "the same, lengths of 1976", PAPER | {"wetted_lengths_type": 3}
    yield "the same, lengths by the rise of water", PAPER | {"wetted_lengths_type": 1}
    yield "a boat with flaps", BOAT
    yield "a narrow craft", NARROW
    for speed in [6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0]:
        yield f"a small craft at {speed}", SMALL | BOX | {"speed": speed}
    for kind in [1, 2, 3]:
        for speed in [9.0, 13.0, 18.0, 28.0]:
            yield f"a small craft at {speed}, lengths {kind}", SMALL | {"speed": speed, "wetted_lengths_type": kind}
    for key, value in [
        ("lcg", 0.85), ("lcg", 0.95), ("lcg", 1.15), ("weight", 330 * G), ("weight", 510 * G), ("vT", -0.05),
        ("epsilon", 3.0), ("epsilon", -3.0), ("beta", 5.0), ("beta", 30.0), ("beam", 0.8), ("vcg", 0.7), ("ahr", 200e-6),
    ]:  # fmt: skip
        yield f"a small craft, {key} {value:.4g}", SMALL | BOX | {"speed": 20.0, key: value}


def planing():
    for name, hull in hulls():
        hull = PLAIN | hull
        boat = PlaningBoat(**hull, g=G)
        boat.get_steady_trim(tolF=1e-9)
        # It turns the warnings on again.
        warnings.filterwarnings("ignore")
        boat.get_forces()
        assert np.abs(boat.net_force[1:]).max() < 1e-6 * boat.weight, (name, boat.net_force)
        yield case(
            name,
            "openplaning.PlaningBoat.get_steady_trim",
            hull,
            {
                "trim_deg": float(boat.tau),
                "length_ratio": float(boat.lambda_W),
                "keel_m": float(boat.L_K),
                "chine_m": float(boat.L_C),
                "area_m2": float(boat.wetted_bottom_area),
                "friction_coefficient": float(boat.C_f),
                "pressure_drag_n": float(boat.hydrodynamic_force[0]),
                "friction_drag_n": float(boat.skin_friction[0]),
                "air_drag_n": float(boat.air_resistance[0]),
                "resistance_n": float(-boat.thrust_force[0]),
            },
            within(2e-6, "flaps in feet and pounds there; a search that stops at a force"),
        )


def schoenherr(reynolds):
    return brentq(lambda c: 0.242 / c**0.5 - math.log10(reynolds * c), 1e-5, 0.1, xtol=1e-16, rtol=1e-14)


def by_the_paper(boat, general):
    """Trim, wetted length and drag by the equations of the paper, angles in degrees."""
    b, rho, v, beta = boat["beam"], boat["rho"], boat["speed"], boat["beta"]
    w = boat["weight"]
    cv2 = v * v / (G * b)
    target = w / (0.5 * rho * v * v * b * b)
    flat = brentq(lambda c: c - 0.0065 * beta * c**0.6 - target, (0.0039 * beta) ** 2.5, 10, xtol=1e-15, rtol=1e-14)

    def at(tau):
        def lift(lam):
            return tau**1.1 * (0.012 * lam**0.5 + 0.0055 * lam**2.5 / cv2) - flat

        lam = brentq(lift, 1e-9, 100, xtol=1e-14, rtol=1e-14)
        centre = lam * b * (0.75 - 1 / (5.21 * cv2 / lam**2 + 2.39))
        sin, cos = math.sin(math.radians(tau)), math.cos(math.radians(tau))
        d = 0.012 * lam**0.5 * tau**1.1
        v1 = v * math.sqrt(1 - (d - 0.0065 * beta * d**0.6) / (lam * cos))
        reynolds = v1 * lam * b / boat["nu"]
        cf = schoenherr(reynolds) if boat["line"] == "schoenherr" else 0.075 / (math.log10(reynolds) - 2) ** 2
        area = lam * b * b / math.cos(math.radians(beta))
        friction = 0.5 * rho * v1**2 * area * (cf + boat["allowance"])
        c, a = boat["lcg"] - centre, boat["vcg"] - b / 4 * math.tan(math.radians(beta))
        f, e = boat["below"], boat["epsilon"]
        moment = w * ((1 - sin * math.sin(math.radians(tau + e))) * c / cos - f * sin) + friction * (a - f)
        return (moment if general else c), lam, cf, w * sin / cos + friction / cos

    tau = brentq(lambda tau: at(tau)[0], 0.5, 12, xtol=1e-13, rtol=1e-14)
    return (tau, *at(tau)[1:])


def paper():
    example = {
        "weight": 60000 * 4.4482216152605, "beam": 14 * 0.3048, "lcg": 29 * 0.3048, "vcg": 2 * 0.3048, "beta": 10.0,
        "epsilon": 4.0, "below": 0.5 * 0.3048, "speed": 67.5 * 0.3048, "rho": 999.8349, "nu": 9.290304e-7,
        "allowance": 0.0004, "line": "schoenherr",
    }  # fmt: skip
    small = {
        "weight": 420 * G, "beam": 1.0, "lcg": 1.05, "vcg": 0.45, "beta": 22.0, "epsilon": 0.0, "below": 0.35,
        "rho": 999.1026, "nu": 1.1386e-6, "allowance": 0.0, "line": "ittc",
    }  # fmt: skip
    boats = [("the example", example), ("heavy water", example | {"rho": 1030.75})]
    boats += [(f"a small craft at {v}", small | {"speed": v}) for v in [10.0, 15.0, 20.0, 25.0, 30.0]]
    for name, boat in boats:
        for general in [False, True]:
            tau, lam, cf, drag = by_the_paper(boat, general)
            yield case(
                f"{name}, {'general' if general else 'simple'}",
                "scipy.optimize.brentq, nested",
                boat | {"general": general},
                {"trim_deg": tau, "length_ratio": lam, "friction_coefficient": cf, "resistance_n": drag},
                within(1e-9, "two searches of the same roots"),
            )


# Table VI of the report, a line for each term, a column for each Froude number of volume from 1.0 to 2.0.
TERMS = np.array([
    [.06473, .10776, .09483, .03475, .03013, .03163, .03194, .04343, .05036, .05612, .05967],
    [-.48630, -.88787, -.63720, 0, 0, 0, 0, 0, 0, 0, 0],
    [-.01030, -.01634, -.01540, -.00978, -.00664, 0, 0, 0, 0, 0, 0],
    [-.06490, -.13444, -.13580, -.05097, -.05540, -.10543, -.08599, -.13289, -.15597, -.18661, -.19758],
    [0, 0, -.16046, -.21880, -.19359, -.20540, -.19442, -.18062, -.17813, -.18288, -.20152],
    [.10628, .18186, .16803, .10434, .09612, .06007, .06191, .05487, .05099, .04744, .04645],
    [.97310, 1.83080, 1.55972, .43510, .51820, .58230, .52349, .78195, .92859, 1.18569, 1.30026],
    [-.00272, -.00389, -.00309, -.00198, -.00215, -.00372, -.00360, -.00332, -.00308, -.00244, -.00212],
    [.01089, .01467, .03481, .04113, .03901, .04794, .04436, .04187, .04111, .04124, .04343],
    [0, 0, 0, 0, 0, .08317, .07366, .12147, .14928, .18090, .19769],
    [-1.40962, -2.46696, -2.15556, -.92663, -.95276, -.70895, -.72057, -.95929, -1.12178, -1.38644, -1.55127],
    [.29136, .47305, 1.02992, 1.06392, .97757, 1.19737, 1.18119, 1.01562, .93144, .78414, .78282],
    [.02971, .05877, .05198, .02209, .02413, 0, 0, 0, 0, 0, 0],
    [-.00150, -.00356, -.00303, -.00105, -.00140, 0, 0, 0, 0, 0, 0],
])  # fmt: skip


def preplaning():
    shapes = [(420.0, 2.7, 1.0, 25.0, 0.9, 5.0), (350.0, 2.4, 0.9, 20.0, 0.8, 4.0), (2500.0, 6.0, 2.2, 30.0, 0.6, 6.0)]
    for mass, length, beam, entrance, transom, wide in shapes:
        for froude in [1.0001, 1.13, 1.2, 1.37, 1.55, 1.8, 1.9999]:
            rho, nu = 999.1026, 1.1386e-6
            volume = mass / rho
            x, u = volume ** (1 / 3) / length, math.sqrt(2 * entrance)
            z, w = volume / beam**3, transom
            terms = [
                1, x, u, w, x * z, x * u, x * w, z * u, z * w, w**2, x * w**2, z * x**2, u * w**2, w * u**2,
            ]  # fmt: skip
            columns = np.linspace(1, 2, 11)
            reference = sum(t * np.interp(froude, columns, row) for t, row in zip(terms, TERMS, strict=True))
            speed = froude * math.sqrt(G * volume ** (1 / 3))

            def line(reynolds):
                return 0.075 / (math.log10(reynolds) - 2) ** 2

            standard = froude / x * math.sqrt(32.2 * 1e5 / 64) / 1.2817e-5
            wetted = 2.262 * math.sqrt(1 / x) * (1 + 0.046 * wide + 0.00287 * wide**2)
            ratio = reference + (line(speed * length / nu) - line(standard)) * wetted * froude**2 / 2
            yield case(
                f"{mass} kg, {length} m at {froude}",
                "numpy.interp over the table",
                {
                    "mass_kg": mass, "length_m": length, "beam_m": beam, "entrance_deg": entrance, "transom": transom,
                    "beam_draft": wide, "speed_m_s": speed, "density_kg_m3": rho, "viscosity_m2_s": nu,
                },  # fmt: skip
                {"reference": float(reference), "ratio": float(ratio), "resistance_n": float(ratio * mass * G)},
                within(1e-10, "the same sums in another order"),
            )


PARTS = {
    "fresh": fresh,
    "salt": salt,
    "planing": planing,
    "paper": paper,
    "preplaning": preplaning,
    **jet.PARTS,
}


def timed():
    """Seconds of one balance, nothing told of it, the least of three rounds."""
    speeds = np.linspace(10, 30, 200)
    best = math.inf
    for _ in range(3):
        boats = [PlaningBoat(**(PLAIN | SMALL | {"speed": float(v)}), g=G) for v in speeds]
        start = time.perf_counter()
        for boat in boats:
            boat.get_steady_trim()
        best = min(best, (time.perf_counter() - start) / len(boats))
    warnings.filterwarnings("ignore")
    total = 0.0
    for boat in boats:
        boat.get_forces()
        total -= boat.thrust_force[0]
    print(json.dumps({"seconds": best, "mean_resistance_n": float(total) / len(boats)}))


def main():
    if sys.argv[1:] == ["time"]:
        timed()
        return
    document = {
        "recipe": "python/propulsion.py",
        "libraries": {
            "python": ".".join(platform.python_version_tuple()[:2]),
            "numpy": np.__version__,
            "scipy": scipy.__version__,
            **{name: version(name) for name in ["gsw", "iapws", "openplaning"]},
        },
        **{name: list(part()) for name, part in PARTS.items()},
    }
    print(json.dumps(document, indent=1))


if __name__ == "__main__":
    main()
