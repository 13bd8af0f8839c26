"""Damp air and the standards of correction, against CoolProp's and chemicals' water and mpmath's powers."""

import CoolProp.CoolProp as cp
import chemicals.iapws
import fluids.atmosphere
import mpmath as mp
import numpy as np
from scipy import optimize
from harness import Case, check

STANDARDS = ["sae-j1349", "iso-1585", "std-j607", "din-70020"]


@check("dyno_air.saturation-pressure", "CoolProp IF97", 1e-12, "the same backward equation, whose root of a difference loses two digits near the ends")
def saturation_if97(rng):
    for _ in range(1_000):
        t = float(rng.uniform(273.16, 640.0))
        yield Case([t], cp.PropsSI("P", "T", t, "Q", 0, "IF97::Water"))


@check("dyno_air.saturation-pressure", "CoolProp IAPWS-95", 3e-4, "IF97 and IAPWS-95 agree within 0.025 % along the saturation line (IAPWS R7-97)")
def saturation_iapws95(rng):
    for _ in range(700):
        t = float(rng.uniform(273.16, 640.0))
        yield Case([t], cp.PropsSI("P", "T", t, "Q", 0, "HEOS::Water"))


@check("dyno_air.saturation-pressure", "chemicals.iapws95_Psat", 3e-4, "as against CoolProp's IAPWS-95")
def saturation_chemicals(rng):
    for _ in range(500):
        t = float(rng.uniform(273.16, 640.0))
        yield Case([t], chemicals.iapws.iapws95_Psat(t))


@check("dyno_air.saturation-pressure-magnus", "CoolProp IAPWS-95", 6e-3, "Magnus is fitted to 0.6 % over water from -45 to 60 °C (WMO-No. 8, annex 4.B)")
def magnus(rng):
    for _ in range(500):
        t = float(rng.uniform(273.2, 333.0))
        yield Case([t], cp.PropsSI("P", "T", t, "Q", 0, "HEOS::Water"))


def _rooted(base, power):
    """base ** power without a power: exp(power * log(base)) at 30 digits."""
    return mp.e ** (mp.mpf(power) * mp.log(base))


@check("dyno_air.factor", "CoolProp, mpmath", 1e-12, "IF97's vapour pressure to 1e-12, the rest by mpmath")
def factor(rng):
    for i in range(2_000):
        standard = STANDARDS[i % 4]
        barometer, t, humidity = float(rng.uniform(7e4, 1.06e5)), float(rng.uniform(273.2, 318)), float(rng.uniform(0, 1))
        dry = mp.mpf(barometer) - mp.mpf(humidity) * mp.mpf(cp.PropsSI("P", "T", t, "Q", 0, "IF97::Water"))
        celsius = mp.mpf(t) - mp.mpf("273.15")
        if standard == "sae-j1349":
            want = mp.mpf("1.18") * 99000 / dry * _rooted((celsius + 273) / 298, 0.5) - mp.mpf("0.18")
        elif standard == "iso-1585":
            want = _rooted(99000 / dry, mp.mpf("1.2")) * _rooted((celsius + 273) / 298, mp.mpf("0.6"))
        elif standard == "std-j607":
            inches = dry / mp.mpf("3386.389")
            fahrenheit = celsius * 9 / 5 + 32
            want = mp.mpf("29.92") / inches * _rooted((fahrenheit + 460) / 520, 0.5)
        else:
            want = mp.mpf(1013) / (mp.mpf(barometer) / 100) * _rooted((celsius + 273) / 293, 0.5)
        yield Case([standard, barometer, t, humidity], float(want))


@check("dyno_air.density", "CoolProp IF97", 1e-9, "two ideal gases; IF97's vapor pressure to 1e-12, the constants to their digits")
def density(rng):
    for _ in range(1_000):
        p, t, humidity = float(rng.uniform(6e4, 1.06e5)), float(rng.uniform(273.2, 320)), float(rng.uniform(0, 1))
        e = humidity * cp.PropsSI("P", "T", t, "Q", 0, "IF97::Water")
        yield Case([p, t, humidity], (p - e) / (287.05287 * t) + e / (461.526 * t))


@check("dyno_air.density", "CoolProp humid air (ASHRAE RP-1485)", 2e-3, "real gases, whose water takes up 0.4 % more room in the air: under 0.2 % of the density")
def density_real(rng):
    for _ in range(1_000):
        p, t, humidity = float(rng.uniform(6e4, 1.06e5)), float(rng.uniform(274, 320)), float(rng.uniform(0, 1))
        # V is the volume of the damp air for each kg of dry, W the water with it
        volume, water = (cp.HAPropsSI(key, "T", t, "P", p, "R", humidity) for key in ("V", "W"))
        yield Case([p, t, humidity], (1 + water) / volume)


@check("dyno_air.density-altitude", "fluids.atmosphere.ATMOSPHERE_1976", 2e-5, "the standard of 1976 has R = 287.0531 for 287.05287, and its altitude is geometric: turned by 6,356.766 km")
def density_altitude(rng):
    for _ in range(1_000):
        geometric = float(rng.uniform(0, 10_900))
        geopotential = 6_356_766.0 * geometric / (6_356_766.0 + geometric)
        yield Case([float(fluids.atmosphere.ATMOSPHERE_1976(geometric).rho)], geopotential, 11_000.0)


@check("dyno_air.iso-3046", "mpmath", 5e-15, "two powers, a product, a difference of a tenth of its size")
def iso_3046(rng):
    for _ in range(1_000):
        p, t = float(rng.uniform(0.6, 1.1)), float(rng.uniform(0.85, 1.1))
        m, n, eta = float(rng.uniform(0.7, 1.2)), float(rng.uniform(0.5, 2.0)), float(rng.uniform(0.7, 0.95))
        k = _rooted(mp.mpf(p), m) * _rooted(mp.mpf(t), n)
        yield Case([p, t, m, n, eta], float(k - mp.mpf("0.7") * (1 - k) * (1 / mp.mpf(eta) - 1)))


@check("dyno_air.noise-time", "scipy.optimize.brentq", 2e-12, "the time whose dose is one, by brentq to 1e-14 of its logarithm, which is up to 60")
def noise_time(rng):
    for _ in range(1_000):
        level, (limit, exchange) = float(rng.uniform(80, 125)), [(85.0, 3.0), (90.0, 5.0)][int(rng.integers(2))]
        # each step of `exchange` dB doubles the dose of a second; 8 h at the limit are a dose of one
        dose = lambda log: log - np.log(28800.0) + (level - limit) / exchange * np.log(2.0)  # noqa: E731, B023
        yield Case([level, limit, exchange], np.exp(optimize.brentq(dose, -10, 30, xtol=1e-15, rtol=1e-14)))


@check("dyno_air.room-rise", "CoolProp", 8e-3, "1.2 kg/m3 and 1005 J/(kg K) stand for the room's air, which is 1.188 at 24 °C and 101 325 Pa; the rise is taken about 20 °C")
def room_rise(rng):
    density = cp.PropsSI("D", "T", 293.15, "P", 101325, "Air")
    for _ in range(200):
        heat, flow = float(rng.uniform(1e4, 2e5)), float(rng.uniform(5, 40))
        start = 293.15
        h = cp.PropsSI("H", "T", start, "P", 101325, "Air") + heat / (density * flow)
        yield Case([heat, flow], cp.PropsSI("T", "H", h, "P", 101325, "Air") - start)
