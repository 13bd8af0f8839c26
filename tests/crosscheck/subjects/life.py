"""Lines through readings, and what the shop's own lives make of a range: scipy."""

import numpy as np
from scipy import integrate, optimize, stats
from harness import Case, check


@check("life.theil-sen", "scipy.stats.theilslopes", 1e-9, "medians and order statistics of the same quotients; only the intercept adds up, against y's own size")
def theil_sen(rng):
    for _ in range(1_500):
        n = int(rng.integers(4, 40))
        x = np.sort(rng.uniform(0, 300, n))
        if rng.integers(2):
            # readings in whole numbers on event days: ties in both
            x = np.sort(rng.integers(0, 12, n) * 9.0)
        y = 3 + rng.normal(0, 0.02) * x + rng.standard_t(2, n)
        if rng.integers(2):
            y = np.round(y)
        if len(set(x)) < 2:
            continue
        confidence = float(rng.choice([0.8, 0.9, 0.95, 0.99]))
        found = stats.theilslopes(y, x, alpha=confidence)
        size = float(np.abs(y).max() / max(1.0, np.ptp(x)))
        scale = [size, float(np.abs(y).max()) + abs(found.slope) * float(x.max()), size, size]
        yield Case(
            [[float(v) for v in x], [float(v) for v in y], confidence],
            [float(found.slope), float(found.intercept), float(found.low_slope), float(found.high_slope)],
            scale,
        )


def believed(pack, failed, sound, at):
    """Share of the belief below a number of deviations from nominal, by adaptive quadrature over both."""
    z = stats.norm.ppf(0.95)
    low, nominal, high = np.log(pack)
    hazard = -np.log1p(-0.2)
    logs = np.log(np.concatenate([failed, sound]))
    dead = np.log(failed) if failed else np.array([])

    def log_density(off, by):
        life = nominal + off * ((nominal - low) if off < 0 else (high - nominal)) / z
        shape = 3 * np.exp(0.24 * by)
        likely = len(dead) * (np.log(shape) + np.log(hazard)) + np.sum(shape * (dead - life) - dead)
        return likely - hazard * np.sum(np.exp(shape * (logs - life))) - off**2 / 2 - by**2 / 2

    top = -optimize.minimize(lambda p: -log_density(*p), [0.0, 0.0], method="Nelder-Mead").fun

    def along(off):
        return integrate.quad(lambda by: np.exp(log_density(off, by) - top), -4, 4, epsabs=1e-10, epsrel=1e-8)[0]

    points = sorted({-6.0, 0.0, 6.0, *[float(a) for a in at if -6 < a < 6]})
    pieces = [integrate.quad(along, a, b, epsabs=1e-10, epsrel=1e-7, limit=100)[0] for a, b in zip(points, points[1:])]
    below = dict(zip(points, np.concatenate([[0.0], np.cumsum(pieces)])))
    return [below[float(a)] / sum(pieces) for a in at]


@check("life.learned-range", "scipy.integrate.quad", 3e-3, "a grid of 0.05 deviations with its weights spread over each step, deviations of up to a third of the life: quantiles to a hundredth of a deviation")
def learned_range(rng):
    z = stats.norm.ppf(0.95)
    for _ in range(10):
        nominal = float(10 ** rng.uniform(1.3, 3))
        pack = [nominal * float(rng.uniform(0.5, 0.8)), nominal, nominal * float(rng.uniform(1.3, 1.8))]
        lives = nominal * float(rng.uniform(0.8, 2.5)) * rng.weibull(3, int(rng.integers(2, 12)))
        cut = int(rng.integers(0, len(lives)))
        failed, sound = [float(v) for v in lives[:cut]], [float(v) for v in lives[cut:]]
        low, middle, high = np.log(pack)

        def life(off):
            return float(np.exp(middle + off * ((middle - low) if off < 0 else (high - middle)) / z))

        # a coarse look for where each share lies, then the root by secants
        def root(share):
            return optimize.brentq(lambda off: believed(pack, failed, sound, [off])[0] - share, -5.9, 5.9, xtol=1e-4)

        yield Case([pack, failed, sound], [life(root(0.05)), life(root(0.5)), life(root(0.95))])
