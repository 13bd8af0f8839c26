"""Weibull fits with suspensions: lifelines, reliability, and scipy on the likelihood itself."""

import numpy as np
from lifelines import WeibullFitter
from reliability.Fitters import Fit_Weibull_2P
from scipy import optimize, stats
from harness import Case, check


def lives(rng, most=40):
    """Failures and suspensions of random parts; a third complete, the others stopped at ages of their own or at one."""
    n = int(rng.integers(5, most))
    shape, scale = float(np.exp(rng.uniform(-0.5, 1.8))), float(10 ** rng.uniform(-1, 5))
    ages = scale * rng.weibull(shape, n)
    kind = rng.integers(3)
    stop = np.inf if kind == 0 else (scale * rng.weibull(shape, n) * 1.5 if kind == 1 else np.quantile(ages, 0.7))
    failed, running = ages[ages <= stop], np.minimum(ages, stop)[ages > stop]
    if len(failed) < 3:
        return lives(rng, most)
    return [float(v) for v in failed], [float(v) for v in running]


def log_likelihood(shape, log_scale, failed, running):
    z = np.log(np.concatenate([failed, running])) - log_scale
    dead = z[: len(failed)]
    return np.sum(np.log(shape) + shape * dead - np.log(failed)) - np.sum(np.exp(shape * z))


def best(failed, running):
    """Likeliest shape by brentq on the profile's slope, which is solved for the scale."""
    dead, every = np.log(failed), np.log(np.concatenate([failed, running]))
    middle = every.max()

    def score(shape):
        w = np.exp(shape * (every - middle))
        return np.sum(w * every) / np.sum(w) - 1 / shape - dead.mean()

    shape = optimize.brentq(score, 1e-3, 500, xtol=1e-15, rtol=1e-15, maxiter=300)
    return shape, middle + np.log(np.sum(np.exp(shape * (every - middle))) / len(failed)) / shape


@check("weibull.estimates", "scipy.optimize.brentq", 1e-11, "the score is a difference of logarithms of up to 12, eps of which stands over a slope of 1/shape^2 and more")
def estimates(rng):
    for _ in range(1_500):
        failed, running = lives(rng)
        shape, log_scale = best(failed, running)
        yield Case([failed, running], [shape, np.exp(log_scale)])


@check("weibull.fit", "lifelines", 2e-4, "L-BFGS-B stops at a change of the likelihood of 2e-9 of it, which leaves the parameters within the root of twice that, 1e-4 standard errors; the errors are its second derivatives there")
def lifelines_fit(rng):
    for _ in range(80):
        failed, running = lives(rng)
        durations = np.array(failed + running)
        # scaled to one, since lifelines' start is made for lives of that order
        unit = durations.mean()
        fit = WeibullFitter().fit(durations / unit, [1] * len(failed) + [0] * len(running))
        errors = np.sqrt(np.diag(fit.variance_matrix_.loc[["rho_", "lambda_"], ["rho_", "lambda_"]]))
        loglik = fit.log_likelihood_ - len(failed) * np.log(unit)
        yield Case(
            [failed, running],
            [fit.rho_, fit.lambda_ * unit, loglik, errors[0], errors[1] * unit],
            [fit.rho_, fit.lambda_ * unit, max(1.0, abs(loglik)), errors[0], errors[1] * unit],
        )


@check("weibull.estimates", "reliability", 1e-4, "TNC stops at a change of 1e-8 or so of the likelihood (its default, L-BFGS-B, can stop ten per cent off): 1e-4 standard errors")
def reliability_fit(rng):
    for _ in range(40):
        failed, running = lives(rng)
        fit = Fit_Weibull_2P(
            failures=failed, right_censored=running or None, optimizer="TNC", show_probability_plot=False, print_results=False,
        )  # fmt: skip
        yield Case([failed, running], [fit.beta, fit.alpha])


def profile(at, failed, running, log_hazard):
    """Greatest likelihood with a quantile's logarithm held."""
    found = optimize.minimize_scalar(
        lambda log_shape: -log_likelihood(np.exp(log_shape), at - log_hazard / np.exp(log_shape), np.array(failed), np.array(running)),
        bounds=(-5, 6), method="bounded", options={"xatol": 1e-10},
    )  # fmt: skip
    return -found.fun


def limits(failed, running, confidence, log_hazard):
    shape, log_scale = best(failed, running)
    top = log_likelihood(shape, log_scale, np.array(failed), np.array(running))
    short = lambda at: profile(at, failed, running, log_hazard) - (top - stats.chi2.ppf(confidence, 1) / 2)  # noqa: E731
    middle = log_scale + log_hazard / shape
    step = 3.0 / (shape * np.sqrt(len(failed)))
    ends = []
    for sign in (-1, 1):
        reach = step
        while short(middle + sign * reach) > 0:
            reach *= 1.6
        ends.append(np.exp(optimize.brentq(short, middle + sign * 1e-9, middle + sign * reach, xtol=1e-12)))
    return ends


@check("weibull.scale-limits", "scipy.optimize", 1e-7, "the profile by a bounded search, flat at its top, and its crossing by brentq; the slope there is of order one")
def scale_limits(rng):
    for _ in range(120):
        failed, running = lives(rng)
        confidence = float(rng.choice([0.8, 0.9, 0.95]))
        yield Case([failed, running, confidence], limits(failed, running, confidence, 0.0))


@check("weibull.life-limits", "scipy.optimize", 1e-7, "as the scale's")
def life_limits(rng):
    for _ in range(120):
        failed, running = lives(rng)
        share, confidence = float(rng.choice([0.01, 0.1, 0.5])), float(rng.choice([0.8, 0.9, 0.95]))
        log_hazard = np.log(-np.log1p(-share))
        yield Case([failed, running, share, confidence], limits(failed, running, confidence, log_hazard))


@check("weibull.shape-limits", "scipy.optimize.brentq", 1e-8, "a likelihood of hundreds to 1e-13, over a slope of order one")
def shape_limits(rng):
    for _ in range(500):
        failed, running = lives(rng)
        confidence = float(rng.choice([0.8, 0.9, 0.95]))
        shape, log_scale = best(failed, running)
        every = np.log(np.concatenate([failed, running]))
        top = log_likelihood(shape, log_scale, np.array(failed), np.array(running))

        def short(b):
            scale = every.max() + np.log(np.sum(np.exp(b * (every - every.max()))) / len(failed)) / b  # noqa: B023
            return log_likelihood(b, scale, np.array(failed), np.array(running)) - top + stats.chi2.ppf(confidence, 1) / 2  # noqa: B023

        yield Case([failed, running, confidence], [optimize.brentq(short, 1e-3 * shape, shape, rtol=1e-14), optimize.brentq(short, shape, 30 * shape, rtol=1e-14)])


@check("weibull.law", "scipy.stats.weibull_min", 1e-11, "powers and gammas, good to a few eps times the exponent, which is up to 40; the deviation is a difference of two gammas")
def law(rng):
    for _ in range(1_000):
        shape, scale = float(np.exp(rng.uniform(-0.7, 2))), float(10 ** rng.uniform(-1, 5))
        t, run = scale * float(rng.uniform(0.05, 2)), scale * float(rng.uniform(0.0, 1.5))
        share = float(rng.uniform(0.001, 0.999))
        w = stats.weibull_min(shape, scale=scale)
        after = np.exp(w.logsf(run + t) - w.logsf(run))
        values = [w.sf(t), np.exp(w.logpdf(t) - w.logsf(t)), w.ppf(share), w.mean(), w.std(), after]
        yield Case([shape, scale, t, run, share], values, [1.0, *values[1:5], 1.0])


@check("weibull.by-chance", "scipy.stats.chi2", 1e-11, "a finite Poisson sum of up to 40 terms, bisected, against scipy's incomplete gamma")
def by_chance(rng):
    for _ in range(1_000):
        failed, running = lives(rng)
        confidence = float(rng.uniform(0.5, 0.99))
        total, r = sum(failed) + sum(running), len(failed)
        low, high = (2 * total / stats.chi2.ppf(q, 2 * r) for q in ((1 + confidence) / 2, (1 - confidence) / 2))
        yield Case([failed, running, confidence], [total / r, low, high])
