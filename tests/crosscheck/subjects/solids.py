"""Stretch, growth, clamp, loads: small formulas, each by a way round."""

import mpmath as mp
import numpy as np
from scipy import constants, integrate, interpolate
from harness import Case, check


@check("inertia.stretch-with-own-mass", "scipy.integrate.quad", 1e-12, "the strain integrated along the beam, by quad to 1e-13")
def stretch(rng):
    for _ in range(1_000):
        length, area = float(rng.uniform(0.08, 0.3)), float(rng.uniform(5e-5, 2e-3))
        modulus, density = float(rng.uniform(6e10, 2.2e11)), float(rng.uniform(2500, 8000))
        force, a = float(rng.uniform(0, 2e5)), float(rng.uniform(0, 8e4))
        # the pull at x from the held end is the end's force and the mass beyond it
        strain = lambda x: (force + density * area * (length - x) * a) / (area * modulus)  # noqa: E731, B023
        yield Case([length, area, modulus, density, force, a], integrate.quad(strain, 0, length, epsabs=0, epsrel=1e-13)[0])


@check("expansion.closing", "mpmath", 1e-15, "a difference of two growths, against the larger")
def closing(rng):
    for _ in range(1_000):
        diameter = float(rng.uniform(0.03, 0.2))
        piston, bore = float(rng.uniform(1.7e-5, 2.5e-5)), float(rng.uniform(1e-5, 2.3e-5))
        hot, warm = float(rng.uniform(20, 300)), float(rng.uniform(0, 150))
        want = mp.mpf(diameter) * (mp.mpf(piston) * mp.mpf(hot) - mp.mpf(bore) * mp.mpf(warm))
        yield Case([diameter, piston, hot, bore, warm], float(want), diameter * max(piston * hot, bore * warm))


@check("expansion.closing-gap", "mpmath", 1e-15, "a difference of two circumferences, against the larger growth")
def closing_gap(rng):
    for _ in range(1_000):
        bore = float(rng.uniform(0.03, 0.2))
        ring, wall = float(rng.uniform(9e-6, 1.3e-5)), float(rng.uniform(9e-6, 2.3e-5))
        hot, warm = float(rng.uniform(0, 300)), float(rng.uniform(0, 150))
        around = lambda a, t: mp.pi * mp.mpf(bore) * (1 + mp.mpf(a) * mp.mpf(t))  # noqa: E731, B023
        want = around(ring, hot) - around(wall, warm)
        yield Case([bore, ring, hot, wall, warm], float(want), np.pi * bore * max(ring * hot, wall * warm))


@check("bolt.clamp-ratio", "scipy.integrate.quad", 1e-12, "the pressure integrated over rings of the bore, by quad to 1e-13")
def clamp_ratio(rng):
    for _ in range(1_000):
        count, clamp = float(rng.integers(4, 8)), float(rng.uniform(1e4, 1e5))
        pressure, bore = float(rng.uniform(1e6, 2e7)), float(rng.uniform(0.05, 0.2))
        lift, _ = integrate.quad(lambda r: pressure * 2 * np.pi * r, 0, bore / 2, epsabs=0, epsrel=1e-13)
        yield Case([count, clamp, pressure, bore], count * clamp / lift)


@check("bolt.stress-area", "mpmath", 1.2e-5, "ASME B1.1 rounds 9/8 of the thread's height to 0.9743 p: off by 2.1e-5 p, with p/d of up to 0.2, squared")
def stress_area(rng):
    # the mean of the pitch diameter, 3/8 of the height down, and of a root cut off an eighth before its point
    for _ in range(1_000):
        d = float(rng.uniform(0.004, 0.03))
        p = d * float(rng.uniform(0.05, 0.2))
        high = mp.mpf(p) * mp.sqrt(3) / 2
        pitch = d - 2 * high * mp.mpf(3) / 8
        root = d + 2 * (high / 8 - high + high / 8)
        yield Case([d, p], float(mp.pi / 4 * ((pitch + root) / 2) ** 2))


@check("performance.torque-between", "scipy.interpolate.CubicHermiteSpline", 1e-12, "one cubic in two libraries' arithmetic")
def torque_between(rng):
    for _ in range(1_000):
        start, most = float(rng.uniform(200, 600)), float(rng.uniform(100, 1_200))
        end = start * float(rng.uniform(1.05, 1.5))
        last = most * float(rng.uniform(0.7, 1))
        curve = interpolate.CubicHermiteSpline([start, end], [most, last], [0, -last / end])
        highest = max(curve(np.linspace(start, end, 2_001)))
        if abs(highest / most - 1.01) < 1e-5:
            continue
        omega = float(rng.uniform(start, end))
        expected = curve(omega) if highest < 1.01 * most else float("nan")
        yield Case([omega, start, most, end, last], [float(expected)])


@check("performance.bmep", "scipy.integrate.quad", 1e-12, "the work of two turns of a constant torque over the displacement")
def bmep(rng):
    for _ in range(1_000):
        power, omega = float(rng.uniform(1e4, 2e6)), float(rng.uniform(100, 1200))
        displacement = float(rng.uniform(3e-4, 1e-2))
        work, _ = integrate.quad(lambda t: power, 0, 4 * np.pi / omega, epsabs=0, epsrel=1e-13)
        yield Case([power, omega, displacement], work / displacement)


@check("fuel.need", "scipy.constants", 2e-15, "a chain of unit factors")
def fuel_need(rng):
    lb_hp_h = constants.lb / (constants.hp * constants.hour)
    for _ in range(1_000):
        hp, bsfc = float(rng.uniform(50, 3000)), float(rng.uniform(0.35, 1.3))
        yield Case([hp * constants.hp, bsfc * lb_hp_h], hp * bsfc * constants.lb / constants.hour)
