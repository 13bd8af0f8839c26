"""The slider-crank, from nothing but the distance of two pins: mpmath differentiates and finds extrema at 34 digits."""

import mpmath as mp
import numpy as np
from scipy import optimize
from harness import Case, check

mp.mp.dps = 34


def sliders(rng, count, offsets=True):
    """Cranks of engines from a lawn mower's to a ship's; some with an offset of up to a tenth of the radius."""
    for i in range(count):
        radius = float(rng.uniform(0.015, 0.25))
        rod = radius * float(rng.uniform(2.2, 6.0))
        offset = radius * float(rng.uniform(-0.1, 0.1)) if offsets and i % 3 else 0.0
        yield radius, rod, offset


def height(radius, rod, offset):
    """Height of the pin above the crank's axis, as a function of the angle."""

    def at(angle):
        across = radius * mp.sin(angle) - offset
        return radius * mp.cos(angle) + mp.sqrt(rod * rod - across * across)

    return at


def exact(*values):
    return [mp.mpf(v) for v in values]


@check("kinematics.speed", "mpmath.diff", 4e-15, "a dozen roundings of half an eps, against r w; the angle is exact on both sides")
def speed(rng):
    for r, l, d in sliders(rng, 1_500):
        angle, omega = float(rng.uniform(-2 * np.pi, 2 * np.pi)), float(rng.uniform(10, 1500))
        down = -mp.diff(height(*exact(r, l, d)), mp.mpf(angle)) * mp.mpf(omega)
        yield Case([r, l, d, angle, omega], float(down), r * omega)


@check("kinematics.acceleration", "mpmath.diff", 4e-15, "as the speed's; against r w^2")
def acceleration(rng):
    for r, l, d in sliders(rng, 1_500):
        angle, omega = float(rng.uniform(-2 * np.pi, 2 * np.pi)), float(rng.uniform(10, 1500))
        down = -mp.diff(height(*exact(r, l, d)), mp.mpf(angle), 2) * mp.mpf(omega) ** 2
        yield Case([r, l, d, angle, omega], float(down), r * omega * omega)


@check("kinematics.dead-centres", "mpmath.findroot", 2e-15, "angles of pi and lengths of several r, a few roundings each")
def dead_centres(rng):
    for r, l, d in sliders(rng, 1_000):
        at = height(*exact(r, l, d))
        top = mp.findroot(lambda t: mp.diff(at, t), mp.mpf(0))
        bottom = mp.findroot(lambda t: mp.diff(at, t), mp.pi)
        yield Case([r, l, d], [float(top), float(bottom), float(at(top) - at(bottom))], [np.pi, np.pi, l + r])


@check("kinematics.below-top", "mpmath", 2e-15, "three lengths of up to l + r are added")
def below_top(rng):
    for r, l, d in sliders(rng, 1_000):
        angle = float(rng.uniform(-2 * np.pi, 2 * np.pi))
        at = height(*exact(r, l, d))
        top = mp.findroot(lambda t: mp.diff(at, t), mp.mpf(0))
        yield Case([r, l, d, angle], float(at(top) - at(mp.mpf(angle))), l + r)


@check("kinematics.fastest", "scipy.optimize.brentq", 5e-15, "the acceleration's noise is 1e-15 of r w^2 and its slope there of that order; brentq stops at 1e-15")
def fastest(rng):
    for r, l, d in sliders(rng, 1_000):
        # slope of the speed by a complex step over the speed as a difference of angles
        def slope(t, r=r, l=l, d=d):
            z = t + 1e-30j
            return _complex_speed(z, r, l, d).imag / 1e-30

        low = np.arcsin(d / (l + r))
        high = np.pi + np.arcsin(d / (l - r))
        yield Case([r, l, d], optimize.brentq(slope, low, high, xtol=1e-15, rtol=1e-15), 1.0)


def _complex_speed(z, r, l, d):
    across = r * np.sin(z) - d
    return r * np.sin(z) + across * r * np.cos(z) / np.sqrt(l * l - across * across)


@check("kinematics.greatest-speed", "mpmath.findroot", 4e-15, "flat at its top, so only the speed's own rounding counts")
def greatest_speed(rng):
    for r, l, d in sliders(rng, 300):
        omega = float(rng.uniform(10, 1500))
        at = height(*exact(r, l, d))
        where = mp.findroot(lambda t: mp.diff(at, t, 2), mp.mpf(1.3))
        yield Case([r, l, d, omega], float(-mp.diff(at, where) * mp.mpf(omega)))


@check("kinematics.mean-speed", "scipy.integrate.quad", 2e-13, "quad is asked for 1e-13 of the mean over the way down")
def mean_speed(rng):
    from scipy import integrate

    for r, l, d in sliders(rng, 1_000, offsets=False):
        omega = float(rng.uniform(10, 1500))
        down, _ = integrate.quad(lambda t: _complex_speed(t, r, l, 0.0), 0.0, np.pi, epsabs=0, epsrel=1e-13)
        yield Case([2 * r, omega], down * omega / np.pi)


@check("kinematics.rod-slant", "scipy.optimize", 1e-14, "flat at its greatest: what the search leaves, 1e-9 rad, counts by its square")
def rod_slant(rng):
    for r, l, d in sliders(rng, 1_000):
        slant = lambda t: -abs(np.arcsin((r * np.sin(t) - d) / l))  # noqa: E731, B023
        best = min(
            optimize.minimize_scalar(slant, bounds=b, method="bounded", options={"xatol": 1e-9}).fun
            for b in ((0, np.pi), (np.pi, 2 * np.pi))
        )
        yield Case([r, l, d], -best)


@check("kinematics.speed-two-term", "mpmath.taylor", 4e-15, "the series in r/l to its first order; a handful of roundings against r w")
def two_terms(rng):
    # d/dt of r(1 - cos t) + l - sqrt(l^2 - r^2 sin^2 t), expanded to the first order of r/l by mpmath
    for r, l, _ in sliders(rng, 1_000, offsets=False):
        angle, omega = float(rng.uniform(-2 * np.pi, 2 * np.pi)), float(rng.uniform(10, 1500))
        t = mp.mpf(angle)
        ratio = mp.mpf(r) / mp.mpf(l)
        first = mp.taylor(lambda k: mp.sin(t) + k * mp.sin(t) * mp.cos(t) / mp.sqrt(1 - (k * mp.sin(t)) ** 2), 0, 1)
        yield Case([r, l, 0.0, angle, omega], float((first[0] + first[1] * ratio) * r * omega), r * omega)
