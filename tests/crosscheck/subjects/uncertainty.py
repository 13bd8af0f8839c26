"""Chance of conformance, against scipy's distributions."""

import mpmath as mp
import numpy as np
from scipy import stats
from harness import Case, check


@check("uncertainty.normal-cdf", "mpmath.ncdf", 4.5e-16, "erfc is good to an ulp and its argument to another, which weighs z^2 times as much; against 1 + z^2")
def normal_cdf(rng):
    for _ in range(1_500):
        z = float(rng.choice([rng.normal(0, 1), rng.normal(0, 5), rng.uniform(-37, 9)]))
        want = float(mp.ncdf(mp.mpf(z)))
        yield Case([z], want, want * (1 + z * z))


@check("uncertainty.conformance-probability", "scipy.stats.norm", 1e-15, "a difference of two probabilities, absolute; each is good to an ulp of one")
def conformance(rng):
    for i in range(1_500):
        value, u = float(rng.normal(0, 1)), float(10 ** rng.uniform(-3, 1))
        low = value + u * float(rng.normal(0, 2))
        high = low + u * float(rng.exponential(3))
        yield Case([value, u, low, high], stats.norm.cdf(high, value, u) - stats.norm.cdf(low, value, u), 1.0)


@check("uncertainty.combine", "mpmath", 2e-15, "a root of up to 12 squares, half an ulp each")
def combine(rng):
    for _ in range(1_000):
        parts = [float(v) for v in 10 ** rng.uniform(-8, -3, rng.integers(1, 13)) * rng.choice([-1, 1])]
        yield Case([parts], float(mp.sqrt(mp.fsum(mp.mpf(p) ** 2 for p in parts))))


@check("uncertainty.guard-band", "scipy.stats.norm.ppf", 1e-15, "a constant of 17 digits times u")
def guard_band(rng):
    for _ in range(1_000):
        u = float(10 ** rng.uniform(-9, -3))
        yield Case([u], stats.norm.ppf(0.95) * u)
