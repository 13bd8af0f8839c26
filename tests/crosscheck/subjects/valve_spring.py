"""Coil springs, by the energy of their twist and the modes of a chain of masses."""

import mpmath as mp
import numpy as np
from scipy import integrate, linalg, optimize
from harness import Case, check


def coil(rng):
    wire = float(rng.uniform(0.002, 0.008))
    return [wire, wire * float(rng.uniform(3, 12)), float(rng.uniform(2, 12)), float(rng.uniform(7e10, 8.5e10)), float(rng.uniform(7500, 8000))]


@check("valve_spring.rate", "scipy.integrate.quad", 1e-12, "the twist's energy along the wire for one newton, and its volume, by quad to 1e-13")
def rate(rng):
    for _ in range(1_000):
        wire, mean, active, shear, density = one = coil(rng)
        polar, _ = integrate.quad(lambda r: 2 * np.pi * r**3, 0, wire / 2, epsabs=0, epsrel=1e-13)  # noqa: B023
        area, _ = integrate.quad(lambda r: 2 * np.pi * r, 0, wire / 2, epsabs=0, epsrel=1e-13)
        long = np.pi * mean * active
        energy, _ = integrate.quad(lambda s: (mean / 2) ** 2 / (2 * shear * polar), 0, long, epsabs=0, epsrel=1e-13)  # noqa: B023
        yield Case(one, [1 / (2 * energy), density * area * long])


# a rod of N like springs and masses between two walls, stiffness and mass one
CHAIN = 2_000
LOWEST = np.sqrt(linalg.eigh_tridiagonal(np.full(CHAIN - 1, 2.0), np.full(CHAIN - 2, -1.0), select="i", select_range=(0, 0))[0][0]) * CHAIN


@check("valve_spring.surge", "scipy.linalg.eigh_tridiagonal", 2e-7, "a chain of 2,000 masses: its lowest mode is (pi/4,000)^2/6 = 1.0e-7 under the rod's")
def surge(rng):
    for _ in range(1_000):
        wire, mean, active, shear, density = one = coil(rng)
        stiff = shear * wire**4 / (8 * mean**3 * active)
        mass = density * np.pi / 4 * wire**2 * np.pi * mean * active
        yield Case(one, [LOWEST * np.sqrt(stiff / mass) / (2 * np.pi)] * 2)


@check("valve_spring.stress", "scipy.integrate.quad", 1e-12, "twist and direct shear of a round bar from its section's integrals")
def stress(rng):
    for _ in range(1_000):
        one = coil(rng)
        force = float(rng.uniform(50, 5000))
        wire, mean = one[0], one[1]
        polar, _ = integrate.quad(lambda r: 2 * np.pi * r**3, 0, wire / 2, epsabs=0, epsrel=1e-13)
        yield Case([*one, force], force * mean / 2 * (wire / 2) / polar + force / (np.pi / 4 * wire**2))


@check("valve_spring.factors", "mpmath (rational)", 1e-15, "a handful of roundings")
def factors(rng):
    for _ in range(500):
        index = float(rng.uniform(2, 20))
        c = mp.mpf(index)
        yield Case([index], [float((4 * c - 1) / (4 * c - 4) + mp.mpf("0.615") / c), float((4 * c + 2) / (4 * c - 3))])


@check("valve_spring.wire-strength", "scipy.optimize.brentq", 1e-12, "a power as the root of its logarithm")
def wire_strength(rng):
    for _ in range(500):
        at, exponent, wire, reference = float(rng.uniform(1e9, 2.5e9)), float(rng.uniform(0.05, 0.2)), float(rng.uniform(0.001, 0.01)), float(rng.choice([0.001, 0.0254]))
        found = optimize.brentq(lambda s: np.log(s / at) + exponent * np.log(wire / reference), at / 10, at * 10, xtol=1e-6, rtol=1e-15)  # noqa: B023
        yield Case([at, exponent, wire, reference], found)
