"""Stress-life lines, mean stress and damage: numpy's and scipy's lines and roots in logarithms."""

import numpy as np
from scipy import integrate, interpolate, optimize, stats
from harness import Case, check


@check("fatigue.life", "scipy.stats.linregress", 1e-12, "a line through two points in logarithms; the life is a power of up to 30, so eps times 30 times ln")
def life(rng):
    for _ in range(1_000):
        strength = float(10 ** rng.uniform(8, 9.3))
        share, limit = float(rng.uniform(0.75, 0.95)), strength * float(rng.uniform(0.25, 0.6))
        stress = float(rng.uniform(limit, share * strength))
        line = stats.linregress(np.log10([share * strength, limit]), [3.0, 6.0])
        yield Case([share, strength, limit, stress], 10 ** (line.intercept + line.slope * np.log10(stress)))


@check("fatigue.through", "scipy.interpolate.interp1d", 2e-12, "as the life's; back to cycles by the slope's inverse, up to 30 times as sensitive")
def through(rng):
    for _ in range(1_000):
        few, many = float(10 ** rng.uniform(2, 4)), float(10 ** rng.uniform(5, 8))
        low = float(10 ** rng.uniform(7, 8.5))
        high = low * float(rng.uniform(1.2, 5))
        cycles = float(np.exp(rng.uniform(np.log(few), np.log(many))))
        line = interpolate.interp1d(np.log([few, many]), np.log([high, low]))
        yield Case([few, high, many, low, cycles], [float(np.exp(line(np.log(cycles)))), cycles])


def on_line(amplitude, mean, curve):
    """Fully reversed stress whose curve in the plane of mean and amplitude goes through a point, by brentq."""
    return optimize.brentq(lambda reversed_: curve(mean, reversed_) - amplitude, amplitude * 0.5, amplitude * 1e4, xtol=1e-6, rtol=1e-15)


@check("fatigue.reversed", "scipy.optimize.brentq", 5e-13, "brentq to 1e-15 of a stress of 1e8; a mean near the strength costs three digits")
def reversed_(rng):
    for _ in range(1_000):
        strength = float(10 ** rng.uniform(8, 9.3))
        mean, amplitude = strength * float(rng.uniform(0, 0.9)), strength * float(rng.uniform(0.02, 0.5))
        goodman = on_line(amplitude, mean, lambda m, r: r * (1 - m / strength))  # noqa: B023
        gerber = on_line(amplitude, mean, lambda m, r: r * (1 - (m / strength) ** 2))  # noqa: B023
        # the same product of peak and amplitude
        swt = optimize.brentq(lambda r: r * r - (mean + amplitude) * amplitude, 0, 10 * strength, xtol=1e-7, rtol=1e-15)  # noqa: B023
        yield Case([amplitude, mean, strength], [goodman, gerber, swt])


@check("fatigue.safety-goodman", "numpy.linalg.solve", 1e-14, "the crossing of the load's line with Goodman's, two equations")
def safety(rng):
    for _ in range(1_000):
        strength = float(10 ** rng.uniform(8, 9.3))
        limit = strength * float(rng.uniform(0.2, 0.6))
        mean, amplitude = strength * float(rng.uniform(0.01, 0.6)), strength * float(rng.uniform(0.02, 0.5))
        # x/strength + y/limit = 1 and y mean = x amplitude
        crossing = np.linalg.solve([[1 / strength, 1 / limit], [amplitude, -mean]], [1, 0])
        yield Case([amplitude, mean, limit, strength], crossing[1] / amplitude)


@check("fatigue.miner", "numpy.sum", 1e-14, "a sum of up to 30 quotients")
def miner(rng):
    for _ in range(500):
        n = int(rng.integers(1, 30))
        cycles, lives = 10 ** rng.uniform(0, 6, n), 10 ** rng.uniform(3, 8, n)
        yield Case([[float(v) for row in zip(cycles, lives) for v in row]], np.sum(cycles / lives))


@check("fatigue.equivalent-turns", "scipy.integrate.quad", 1e-12, "damage a radian integrated over the duty's angle, by quad to 1e-13")
def equivalent_turns(rng):
    for _ in range(500):
        n = int(rng.integers(1, 6))
        times, speeds = rng.uniform(1, 200, n), rng.uniform(100, 1000, n)
        reference, power = float(rng.uniform(300, 900)), float(rng.uniform(3, 12))
        # stress as the square of speed, damage as its power, over damage at the reference
        harm = sum(integrate.quad(lambda a: ((w / reference) ** 2) ** power, 0, t * w, epsabs=0, epsrel=1e-13)[0] for t, w in zip(times, speeds))  # noqa: B023
        yield Case([[float(v) for row in zip(times, speeds) for v in row], reference, power], harm / (2 * np.pi))


@check("wear.depth", "scipy.integrate.quad", 1e-12, "Archard's depth summed over every half stroke's way", subject="fatigue")
def wear_depth(rng):
    for _ in range(300):
        k, pressure = float(10 ** rng.uniform(-9, -4)), float(10 ** rng.uniform(5, 7))
        stroke, turns, hardness = float(rng.uniform(0.05, 0.12)), float(rng.integers(1000, 10**6)), float(10 ** rng.uniform(8.5, 10))
        # way of one turn by the integral of the speed of a plain sine
        way, _ = integrate.quad(lambda a: stroke / 2 * abs(np.sin(a)), 0, 2 * np.pi, points=[np.pi], epsabs=0, epsrel=1e-13)
        yield Case([k, pressure, stroke, turns, hardness], k * pressure * way * turns / hardness)
