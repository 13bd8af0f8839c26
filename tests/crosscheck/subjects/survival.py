"""Shares that are still good, and whether groups differ: lifelines."""

import numpy as np
from lifelines import KaplanMeierFitter
from lifelines.statistics import multivariate_logrank_test
from harness import Case, check


def group(rng, least=1):
    """Failures and others in whole numbers, so that ages meet."""
    n = int(rng.integers(least + 2, 40))
    ages = np.ceil(rng.weibull(float(rng.uniform(0.8, 4)), n) * 60)
    ages = np.maximum(ages, 1)
    failed = rng.random(n) < 0.6
    failed[:least] = True
    return ages, failed


def lists(ages, failed):
    return [[float(a) for a in ages[failed]], [float(a) for a in ages[~failed]]]


@check("survival.kaplan-meier", "lifelines.KaplanMeierFitter", 1e-9, "the same products; its limits are exponential Greenwood's, which is the logarithm of the logarithm")
def kaplan_meier(rng):
    for _ in range(1_000):
        ages, failed = group(rng)
        fitted = KaplanMeierFitter().fit(ages, failed)
        table = fitted.event_table
        limits = fitted.confidence_interval_survival_function_
        want = []
        for age in sorted(set(ages[failed])):
            good = float(fitted.survival_function_.loc[age].iloc[0])
            low, high = (float(v) for v in limits.loc[age])
            if good <= 1e-12:
                good, low, high = 0.0, float("nan"), float("nan")
            want += [float(age), float(table.loc[age, "at_risk"]), good, low, high]
        yield Case(lists(ages, failed), want, [max(abs(w), 1e-3) if w == w else 1.0 for w in want])


@check("survival.log-rank", "lifelines.multivariate_logrank_test", 1e-8, "the same sums; it inverts the matrix by numpy, and its chance is scipy's")
def log_rank(rng):
    for i in range(1_000):
        groups = [group(rng) for _ in range(2 + i % 2)]
        ages = np.concatenate([g[0] for g in groups])
        failed = np.concatenate([g[1] for g in groups])
        of = np.concatenate([[n] * len(g[0]) for n, g in enumerate(groups)])
        found = multivariate_logrank_test(ages, of, failed)
        args = [part for g in groups for part in lists(*g)]
        args += [[]] * (6 - len(args))
        scale = [max(1.0, found.test_statistic), max(found.p_value, 1e-3)]
        yield Case(args, [float(found.test_statistic), float(found.p_value)], scale)
