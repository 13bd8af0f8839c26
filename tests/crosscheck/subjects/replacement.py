"""When to change a part: costs by scipy's special functions, best ages by its minimizer."""

import numpy as np
from scipy import integrate, optimize, special, stats
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


@check("replacement.cost-rate", "scipy.special.gammainc", 1e-12, "two incomplete gamma functions, good to 1e-14 or so each")
def cost_rate(rng):
    for _ in range(1_000):
        shape, scale, planned, failure = part(rng)
        age = scale * float(10 ** rng.uniform(-3, 0.3))
        yield Case([shape, scale, planned, failure, age], rate(("weibull", shape, scale), planned, failure, age))


@check("replacement.cost-rate-normal", "scipy.integrate.quad", 1e-10, "quad is asked for 1e-12 of the reliability's integral; the closed form is a difference of two that are up to a hundred times as large")
def cost_rate_normal(rng):
    for _ in range(300):
        mean = float(10 ** rng.uniform(0, 3))
        deviation = mean * float(rng.uniform(0.05, 0.2))
        planned = float(rng.uniform(1, 100))
        failure = planned * float(rng.uniform(1.5, 20))
        age = mean * float(rng.uniform(0.05, 2))
        reached = reach(("normal", mean, deviation), age)
        used = integrate.quad(lambda t: stats.norm.sf(t, mean, deviation), 0, age, epsabs=0, epsrel=1e-12, limit=200)[0]  # noqa: B023
        yield Case([mean, deviation, planned, failure, age], (planned * reached + failure * (1 - reached)) / used)


@check("replacement.cost-rate-at-failure", "scipy.stats.weibull_min", 1e-13, "a gamma function")
def cost_rate_at_failure(rng):
    for _ in range(500):
        shape, scale, planned, failure = part(rng)
        yield Case([shape, scale, planned, failure], failure / stats.weibull_min(shape, scale=scale).mean())


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
