"""Crosshatch, from the path of a stone on the unrolled bore, differentiated by a complex step."""

import numpy as np
from scipy import optimize
from harness import Case, check


def hone(rng):
    return float(rng.uniform(0.05, 0.2)), float(rng.uniform(0.05, 0.3)), float(rng.uniform(0.3, 5)), float(rng.uniform(5, 60))


def included(bore, stroke, strokes, spindle, t):
    """Angle between the two hands of lines where a crank-driven stone is at a moment."""
    z = t + 1e-30j
    along = (-stroke / 2 * np.cos(2 * np.pi * strokes * z)).imag / 1e-30
    around = (bore / 2 * spindle * z).imag / 1e-30
    up, down = np.array([around, along]), np.array([around, -along])
    return abs(np.arctan2(up[0] * down[1] - up[1] * down[0], up @ down))


@check("honing.angles", "numpy (complex step)", 3e-13, "three angles; near the reversal the root of a small difference costs three digits")
def angles(rng):
    for _ in range(1_000):
        bore, stroke, strokes, spindle = one = hone(rng)
        off = stroke / 2 * float(rng.uniform(-0.999, 0.999))
        # there and back again in a cycle, at an even speed
        speed = 2 * stroke * strokes
        mean = 2 * np.arctan2(speed, bore / 2 * spindle)
        moment = np.arccos(-2 * off / stroke) / (2 * np.pi * strokes)
        yield Case([*one, off], [mean, included(*one, 0.25 / strokes), included(*one, moment)], 1.0)


@check("honing.strokes-for", "scipy.optimize.brentq", 1e-11, "brentq to 1e-14 of up to 100 strokes")
def strokes_for(rng):
    for _ in range(500):
        bore, stroke, strokes, spindle = one = hone(rng)
        angle = float(np.radians(rng.uniform(5, 150)))
        found = optimize.brentq(lambda f: 2 * np.arctan2(2 * stroke * f, bore / 2 * spindle) - angle, 1e-6, 1e4, xtol=1e-15, rtol=1e-14)  # noqa: B023
        yield Case([*one, angle], found)


@check("honing.spindle-for", "scipy.optimize.brentq", 1e-11, "as the strokes'")
def spindle_for(rng):
    for _ in range(500):
        bore, stroke, strokes, spindle = one = hone(rng)
        angle = float(np.radians(rng.uniform(5, 150)))
        found = optimize.brentq(lambda w: 2 * np.arctan2(2 * stroke * strokes, bore / 2 * w) - angle, 1e-6, 1e6, xtol=1e-15, rtol=1e-14)  # noqa: B023
        yield Case([*one, angle], found)
