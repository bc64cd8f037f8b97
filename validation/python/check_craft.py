"""A check craft for diagnosis.py, made up: what its faults change of speeds and times, by scipy.

The pump's head is a parabola in its flow and its efficiency one, the jet a contraction with losses, the engine's
torque a parabola with a limiter, the hull a hump and a square. Direct drive; turns in revolutions a second.
"""

import math
from dataclasses import dataclass, replace

from scipy.integrate import quad
from scipy.optimize import brentq

G = 9.80665
TIGHT = {"xtol": 1e-13, "rtol": 1e-13}
MILE_H = 0.44704
# Where a time is not reached it is told as this, s.
CAP = 12.0


@dataclass(frozen=True)
class Craft:
    rho: float = 998.0
    diameter: float = 0.155
    nozzle: float = 0.086
    a0: float = 2.0
    a2: float = 5.24
    eta0: float = 0.80
    phi_d: float = 0.43
    phi_w: float = 0.50
    eps: float = 0.25
    psi: float = 0.02
    k_g: float = 0.0
    wake: float = 0.08
    deduction: float = 0.02
    p_r: float = 108_000.0
    n_r: float = 130.0
    k_e: float = 1.0
    mass: float = 430.0
    k2: float = 3.0
    alpha0: float = 0.0
    v_a: float = 8.0
    slip: float = 0.0
    f_a: float = 1.0

    def pump(self, n, v):
        alpha = self.alpha0 * math.exp(-v / self.v_a)
        rho, a0 = self.rho * (1 - alpha), self.a0 * (1 - 1.5 * alpha)
        area = math.pi * self.nozzle**2 / 4 * self.f_a
        over = a0 * (n * self.diameter) ** 2 + (1 - self.eps) * v * v / 2
        q = math.sqrt(over / (self.a2 / self.diameter**4 + (1 + self.psi + self.k_g) / (2 * area**2)))
        head = a0 * (n * self.diameter) ** 2 - self.a2 * q * q / self.diameter**4
        phi = q / (n * self.diameter**3)
        eta = max(0.2, self.eta0 * (1 - ((phi - self.phi_d) / self.phi_w) ** 2))
        jet = q / area
        return {
            "flow_m3_s": q,
            "head_j_kg": head,
            "flow_number": phi,
            "efficiency": eta,
            "power_w": rho * q * head / eta,
            "thrust_n": rho * q * (jet - (1 - self.wake) * v) * (1 - self.deduction),
            "jet_m_s": jet,
        }

    def torque(self, n):
        return self.k_e * self.p_r / (2 * math.pi * self.n_r) * (1.027 - 1.2 * (n / self.n_r - 0.85) ** 2)

    def turns(self, v):
        """Of the engine, where its torque is the pump's, or at the limiter."""

        def over(n):
            turned = n * (1 - self.slip)
            return self.torque(n) - self.pump(turned, v)["power_w"] / (2 * math.pi * turned)

        limit = 1.03 * self.n_r
        return limit if over(limit) >= 0 else brentq(over, 40, limit, **TIGHT)

    def thrust(self, v):
        return self.pump(self.turns(v) * (1 - self.slip), v)["thrust_n"]

    def resistance(self, v):
        return self.mass * G * 0.17 * math.exp(-(((v - 5.5) / 3) ** 2)) + self.k2 * v * v

    def top(self):
        return brentq(lambda v: self.thrust(v) - self.resistance(v), 12, 45, xtol=1e-12, rtol=1e-12)

    def reaching(self, speed):
        """Time from rest, s; none where it is never reached."""
        if self.top() <= speed:
            return None

        def slowness(v):
            return 1.05 * self.mass / (self.thrust(v) - self.resistance(v))

        return quad(slowness, 0, speed, epsabs=1e-11, epsrel=1e-11, limit=400)[0]

    def seen(self):
        """Top speed and turns there, both times, turns off the line: m/s, a minute, s, s, a minute."""
        top = self.top()
        return [top, 60 * self.turns(top), self.reaching(30 * MILE_H), self.reaching(50 * MILE_H), 60 * self.turns(3)]


SOUND = Craft()
FAULTS = {
    "Clearance": lambda s: {"a0": 2.0 * (1 - 0.12 * s), "eta0": 0.80 * (1 - 0.15 * s)},
    "Air": lambda s: {"alpha0": 0.35 * s},
    "Grate": lambda s: {"eps": 0.25 + 0.5 * s, "k_g": 0.25 * s},
    "Blade": lambda s: {"a0": 2.0 * (1 - 0.04 * s), "eta0": 0.80 * (1 - 0.12 * s)},
    "NozzleWide": lambda s: {"f_a": 1 + 0.12 * s},
    "NozzleNarrow": lambda s: {"f_a": 1 - 0.12 * s},
    "Engine": lambda s: {"k_e": 1 - 0.20 * s},
    "Dirty": lambda s: {"k2": 3.0 * (1 + 0.30 * s)},
    "Heavy": lambda s: {"mass": 430.0 + 150 * s, "k2": 3.0 * (1 + 0.12 * s)},
    "Slip": lambda s: {"slip": 0.12 * s},
}
SEVERITIES = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0]


def effects(fault, severity):
    """What it changes; a time that is not reached counts as the cap."""
    sound = SOUND.seen()
    ill = replace(SOUND, **FAULTS[fault](severity)).seen()
    return [(CAP if there is None else there) - was for there, was in zip(ill, sound, strict=True)]


def points():
    """Rows of the sound craft at some speeds."""
    for v in [0.0, 3.0, 15.0, 27.0]:
        n = SOUND.turns(v)
        yield v, {"rpm": 60 * n, **SOUND.pump(n, v), "resistance_n": SOUND.resistance(v)}
