"""Whether a gain is there: scipy's central and non-central t, and its tests."""

import numpy as np
from scipy import optimize, special, stats
from harness import Case, check


@check("dyno_statistics.student", "scipy.stats.t", 2e-12, "the regularized beta function by continued fractions, 12 digits by statrs' own account; absolute")
def student(rng):
    for _ in range(1_500):
        t, freedom = float(rng.normal(0, 4)), float(np.exp(rng.uniform(0, 6)))
        yield Case([t, freedom], stats.t.cdf(t, freedom), 1.0)


@check("dyno_statistics.student-passed", "scipy.stats.t.isf", 2e-11, "the same function turned round: its error over the density, against t; tails from 0.0005 up")
def student_passed(rng):
    for _ in range(1_000):
        tail, freedom = float(10 ** rng.uniform(-3.3, -0.31)), float(rng.integers(1, 200))
        want = stats.t.isf(tail, freedom)
        yield Case([tail, freedom], want, max(1.0, abs(want)))


@check("dyno_statistics.shifted-student", "scipy.special.nctdtr", 3e-12, "boost's non-central t, absolute: Poisson sums whose weights add up to one, of beta functions that are good to 1e-12")
def shifted_student(rng):
    for _ in range(1_500):
        shift, freedom = float(rng.uniform(0, 12)), float(rng.integers(2, 120))
        t = float(shift + rng.normal(0, 3))
        want = special.nctdtr(freedom, shift, t)
        if np.isfinite(want):
            yield Case([t, freedom, shift], want, 1.0)


def power(gain, pulls, alpha):
    """Two-sided power of the two-sample test of so many pulls each."""
    freedom, shift = 2 * pulls - 2, gain * np.sqrt(pulls / 2)
    critical = stats.t.isf(alpha / 2, freedom)
    return special.nctdtr(freedom, shift, -critical) + 1.0 - special.nctdtr(freedom, shift, critical)


@check("dyno_statistics.power", "scipy.special.nctdtr", 6e-12, "two values of the non-central t, absolute")
def test_power(rng):
    for _ in range(1_000):
        gain, pulls = float(rng.uniform(0.1, 3.5)), int(rng.integers(2, 60))
        alpha = float(rng.choice([0.01, 0.05, 0.1]))
        want = power(gain, pulls, alpha)
        # boost gives no number far out in the tail
        if np.isfinite(want):
            yield Case([gain, pulls, alpha], want, 1.0)


@check("dyno_statistics.pulls-needed", "scipy.special.nctdtr", 0.0, "a whole number; cases within 1e-7 of the wanted power are left out")
def pulls_needed(rng):
    for _ in range(400):
        gain, alpha, wanted = float(rng.uniform(0.5, 3)), float(rng.choice([0.01, 0.05, 0.1])), float(rng.choice([0.8, 0.9]))
        powers = power(gain, np.arange(2, 220), alpha)
        powers = np.nan_to_num(powers, nan=1.0)
        first = int(np.argmax(powers >= wanted))
        if powers[-1] > wanted and np.abs(powers[max(first - 1, 0) : first + 1] - wanted).min() > 1e-7:
            yield Case([gain, alpha, wanted], first + 2)


@check("dyno_statistics.smallest-gain", "scipy.special.nctdtr, brentq", 1e-10, "the power's 6e-12 over its slope by the gain, which is of order one and less for many pulls")
def smallest_gain(rng):
    for _ in range(300):
        pulls, alpha, wanted = int(rng.integers(2, 40)), float(rng.choice([0.01, 0.05, 0.1])), float(rng.uniform(0.6, 0.95))
        top = float(rng.uniform(3, 6)) / np.sqrt(pulls / 2)
        if np.isfinite(power(top, pulls, alpha)) and power(top, pulls, alpha) > wanted:
            yield Case([pulls, alpha, wanted], optimize.brentq(lambda g: power(g, pulls, alpha) - wanted, 1e-6, top, xtol=1e-13))  # noqa: B023


@check("dyno_statistics.half-width", "scipy.stats.t.interval", 2e-11, "as the quantile of t")
def half_width(rng):
    for _ in range(500):
        pulls, confidence = int(rng.integers(2, 100)), float(rng.uniform(0.5, 0.999))
        _, high = stats.t.interval(confidence, pulls - 1, scale=1 / np.sqrt(pulls))
        yield Case([pulls, confidence], high)


@check("dyno_statistics.missed-one-sided", "scipy.stats.norm", 1e-13, "a quantile bisected to 1e-16 of 40, absolute")
def missed(rng):
    for _ in range(500):
        gain, error, alpha = float(rng.uniform(0, 5)), float(rng.uniform(0.3, 3)), float(rng.uniform(0.001, 0.5))
        yield Case([gain, error, alpha], stats.norm.cdf(stats.norm.isf(alpha) - gain / error), 1.0)


def pulls_of(rng):
    n, m = int(rng.integers(2, 12)), int(rng.integers(2, 12))
    base = float(rng.uniform(100, 1000))
    first = base + rng.normal(0, 1, n) * base * 0.01
    second = base + rng.normal(0.005 * base, 1, m) * base * 0.01 * float(rng.uniform(0.3, 2))
    return [float(v) for v in first], [float(v) for v in second]


def compared(rng, equal):
    for _ in range(800):
        first, second = pulls_of(rng)
        told = stats.ttest_ind(first, second, equal_var=equal)
        yield Case([first, second], [np.mean(first) - np.mean(second), told.statistic, told.df, told.pvalue], [1e2, max(1, abs(told.statistic)), told.df, 1.0])


@check("dyno_statistics.pooled", "scipy.stats.ttest_ind", 2e-12, "a mean of hundreds with a scatter of a hundredth of it: eps times a hundred; p as t's")
def pooled(rng):
    yield from compared(rng, True)


@check("dyno_statistics.welch", "scipy.stats.ttest_ind", 2e-12, "as pooled")
def welch(rng):
    yield from compared(rng, False)
