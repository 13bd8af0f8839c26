"""Oil over temperature: lines by scipy in the paper's own coordinates, units by pint."""

import mpmath as mp
import numpy as np
import pint
from scipy import interpolate, optimize
from harness import Case, check

PINT = pint.UnitRegistry()
SEIREG = {10: (0.0158, 1157.5), 20: (0.0136, 1271.6), 30: (0.0141, 1360.0), 40: (0.0121, 1474.4), 50: (0.0170, 1509.6), 60: (0.0187, 1564.0)}


def oils(rng):
    """Two temperatures with their kinematic viscosities, and one between."""
    cold, hot = 313.15 + float(rng.uniform(-20, 20)), 373.15 + float(rng.uniform(-15, 40))
    thin = float(rng.uniform(3.8, 26))
    return cold, thin * float(rng.uniform(3, 9)) * 1e-6, hot, thin * 1e-6, float(rng.uniform(cold, hot))


def line(cold, thick, hot, thin, t):
    paper = interpolate.interp1d(
        np.log10([cold, hot]), np.log10(np.log10(np.array([thick, thin]) * 1e6 + 0.7)), fill_value="extrapolate"
    )
    return (10 ** 10 ** float(paper(np.log10(t))) - 0.7) * 1e-6


@check("oil.walther", "scipy.interpolate", 2e-13, "two logarithms and two powers: eps grows by ln 10 and twice the logarithm of the viscosity, and by the distance of the line from 0 K, a hundredfold in all")
def walther(rng):
    for _ in range(1_000):
        one = oils(rng)
        yield Case([*one], line(*one))


@check("oil.vogel", "pint", 1e-13, "an exponential of up to 15, with the temperature's offset taken off by pint")
def vogel(rng):
    for _ in range(600):
        grade = int(rng.choice(list(SEIREG)))
        t = float(rng.uniform(285, 420))
        factor, b = SEIREG[grade]
        fahrenheit = PINT.Quantity(t, "kelvin").to("degF").magnitude
        reyn = PINT.Quantity(factor * 1e-6 * np.exp(b / (fahrenheit + 95)), "force_pound * s / inch^2")
        yield Case([grade, t], reyn.to("Pa * s").magnitude)


@check("oil.in-a-bearing", "scipy.interpolate", 1e-12, "two viscosities and densities and their quotient; shear never thickens")
def in_a_bearing(rng):
    for _ in range(600):
        cold, thick, hot, thin, t = oils(rng)
        density, high_shear = float(rng.uniform(820, 900)), float(rng.uniform(1.5e-3, 6e-3))
        rest = lambda kelvin: line(cold, thick, hot, thin, kelvin) * density * (1 - 0.00065 * (kelvin - 288.15))  # noqa: E731, B023
        if line(cold, thick, hot, thin, 423.15) > 2.01e-6:
            yield Case([cold, thick, hot, thin, density, high_shear, t], rest(t) * min(1.0, high_shear / rest(423.15)))


@check("oil.film-rise", "scipy.optimize.brentq", 1e-8, "a root of what is as exact as its parabola in logarithms: 1e-12, where the slope is not below a tenth")
def film_rise(rng):
    for _ in range(600):
        cold, thick, hot, thin, _ = oils(rng)
        density, high_shear, pan = float(rng.uniform(820, 900)), float(rng.uniform(1.5e-3, 6e-3)), float(rng.uniform(350, 385))
        gain, power = float(rng.uniform(10, 80)), float(rng.uniform(0.3, 1))
        rest = lambda kelvin: line(cold, thick, hot, thin, kelvin) * density * (1 - 0.00065 * (kelvin - 288.15))  # noqa: E731, B023
        sheared = lambda kelvin: rest(kelvin) * min(1.0, high_shear / rest(423.15))  # noqa: E731, B023
        over = lambda rise: rise - gain * (sheared(pan + rise) / 8e-3) ** power / 2  # noqa: E731, B023
        if over(60.0) > 0 and line(cold, thick, hot, thin, 450.0) > 2.01e-6:
            yield Case([cold, thick, hot, thin, density, high_shear, pan, gain, power], optimize.brentq(over, 0, 60, xtol=1e-12))
