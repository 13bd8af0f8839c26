"""Volumes and compression ratios, by integrating what encloses them."""

import mpmath as mp
import numpy as np
from scipy import integrate
from harness import Case, check
from subjects.kinematics import exact, height, sliders


@check("geometry.swept-volume", "scipy.integrate.quad", 1e-12, "the disc as an integral over its width, which quad takes to 1e-13")
def swept_volume(rng):
    for _ in range(1_000):
        bore, stroke = float(rng.uniform(0.03, 0.5)), float(rng.uniform(0.03, 0.5))
        # substituting x = R sin a, since quad is slow on the circle's vertical ends
        half = bore / 2
        area, _ = integrate.quad(lambda a: 2 * half * half * np.cos(a) ** 2, -np.pi / 2, np.pi / 2, epsabs=0, epsrel=1e-13)
        yield Case([bore, stroke], area * stroke)


@check("geometry.crevice-volume", "scipy.integrate.quad", 1e-13, "the difference of two squares loses 100 eps, 2e-14, where the land is 99.5 % of the bore")
def crevice_volume(rng):
    for _ in range(1_000):
        bore, tall = float(rng.uniform(0.03, 0.2)), float(rng.uniform(0.001, 0.02))
        land = bore * float(rng.uniform(0.98, 0.995))
        ring, _ = integrate.quad(lambda x: 2 * np.pi * x, land / 2, bore / 2, epsabs=0, epsrel=1e-13)
        yield Case([bore, land, tall], ring * tall)


@check("geometry.compression", "mpmath", 5e-15, "seven volumes added and one division, against the sum of their sizes")
def compression(rng):
    for _ in range(1_000):
        swept = float(rng.uniform(5e-5, 2e-3))
        small = rng.uniform(0, swept / 60, 5)
        chamber, signed = swept * float(rng.uniform(0.05, 0.12)), float(rng.uniform(-1, 1)) * swept / 100
        gasket, dish, dome, crevice = (float(v) for v in small[:4])
        clearance = mp.fsum(map(mp.mpf, [chamber, gasket, signed, dish, -dome, crevice]))
        yield Case([swept, chamber, gasket, signed, dish, dome, crevice], float((mp.mpf(swept) + clearance) / clearance))


@check("geometry.effective-compression", "mpmath.findroot", 2e-14, "the share of the stroke is a difference of lengths of up to 6 r, eps times 7 a rounding")
def effective_compression(rng):
    for r, l, d in sliders(rng, 1_000):
        ratio, closing = float(rng.uniform(5, 20)), float(rng.uniform(0, np.radians(110)))
        at = height(*exact(r, l, d))
        top = mp.findroot(lambda t: mp.diff(at, t), mp.mpf(0))
        bottom = mp.findroot(lambda t: mp.diff(at, t), mp.pi)
        swept = at(top) - at(bottom)
        clearance = swept / (mp.mpf(ratio) - 1)
        volume = clearance + at(top) - at(bottom + mp.mpf(closing))
        yield Case([r, l, d, ratio, closing], float(volume / clearance))


@check("geometry.effective-compression", "a rod that cannot follow", 0.0, "a refusal, not a number")
def refuses(rng):
    for _ in range(100):
        r = float(rng.uniform(0.02, 0.1))
        yield Case([r, r * float(rng.uniform(0.2, 1.0)), 0.0, 10.0, 1.0], "cannot follow a crank")
