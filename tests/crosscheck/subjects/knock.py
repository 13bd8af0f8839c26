"""Self-ignition, the charge before it is trapped, and the ideal cycle: mpmath, scipy, Cantera, fluids."""

import cantera as ct
import fluids.atmosphere
import mpmath as mp
import numpy as np
from scipy import integrate
from harness import Case, check
from subjects import gas as gases


@check("knock.delay", "mpmath", 1e-13, "two powers and an exponential of up to 10")
def delay(rng):
    for _ in range(1_000):
        octane, p, t = float(rng.uniform(80, 110)), float(rng.uniform(5e5, 1.2e7)), float(rng.uniform(450, 1100))
        atmospheres = mp.mpf(p) / 101325
        log = mp.log(mp.mpf("17.68")) + mp.mpf("3.402") * mp.log(mp.mpf(octane) / 100) - mp.mpf("1.7") * mp.log(atmospheres) + 3800 / mp.mpf(t)
        yield Case([octane, p, t], float(mp.exp(log) / 1000))


@check("knock.integral", "scipy.integrate.quad", 1.2e-4, "2,000 trapezoids: a twelfth of the step squared times the rate's growth, whose logarithm rises by up to 50 a unit of time at the end, squared, is 5e-5")
def integral(rng):
    for _ in range(300):
        octane, span, ratio, n = float(rng.uniform(80, 100)), float(rng.uniform(2e-3, 1e-2)), float(rng.uniform(7, 14)), float(rng.uniform(1.28, 1.36))
        volume = lambda s: 1 - s * (1 - 1 / ratio)  # noqa: E731, B023
        state = lambda s: (101325 * volume(s) ** -n, 340 * volume(s) ** (1 - n))  # noqa: E731, B023

        def rate(s):
            p, t = state(s)  # noqa: B023
            return span / (17.68e-3 * (octane / 100) ** 3.402 * (p / 101325) ** -1.7 * np.exp(3800 / t))  # noqa: B023

        whole, _ = integrate.quad(rate, 0, 1, epsabs=0, epsrel=1e-11, limit=400)
        p, t = state(np.linspace(0, 1, 2_001))
        yield Case([octane, span / 2_000, [float(v) for v in p], [float(v) for v in t]], whole)


@check("charge.compressed", "Cantera", 1e-8, "Cantera's state at that entropy to 1e-9, then at that enthalpy", subject="knock")
def compressed(rng):
    for _ in range(500):
        t, ratio, efficiency = float(rng.uniform(270, 330)), float(rng.uniform(1, 4)), float(rng.uniform(0.5, 0.85))
        gases.GAS.TPX = t, 1e5, gases.AIR
        h, s = gases.GAS.enthalpy_mass, gases.GAS.entropy_mass
        gases.GAS.SP = s, 1e5 * ratio
        gases.GAS.HP = h + (gases.GAS.enthalpy_mass - h) / efficiency, 1e5 * ratio
        yield Case([t, ratio, efficiency], gases.GAS.T)


@check("charge.air-at", "fluids.atmosphere", 1e-5, "ISO 2533 counts geopotential heights: taken as such here, after fluids' conversion; constants differ in the fifth digit", subject="knock")
def air_at(rng):
    for _ in range(300):
        geopotential = float(rng.uniform(0, 10_900))
        earth = 6_356_766.0
        yield Case([geopotential], fluids.atmosphere.ATMOSPHERE_1976(earth * geopotential / (earth - geopotential)).P)


@check("charge.ideal", "scipy.integrate.quad", 1e-10, "work of the two isentropes by quad, for a gas of constant heat capacity", subject="knock")
def ideal(rng):
    for _ in range(300):
        p, v, ratio, gamma, heat = float(rng.uniform(5e4, 3e5)), float(rng.uniform(2e-4, 1.5e-3)), float(rng.uniform(6, 15)), float(rng.uniform(1.2, 1.4)), float(rng.uniform(200, 4000))
        low = v / ratio
        pressed = p * (v / low) ** gamma
        # heat at constant volume: dp V = (gamma - 1) Q
        peak = pressed + (gamma - 1) * heat / low
        work = lambda top: integrate.quad(lambda x: top * (low / x) ** gamma, low, v, epsabs=0, epsrel=1e-12)[0]  # noqa: E731, B023
        yield Case([p, v, ratio, gamma, heat], [pressed, peak, (work(peak) - work(pressed)) / (v - low)])
