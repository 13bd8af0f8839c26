"""When to change a part: costs by scipy's special functions, best ages by its minimizer."""

import numpy as np
from scipy import optimize, special, stats
from harness import Case, check


def use(law, age):
    """Mean time in use up to an age: the incomplete gamma function for Weibull, the truncated mean for a normal law."""
    kind, *of = law
    if kind == "weibull":
        shape, scale = of
        return scale * special.gamma(1 + 1 / shape) * special.gammainc(1 / shape, (age / scale) ** shape)
    mean, deviation = of
    law = stats.norm(mean, deviation)
    # by parts: age R(age) and the mean of those that failed between zero and it
    failed = mean * (law.cdf(age) - law.cdf(0)) - deviation**2 * (law.pdf(age) - law.pdf(0))
    return age * law.sf(age) + failed


def reach(law, age):
    kind, *of = law
    return np.exp(-((age / of[1]) ** of[0])) if kind == "weibull" else stats.norm.sf(age, *of)


def rate(law, planned, failure, age):
    r = reach(law, age)
    return (planned * r + failure * (1 - r)) / use(law, age)


def part(rng):
    shape, scale = float(rng.uniform(1.3, 6)), float(10 ** rng.uniform(0, 4))
    planned = float(rng.uniform(1, 100))
    return shape, scale, planned, planned * float(rng.uniform(1.5, 30))


# Gauss and Legendre's five points on a panel of R = 1 - (t/scale)^shape..., whose power is not whole: what they miss
NODES, WEIGHTS = np.polynomial.legendre.leggauss(5)


def first_panel(shape, width):
    """What five points leave of the first panel's integral of u^shape, in units of the scale."""
    gauss = np.sum(WEIGHTS * ((NODES + 1) / 2) ** shape) / 2
    return abs(gauss - 1 / (shape + 1)) * width ** (shape + 1)


@check("replacement.cost-rate", "scipy.special.gammainc", 2.0, "in units of what five Gauss points miss of the first of 64 panels, where the reliability is no polynomial, and 1e-12")
def cost_rate(rng):
    for _ in range(1_000):
        shape, scale, planned, failure = part(rng)
        age = scale * float(rng.uniform(0.1, 2))
        law = ("weibull", shape, scale)
        want = rate(law, planned, failure, age)
        missed = first_panel(shape, age / scale / 64) / (use(law, age) / scale)
        yield Case([shape, scale, planned, failure, age], want, want * (missed + 1e-12))


@check("replacement.cost-rate-at-failure", "scipy.stats.weibull_min", 2.0, "as the cost rate, over panels up to 40^(1/shape) scales, and 1e-9 for the others' width")
def cost_rate_at_failure(rng):
    for _ in range(500):
        shape, scale, planned, failure = part(rng)
        want = failure / stats.weibull_min(shape, scale=scale).mean()
        missed = first_panel(shape, 40 ** (1 / shape) / 64) / special.gamma(1 + 1 / shape)
        yield Case([shape, scale, planned, failure], want, want * (missed + 1e-9))


def dip(law, planned, failure, guess):
    """Age and rate of the least cost, if there is one before nearly all have failed."""
    found = optimize.minimize_scalar(
        lambda a: rate(law, planned, failure, a),
        bounds=(guess * 1e-3, guess * (14 ** (1 / law[1]) if law[0] == "weibull" else 1.9)),
        method="bounded",
        options={"xatol": guess * 1e-9},
    )
    return found.x, found.fun


@check("replacement.best-age", "scipy.optimize", 2e-6, "the least of a curve by its values is known to the root of their 1e-12; the rate there by its square")
def best_age(rng):
    for _ in range(300):
        shape, scale, planned, failure = part(rng)
        law = ("weibull", shape, scale)
        age, least = dip(law, planned, failure, scale)
        # a dip so shallow that the search cannot see it is no case
        if least < failure / stats.weibull_min(shape, scale=scale).mean() * (1 - 1e-3):
            yield Case([shape, scale, planned, failure], [age, least])


@check("replacement.best-age-normal", "scipy.optimize", 2e-6, "as for Weibull")
def best_age_normal(rng):
    for _ in range(150):
        mean = float(10 ** rng.uniform(0, 3))
        deviation = mean * float(rng.uniform(0.05, 0.2))
        planned = float(rng.uniform(1, 100))
        failure = planned * float(rng.uniform(1.5, 20))
        law = ("normal", mean, deviation)
        age, least = dip(law, planned, failure, mean)
        if least < failure / use(law, mean + 9 * deviation) * (1 - 1e-3):
            yield Case([mean, deviation, planned, failure], [age, least])


@check("replacement.renewal", "scipy.optimize", 2e-7, "the least of a smooth curve is known by its values to the root of eps, over its curvature")
def renewal(rng):
    for _ in range(500):
        shape, scale, planned, _ = part(rng)
        mending = planned * float(rng.uniform(0.05, 1))
        # in units of the scale, cost a unit of age with the expected number of mendings (t/scale)^shape
        cost = lambda log: np.log(planned + mending * np.exp(shape * log)) - log  # noqa: E731, B023
        found = optimize.minimize_scalar(cost, bounds=(-3, 4), method="bounded", options={"xatol": 1e-9})
        yield Case([shape, scale, planned, mending], scale * np.exp(found.x))
