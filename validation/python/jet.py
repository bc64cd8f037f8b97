"""A jet craft for propulsion.py: jet, pump, engine, breakdown and surge, from their equations by scipy.

The pump is a helical mean line: mass-averaged radius, pitch lengths at both edges, losses of incidence, stator and
skin; the craft a parabola, the engine a parabola. All made up.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

G = 9.80665
RPM = math.pi / 30
TIGHT = {"xtol": 1e-13, "rtol": 1e-14}


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def within(relative, because):
    return {"relative": relative, "because": because}


def efficiency(mu, phi, eps, c_m, c_e2):
    return 2 * mu * (1 - c_m * mu) / ((1 + phi) - (1 - eps) * c_e2 * mu**2)


def jets():
    sets = [(0.0, 0.0, 1.0, 1.0), (0.02, 0.20, 1.0, 1.0), (0.02, 0.20, 8 / 9, 0.8), (0.05, 0.30, 0.95, 0.91)]
    for phi, eps, c_m, c_e2 in sets:
        ratios = [0.5, 0.6, 0.7, 0.8]
        yield case(
            f"nozzle loss {phi}, intake loss {eps}, wake {c_m:.3f}",
            "jet efficiency from its definition",
            {"nozzle_loss": phi, "intake_loss": eps, "momentum": c_m, "energy": c_e2, "speed_ratios": ratios},
            {"efficiencies": [efficiency(mu, phi, eps, c_m, c_e2) for mu in ratios]},
            within(1e-12, "one formula"),
        )


def optima():
    for phi, eps in [(0.02, 0.1), (0.02, 0.2), (0.02, 0.3), (0.04, 0.25)]:
        best = minimize_scalar(
            lambda mu: -efficiency(mu, phi, eps, 1, 1), bounds=(0.2, 1.0), method="bounded", options={"xatol": 1e-11}
        )
        yield case(
            f"nozzle loss {phi}, intake loss {eps}",
            "scipy.optimize.minimize_scalar",
            {"nozzle_loss": phi, "intake_loss": eps},
            {"speed_ratio": float(best.x), "efficiency": float(-best.fun)},
            within(1e-6, "a search that sees only the root of the last digit"),
        )


def wake(delta, height, m):
    """Momentum and energy of a boundary layer of power 1/m with capture up to a height, by numpy's quadrature."""
    nodes, weights = np.polynomial.legendre.leggauss(200)

    def integral(power, low, high):
        # In the m-th root of the height the profile is a polynomial.
        s = 0.5 * (high - low) * (nodes + 1) + low
        return float(np.sum(weights * m * s ** (m - 1) * s**power) * 0.5 * (high - low))

    top = min(height / delta, 1.0) ** (1 / m)
    outside = max(height - delta, 0.0)
    return [delta * integral(k, 0.0, top) + outside for k in (1, 2, 3)]


def w1():
    rho, nu, v, vj, d_n = 999.1026, 1.1386e-6, 25.0, 38.0, 0.086
    phi, eps, x, b_c = 0.02, 0.20, 1.5, 0.26
    for m, reach in [(7, x), (9, x), (7, 30.0)]:
        area = math.pi * d_n**2 / 4
        q = area * vj
        delta = 0.37 * reach * (v * reach / nu) ** -0.2
        flow = q / (v * b_c)
        height = brentq(lambda h: wake(delta, h, m)[0] - flow, 1e-9, 1.0, **TIGHT)
        _, momentum, energy = wake(delta, height, m)
        c_m, c_e2 = momentum / flow, energy / flow
        gross = rho * q * (vj - c_m * v)
        head = ((1 + phi) * vj**2 - (1 - eps) * c_e2 * v**2) / 2
        npsh = (101325 - 1705.8) / (rho * G) + (1 - eps) * c_e2 * v**2 / (2 * G)
        still = math.sqrt(2 * head / (1 + phi))
        yield case(
            f"a jet at {v} m/s, wake of power 1/{m} after {reach} m",
            "numpy quadrature of the profile, scipy.optimize.brentq",
            {
                "density_kg_m3": rho, "viscosity_m2_s": nu, "speed_m_s": v, "jet_m_s": vj, "nozzle_m": d_n,
                "nozzle_loss": phi, "intake_loss": eps, "power": m, "run_m": reach, "capture_m": b_c,
                "air_pa": 101325.0, "vapour_pa": 1705.8, "pump_efficiency": 0.80,
            },  # fmt: skip
            {
                "flow_m3_s": q, "mass_flow_kg_s": rho * q, "layer_m": delta, "height_m": height, "momentum": c_m,
                "energy": c_e2, "thrust_n": gross, "head_j_kg": head, "power_w": rho * q * head,
                "shaft_w": rho * q * head / 0.80, "efficiency": gross * v / (rho * q * head),
                "npsh_m": npsh, "bollard_jet_m_s": still, "bollard_n": rho * area * still**2,
            },  # fmt: skip
            within(1e-9, "a quadrature and a search"),
        )


@dataclass(frozen=True)
class Craft:
    """W2's pump and W3's craft; angles in degrees, the gap as factors on head and efficiency."""

    diameter_m: float = 0.155
    hub_ratio: float = 0.45
    leading_deg: float = 15.0
    trailing_deg: float = 21.0
    solidity: float = 1.3
    incidence: float = 0.30
    friction: float = 0.05
    stator: float = 0.30
    mechanical: float = 0.97
    nozzle_m: float = 0.086
    nozzle_loss: float = 0.02
    intake_loss: float = 0.20
    wake: float = 0.05
    density_kg_m3: float = 999.1026
    vapour_pa: float = 1705.8
    air_pa: float = 101325.0
    head_factor: float = 1.0
    efficiency_factor: float = 1.0
    torque_nm: float = 200.0
    peak_rpm: float = 6000.0
    fall: float = 1.2
    limit_rpm: float = 8000.0
    hull_n_s2_m2: float = 3.5

    @property
    def area(self):
        return math.pi * self.diameter_m**2 * (1 - self.hub_ratio**2) / 4

    @property
    def deviation(self):
        return 0.26 * (self.trailing_deg - self.leading_deg) / self.solidity**0.5

    @property
    def pitches(self):
        at = [self.leading_deg, self.trailing_deg - self.deviation]
        return [math.pi * self.diameter_m * math.tan(math.radians(angle)) for angle in at]

    def blade(self, n, q):
        """Work put in and head got, per mass, at revolutions a second and a flow."""
        p1, p2 = self.pitches
        e = (2 * math.pi * n) ** 2 * self.diameter_m**2 * (1 + self.hub_ratio**2) / 8
        f1, f2 = q / (self.area * n * p1), q / (self.area * n * p2)
        work = e * (1 - f2)
        lost = 0.5 * self.incidence * (1 - f1) ** 2 + 0.5 * self.stator * (1 - f2) ** 2
        head = e * ((1 - f2) - lost) - 0.5 * self.friction * ((q / self.area) ** 2 + e)
        return work, head * self.head_factor

    def required(self, q, v):
        jet = q / (math.pi * self.nozzle_m**2 / 4)
        return ((1 + self.nozzle_loss) * jet**2 - (1 - self.intake_loss) * (1 - self.wake) ** 2 * v**2) / 2

    def suction(self, v):
        """Energy above the vapour's at the inlet."""
        ram = (1 - self.intake_loss) * (1 - self.wake) ** 2 * v**2 / 2
        return (self.air_pa - self.vapour_pa) / self.density_kg_m3 + ram

    def flow(self, n, v, b=1.0):
        p2 = self.pitches[1]
        return brentq(lambda q: b * self.blade(n, q)[1] - self.required(q, v), 1e-6, self.area * n * p2, **TIGHT)

    def suction_speed(self, n, q, v):
        return 2 * math.pi * n * q**0.5 / self.suction(v) ** 0.75

    def broken(self, n, v, s_b, m=10):
        """The factor on the head that the flow it leaves gives again."""
        if s_b is None:
            return 1.0

        def over(b):
            return b - 1 / (1 + (self.suction_speed(n, self.flow(n, v, b), v) / s_b) ** m)

        return brentq(over, 1e-3, 1.0, **TIGHT) if over(1.0) > 0 else 1.0

    def point(self, n, v, s_b=None):
        b = self.broken(n, v, s_b)
        q = self.flow(n, v, b)
        work, head = self.blade(n, q)
        head *= b
        jet = q / (math.pi * self.nozzle_m**2 / 4)
        power = self.density_kg_m3 * q * work * self.head_factor / (self.mechanical * self.efficiency_factor)
        power *= b**0.7
        return {
            "flow_m3_s": q,
            "head_j_kg": head,
            "power_w": power,
            "thrust_n": self.density_kg_m3 * q * (jet - (1 - self.wake) * v),
            "efficiency": self.density_kg_m3 * q * head / power,
            "jet_m_s": jet,
            "specific_speed": 2 * math.pi * n * q**0.5 / head**0.75,
            "suction_speed": self.suction_speed(n, q, v),
            "breakdown": b,
        }

    def torque(self, n):
        return self.torque_nm * (1 - self.fall * ((60 * n - self.peak_rpm) / self.peak_rpm) ** 2)

    def turns(self, v, s_b=None, limited=True):
        """Revolutions a second at which engine and pump agree, or the limiter's."""

        def over(n):
            return self.torque(n) - self.point(n, v, s_b)["power_w"] / (2 * math.pi * n)

        top = self.limit_rpm / 60
        if limited and over(top) >= 0:
            return top
        # From above: where the pump has broken down it may agree twice, and the engine comes from the limiter.
        grid = np.linspace(top, 2000 / 60, 61)
        low = next(n for n in grid if over(n) > 0)
        return brentq(over, low, low + grid[0] - grid[1], xtol=1e-11, rtol=1e-13)

    def steady(self):
        def over(v):
            return self.point(self.turns(v), v)["thrust_n"] - self.hull_n_s2_m2 * v**2

        v = brentq(over, 5, 60, xtol=1e-10, rtol=1e-12)
        return v, self.turns(v)


BASE = Craft()


def named(craft):
    return {key: getattr(craft, key) for key in craft.__dataclass_fields__}


def pumps():
    for rpm, v in [(7500, 0), (7500, 10), (7500, 20), (7500, 28), (6000, 20), (6800, 15)]:
        found = BASE.point(rpm / 60, v)
        del found["breakdown"]
        p1, p2 = BASE.pitches
        yield case(
            f"{rpm} turns a minute at {v} m/s",
            "scipy.optimize.brentq of pump against duct",
            named(BASE) | {"speed_m_s": float(v), "shaft_rpm": float(rpm)},
            found
            | {
                "area_m2": BASE.area,
                "deviation_deg": BASE.deviation,
                "leading_pitch_m": p1,
                "trailing_pitch_m": p2,
            },
            within(1e-9, "a quadratic and a search"),
        )


CHANGES = {
    "as it is": {},
    "trailing +1": {"trailing_deg": 22.0},
    "trailing -1": {"trailing_deg": 20.0},
    "leading +1": {"leading_deg": 16.0},
    "both +1": {"leading_deg": 16.0, "trailing_deg": 22.0},
    "both -1": {"leading_deg": 14.0, "trailing_deg": 20.0},
    "nozzle +1 mm": {"nozzle_m": 0.087},
    "nozzle -1 mm": {"nozzle_m": 0.085},
    "nozzle +3 mm": {"nozzle_m": 0.089},
    "diameter +1 mm": {"diameter_m": 0.156},
    "sea water, density alone": {"density_kg_m3": 1026.0210},
    "torque +5 %": {"torque_nm": 210.0},
    "torque -5 %": {"torque_nm": 190.0},
    "intake loss 0.30": {"intake_loss": 0.30},
    "intake loss 0.10": {"intake_loss": 0.10},
    "wake 0.10": {"wake": 0.10},
    "hull +10 %": {"hull_n_s2_m2": 3.85},
    "nozzle loss 0.04": {"nozzle_loss": 0.04},
    "gap: head 0.97, efficiency 0.98": {"head_factor": 0.97, "efficiency_factor": 0.98},
    "gap: head 0.94, efficiency 0.96": {"head_factor": 0.94, "efficiency_factor": 0.96},
}


def crafts():
    base_v, base_n = BASE.steady()
    for name, change in CHANGES.items():
        craft = replace(BASE, **change)
        v, n = craft.steady()
        found = craft.point(n, v)
        yield case(
            name,
            "scipy.optimize.brentq, nested: flow, turns, speed",
            named(craft),
            {
                "speed_m_s": v,
                "shaft_rpm": 60 * n,
                "more_speed_km_h": 3.6 * (v - base_v),
                "more_rpm": 60 * (n - base_n),
                "flow_m3_s": found["flow_m3_s"],
                "power_w": found["power_w"],
                "thrust_n": found["thrust_n"],
                "efficiency": found["efficiency"],
                "suction_speed": found["suction_speed"],
            },
            within(1e-7, "searches within searches"),
        )


def suctions():
    speeds = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0]
    craft = replace(BASE)
    yield case(
        "fresh water, 15 degrees",
        "the energy above the vapour's",
        named(craft) | {"speeds_m_s": speeds},
        {"npsh_m": [craft.suction(v) / G for v in speeds]},
        within(1e-12, "one formula"),
    )


def breakdowns():
    for v in [0.0, 5.0, 10.0, 20.0, 28.0]:
        n = BASE.turns(v, 9.0)
        found = BASE.point(n, v, 9.0)
        yield case(
            f"at {v} m/s",
            "scipy.optimize.brentq, nested: breakdown, flow, turns",
            named(BASE) | {"speed_m_s": v, "suction_limit": 9.0, "steepness": 10.0, "power_share": 0.7},
            {
                "shaft_rpm": 60 * n,
                "thrust_n": found["thrust_n"],
                "flow_m3_s": found["flow_m3_s"],
                "power_w": found["power_w"],
                "suction_speed": found["suction_speed"],
                "breakdown": found["breakdown"],
            },
            within(1e-7, "searches within searches"),
        )


def weather():
    for dry, celsius in [(99, 25), (100, 15), (101, 10), (97, 30), (95, 35)]:
        yield case(
            f"{dry} kPa, {celsius} degrees",
            "the two formulas",
            {"dry_pa": 1e3 * dry, "temperature_k": celsius + 273.15},
            {
                "j1349": 1.18 * (990 / (10 * dry)) * math.sqrt((celsius + 273) / 298) - 0.18,
                "iso1585": (99 / dry) ** 1.2 * ((celsius + 273) / 298) ** 0.6,
            },
            within(1e-12, "one formula"),
        )


def run(force, mass, v0, times):
    """Speeds and ways by an integrator; the forces are smooth."""
    found = solve_ivp(
        lambda t, y: [force(y[0]) / mass, y[0]], (0, times[-1]), [v0, 0.0], "DOP853", times, rtol=1e-11, atol=1e-11
    )
    return {"speeds_m_s": found.y[0].tolist(), "ways_m": found.y[1].tolist()}


def launches():
    times = [1.0, 2.0, 3.0, 5.0, 10.0]
    for name, s_b in [("no breakdown", None), ("with breakdown", 9.0)]:

        def force(v, s_b=s_b):
            n = BASE.turns(v, s_b, limited=s_b is not None)
            return BASE.point(n, v, s_b)["thrust_n"] - BASE.hull_n_s2_m2 * v * v

        # The limiter and the breakdown bend the thrust; small steps where they do.
        found = run(force, 441.0, 0.0, times)
        found["shaft_rpm"] = [60 * BASE.turns(v, s_b, limited=s_b is not None) for v in found["speeds_m_s"]]
        found["first_thrust_n"] = force(0.0)
        yield case(
            f"from rest, {name}",
            "scipy.integrate.solve_ivp over scipy.optimize.brentq",
            named(BASE) | {"mass_kg": 441.0, "suction_limit": s_b, "steepness": 10.0, "power_share": 0.7, "times_s": times},
            found,
            within(1e-5, "two integrators"),
        )


PARTS = {
    "jets": jets,
    "optima": optima,
    "wakes": w1,
    "pumps": pumps,
    "crafts": crafts,
    "suctions": suctions,
    "breakdowns": breakdowns,
    "weather": weather,
    "launches": launches,
}
