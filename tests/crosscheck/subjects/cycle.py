"""A cylinder's closed cycle: the same physics written anew, gases by Cantera, integrated by scipy's solve_ivp; and the knock integral over it."""

import cantera as ct
import numpy as np
from scipy import integrate, optimize
from harness import Case, check
from subjects import gas as gases

DEGREE = np.pi / 180


class Mixture:
    """Per kg: constant, and cp, h by the polynomials that Cantera holds for its species."""

    def __init__(self, phase):
        share = phase.Y / phase.molecular_weights * ct.gas_constant
        self.constant = float(np.sum(share))
        high = sum(s * k.thermo.coeffs[1:7] for s, k in zip(share, phase.species()))
        low = sum(s * k.thermo.coeffs[8:14] for s, k in zip(share, phase.species()))
        self.ranges = [float(v) for v in low], [float(v) for v in high]

    @classmethod
    def blend(cls, one, other, share):
        new = cls.__new__(cls)
        new.constant = (1 - share) * one.constant + share * other.constant
        new.ranges = [[(1 - share) * a + share * b for a, b in zip(x, y)] for x, y in zip(one.ranges, other.ranges)]
        return new

    def both(self, t):
        a, b, c, d, e, f = self.ranges[int(t >= 1000.0)]
        cp = a + t * (b + t * (c + t * (d + t * e)))
        return cp, f + t * (a + t * (b / 2 + t * (c / 3 + t * (d / 4 + t * e / 5))))


@check("cycle.wiebe", "scipy.integrate.quad", 3e-14, "the curve as the integral of its own rate, by quad to 1e-13 of a few hundredths and more; a share of one less an exponential is known to eps, and turned round to eps over the rate")
def wiebe(rng):
    for _ in range(600):
        progress, form = float(rng.uniform(0.02, 1.0)), float(rng.uniform(0.5, 4))
        rate = lambda y: 5 * (form + 1) * y**form * np.exp(-5 * y ** (form + 1))  # noqa: E731, B023
        burned, _ = integrate.quad(rate, 0, progress, epsabs=0, epsrel=1e-13, limit=200)
        yield Case([progress, form], [burned, progress], [1.0, max(1.0, 1 / rate(progress))])


def setup(rng, crevice):
    """Geometry, fuel, burn and speed of some engine."""
    bore = float(rng.uniform(0.07, 0.12))
    radius = bore * float(rng.uniform(0.35, 0.55))
    rod, offset = radius * float(rng.uniform(3, 4.5)), radius * float(rng.choice([0.0, 0.02]))
    area = np.pi / 4 * bore**2
    clearance = area * 2 * radius / (float(rng.uniform(7, 14)) - 1)
    return {
        "bore": bore, "radius": radius, "rod": rod, "offset": offset, "clearance": clearance, "area": area,
        "crevice": clearance * float(rng.uniform(0.01, 0.03)) if crevice else 0.0,
        "closing": float(np.radians(rng.uniform(30, 85))), "opening": float(np.radians(rng.uniform(40, 90))),
        "richness": float(rng.uniform(0.9, 1.3)), "residual": float(rng.uniform(0.0, 0.1)),
        "temperature": float(rng.uniform(310, 420)), "half": float(np.radians(rng.uniform(4, 20))),
        "duration": float(np.radians(rng.uniform(35, 80))), "form": float(rng.uniform(2.0, 3.5)),
        "efficiency": float(rng.uniform(0.93, 1.0)), "walls": float(rng.uniform(400, 500)),
        "scale": float(rng.uniform(0.0, 1.5)), "speed": float(rng.uniform(200, 900)),
        "density": float(rng.uniform(0.6, 1.8)),
    }  # fmt: skip


def integrated(s, fuel):
    """Pressure at inlet closing, exhaust opening, work, heat, pressures at every tenth degree, and the greatest."""
    spent = Mixture(gases.burned(fuel, s["richness"], 300.0))
    gases.mixed(gases.GAS, fuel, s["richness"])
    raw = Mixture.blend(Mixture(gases.GAS), spent, s["residual"])
    bore, r, rod, d, area = s["bore"], s["radius"], s["rod"], s["offset"], s["area"]
    top = np.sqrt((rod + r) ** 2 - d * d)
    stroke = top - np.sqrt((rod - r) ** 2 - d * d)
    bottom = np.pi + np.arcsin(d / (rod - r))
    start, end = bottom - 2 * np.pi + s["closing"], bottom - s["opening"]
    swept = area * stroke
    mass = s["density"] * swept
    piston = stroke * s["speed"] / np.pi
    ignition = s["half"] - s["duration"] * (np.log(2) / 5) ** (1 / (s["form"] + 1))
    held, wall = s["crevice"] / s["walls"], s["walls"]

    def height(angle):
        across = r * np.sin(angle) - d
        return top - r * np.cos(angle) - np.sqrt(rod * rod - across * across)

    def volume(angle):
        return s["clearance"] + area * height(angle)

    def speed(angle):
        across = r * np.sin(angle) - d
        return r * np.sin(angle) + across * r * np.cos(angle) / np.sqrt(rod * rod - across * across)

    def burned(angle):
        y = max(0.0, (angle - ignition) / s["duration"])
        left = np.exp(-5 * y ** (s["form"] + 1))
        return s["efficiency"] * (1 - left), s["efficiency"] * 5 * (s["form"] + 1) * y ** s["form"] * left / s["duration"]

    def pressure(angle, t):
        x, _ = burned(angle)
        constant = (1 - x) * raw.constant + x * spent.constant
        return mass * constant * t / (volume(angle) + held * t)

    v0 = volume(start)
    p0 = pressure(start, s["temperature"])

    def change(angle, y, lit):
        t = y[0]
        v, dv = volume(angle), area * speed(angle)
        x, dx = burned(angle) if lit else (0.0, 0.0)
        cp_u, h_u = raw.both(t)
        cp_b, h_b = spent.both(t)
        constant = (1 - x) * raw.constant + x * spent.constant
        cv = (1 - x) * cp_u + x * cp_b - constant
        apart = (h_b - spent.constant * t) - (h_u - raw.constant * t)
        p = mass * constant * t / (v + held * t)
        inside = p * v / (constant * t)
        gas_speed = 2.28 * piston
        if lit:
            motored = p0 * (v0 / v) ** 1.3
            gas_speed += 3.24e-3 * swept * s["temperature"] / (p0 * v0) * max(0.0, p - motored)
        transfer = s["scale"] * 3.26 * bore**-0.2 * (p / 1e3) ** 0.8 * t**-0.55 * gas_speed**0.8
        surface = 2 * area + np.pi * bore * (height(angle) + s["clearance"] / area)
        heat = transfer * surface * (t - wall) / s["speed"]
        # m (cv dT + (ub - uu) dx) + u dm = -p dV - dQ - h dmc, with dm = -dmc and the crevice's own
        # mc = M held T/(V + held T), so dmc = M held (V dT - T dV)/(V + held T)^2
        drive = -p * dv - heat - inside * apart * dx
        if held == 0.0:
            return [drive / (inside * cv), p * dv, heat]
        own = (1 - x) * h_u + x * h_b
        flow = mass * held / (v + held * t) ** 2
        for carried in (own, (1 - x) * raw.both(wall)[1] + x * spent.both(wall)[1]):
            lost = carried - (own - constant * t)
            dt = (drive + lost * flow * t * dv) / (inside * cv + lost * flow * v)
            into = v * dt - t * dv > 0
            if into == (carried is own):
                break
        return [dt, p * dv, heat]

    y, pieces = [s["temperature"], 0.0, 0.0], []
    for a, b, lit in ((start, min(max(ignition, start), end), False), (max(ignition, start), end, True)):
        if b > a:
            piece = integrate.solve_ivp(change, (a, b), y, "DOP853", args=(lit,), rtol=1e-9, atol=1e-9, dense_output=True, max_step=0.2)
            y = piece.y[:, -1]
            pieces.append((a, b, piece.sol))
    first, last = np.ceil(start / DEGREE + 1e-9), np.floor(end / DEGREE - 1e-9)
    at = lambda angle: pressure(angle, next(sol for a, b, sol in pieces if angle <= b or b == end)(angle)[0])  # noqa: E731
    degrees = [g for g in range(-360, 361, 10) if first <= g <= last]
    # the greatest at a whole degree first, then between its neighbours
    every = np.arange(first, last + 1) * DEGREE
    crest = every[int(np.argmax([at(a) for a in every]))]
    found = optimize.minimize_scalar(lambda a: -at(a), bounds=(crest - DEGREE, crest + DEGREE), method="bounded", options={"xatol": 1e-7})
    trace = [at(g * DEGREE) for g in degrees]
    return [p0, at(end), y[1], y[2], *trace, -found.fun], mass


def closed(rng, crevice, count):
    for _ in range(count):
        s = setup(rng, crevice)
        moles, fuel = gases.random_fuel(rng)
        want, mass = integrated(s, fuel)
        args = [
            [s[k] for k in ("bore", "radius", "rod", "offset", "clearance", "crevice", "closing", "opening")], moles, s["richness"],
            [s[k] for k in ("residual", "temperature", "walls", "scale")], [s[k] for k in ("half", "duration", "form", "efficiency")],
            s["speed"], mass,
        ]  # fmt: skip
        peak = want[-1]
        # work and heat against what the peak pressure would do over the swept volume
        yield Case(args, want, [want[0], peak, 0.1 * peak * mass / s["density"], 0.1 * peak * mass / s["density"], *[peak] * (len(want) - 4)])


@check("cycle.closed", "Cantera, scipy.integrate.solve_ivp", 2e-4, "steps of one degree by Runge and Kutta's fourth order, into which the burn starts somewhere: 5 (1/35)^3 = 1.2e-4 of the charge burns in its first degree, of which the step sees most; solve_ivp to 1e-9")
def without_crevice(rng):
    yield from closed(rng, False, 350)


@check("cycle.closed", "the same, with crevice", 2e-4, "as without; where the crevice's flow turns round within a step the slope jumps a little")
def with_crevice(rng):
    yield from closed(rng, True, 200)
