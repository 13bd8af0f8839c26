"""Lift curves: the polynomial from its end conditions by mpmath, tables by scipy's Savitzky-Golay filter."""

import mpmath as mp
import numpy as np
from scipy import integrate, interpolate, optimize, signal
from harness import Case, check


def coefficients(exponent):
    """Of 1, x^2, x^n, x^(2n-2), x^(3n-4), x^(4n-6): value and four derivatives vanish at one."""
    n = mp.mpf(exponent)
    powers = [mp.mpf(2), n, 2 * n - 2, 3 * n - 4, 4 * n - 6]
    rows = mp.matrix(5, 5)
    for order in range(5):
        for i, p in enumerate(powers):
            rows[order, i] = mp.fprod(p - k for k in range(order))
    return powers, mp.lu_solve(rows, mp.matrix([-1, 0, 0, 0, 0]))


def lobe(rng):
    return float(rng.uniform(0.005, 0.015)), float(np.radians(rng.uniform(50, 85))), float(rng.uniform(4.0, 12.0))


def curve(exponent):
    powers, c = coefficients(exponent)
    return lambda x: 1 + mp.fsum(c[i] * x ** p for i, p in enumerate(powers))


@check("valve_motion.polynomial", "mpmath.lu_solve, diff", 1e-12, "coefficients of up to 40 cancel at the end of the lobe, and the curvature weighs them by the squares of exponents; against each one's size")
def polynomial(rng):
    for _ in range(1_000):
        lift, half, exponent = lobe(rng)
        angle = half * float(rng.uniform(-0.999, 0.999))
        powers, c = coefficients(exponent)
        x = abs(mp.mpf(angle) / mp.mpf(half))
        terms = [(c[i], p) for i, p in enumerate(powers)]
        height = 1 + mp.fsum(a * x**p for a, p in terms)
        slope = mp.fsum(a * p * x ** (p - 1) for a, p in terms) * mp.sign(angle)
        bend = mp.fsum(a * p * (p - 1) * x ** (p - 2) for a, p in terms)
        big = float(max(abs(a * p * (p - 1)) for a, p in terms))
        yield Case(
            [lift, half, exponent, angle],
            [float(lift * height), float(lift * slope / half), float(lift * bend / half**2)],
            [lift, lift / half * big, lift / half**2 * big],
        )


@check("valve_motion.from-duration", "mpmath.findroot", 1e-13, "the lobe's fall is steep where its duration is read")
def from_duration(rng):
    for _ in range(500):
        lift, _, exponent = lobe(rng)
        at, duration = lift * float(rng.uniform(0.05, 0.7)), float(np.radians(rng.uniform(180, 320)))
        rise = curve(exponent)
        share = mp.mpf(at) / mp.mpf(lift)
        place = mp.findroot(lambda x: rise(x) - share, (mp.mpf("0.05"), mp.mpf("0.97")), solver="anderson", tol=1e-25)
        yield Case([lift, at, duration, exponent], float(mp.mpf(duration) / 4 / place))


@check("valve_motion.leaves", "scipy.optimize", 2e-6, "2,000 points a half lobe: the least of a smooth curve lies within half a step, whose square is 1e-7, of a point")
def leaves(rng):
    for _ in range(500):
        lift, half, exponent = lobe(rng)
        seat, stiff, mass = float(rng.uniform(200, 1500)), float(rng.uniform(2e4, 1.2e5)), float(rng.uniform(0.08, 0.3))
        powers, c = coefficients(exponent)
        powers, c = np.array([float(p) for p in powers]), np.array([float(v) for v in c])

        def square(x):
            x = np.asarray(x, dtype=float)[..., None]
            height = lift * (1 + np.sum(c * x**powers, axis=-1))  # noqa: B023
            bend = lift / half**2 * np.sum(c * powers * (powers - 1) * x ** (powers - 2), axis=-1)  # noqa: B023
            return np.where(bend < 0, (seat + stiff * height) / (-bend * mass), np.inf)  # noqa: B023

        grid = np.linspace(1e-9, 1, 2_001)
        values = square(grid)
        at = int(np.argmin(values))
        found = optimize.minimize_scalar(square, bounds=(grid[max(at - 1, 0)], grid[min(at + 1, 2_000)]), method="bounded", options={"xatol": 1e-10})
        yield Case([lift, half, exponent, seat, stiff, mass], np.sqrt(min(float(found.fun), values[at])))


@check("valve_motion.pressed-between", "scipy.interpolate, optimize", 1e-5, "2,000 points a half lobe: half a step squared is 6e-8, times half of the force's own bend, which is up to 300 of it at an exponent of 12; the inertia by a spline's derivative of the slope; against the greatest of spring and inertia")
def pressed_between(rng):
    for _ in range(400):
        lift, half, exponent = lobe(rng)
        seat, stiff, mass = float(rng.uniform(200, 1500)), float(rng.uniform(2e4, 1.2e5)), float(rng.uniform(0.08, 0.3))
        cam = float(rng.uniform(50, 450))
        powers, c = coefficients(exponent)
        powers, c = np.array([float(p) for p in powers]), np.array([float(v) for v in c])
        x = np.linspace(0, 1, 20_001)
        height = lift * (1 + np.sum(c * x[:, None] ** powers, axis=-1))
        slope = lift / half * np.sum(c * powers * x[:, None] ** (powers - 1), axis=-1)
        # the polynomial's slope is known: its spline's derivative is the curvature by another way
        force = interpolate.CubicSpline(x, seat + stiff * height + mass * cam**2 * interpolate.CubicSpline(x, slope / half)(x, 1))
        ends = []
        for sign in (1.0, -1.0):
            at = int(np.argmin(sign * force(x)))
            bounds = (x[max(at - 1, 0)], x[min(at + 1, 20_000)])
            found = optimize.minimize_scalar(lambda s: sign * float(force(s)), bounds=bounds, method="bounded", options={"xatol": 1e-9})  # noqa: B023
            ends.append(sign * min(found.fun, sign * float(force(x[at]))))
        big = seat + stiff * lift + mass * cam**2 * float(np.max(np.abs(np.gradient(slope / half, x))))
        yield Case([lift, half, exponent, seat, stiff, mass, cam], ends, big)


@check("valve_motion.harmonic", "scipy.integrate.quad", 1e-6, "4,000 trapezoids over a curve that ends flat: the error is of the step's square at the ends, where its slope is nothing; against the lift")
def harmonic(rng):
    for _ in range(500):
        lift, half, exponent = lobe(rng)
        number = float(rng.integers(1, 16))
        powers, c = coefficients(exponent)
        powers, c = np.array([float(p) for p in powers]), np.array([float(v) for v in c])
        height = lambda a: lift * (1 + np.sum(c * (a / half) ** powers))  # noqa: E731, B023
        even, _ = integrate.quad(height, 0, half, weight="cos", wvar=number, epsabs=1e-14)
        yield Case([lift, half, exponent, number], abs(2 * even / np.pi), lift)


@check("valve_motion.table", "scipy.signal.savgol_filter", 1e-9, "normal equations of fourth order, whose condition of some 1e3 is squared, against scipy's least squares; the ends by the last whole window on both sides")
def table(rng):
    for _ in range(150):
        step, n = float(rng.choice([0.5, 1.0, 2.0])), int(rng.integers(60, 200))
        degrees = (np.arange(n) - n // 2) * step
        angles = np.radians(degrees)
        lift = float(rng.uniform(0.005, 0.012))
        lifts = lift * np.exp(-((degrees / (0.25 * n * step)) ** 2)) + rng.normal(0, 1e-6, n)
        reach = int(np.floor(8 / step * (1 + 1e-9)))
        smooth = [signal.savgol_filter(lifts, 2 * reach + 1, 4, deriv=d, delta=np.radians(step), mode="interp") for d in range(3)]
        want, scale = [], []
        window = np.radians(8)
        for i in range(n):
            for d in range(3):
                want.append(smooth[d][i])
                scale.append(lift / window**d)
        yield Case([[float(a) for a in angles], [float(v) for v in lifts]], want, scale)


@check("valve_motion.table", "numpy.polyfit", 1e-9, "uneven rows, one polynomial a row by orthogonal least squares, as for the even ones")
def uneven_table(rng):
    for _ in range(100):
        n = int(rng.integers(60, 120))
        degrees = np.cumsum(rng.uniform(0.6, 1.4, n))
        angles = np.radians(degrees)
        lift = float(rng.uniform(0.005, 0.012))
        lifts = lift * np.exp(-(((degrees - degrees.mean()) / (0.25 * n)) ** 2)) + rng.normal(0, 1e-6, n)
        window = np.radians(8)
        want, scale = [], []
        for a in angles:
            # near an end the last whole window serves
            middle = min(max(a, angles[0] + window), angles[-1] - window)
            near = np.abs(angles - middle) <= window * (1 + 1e-9)
            fit = np.poly1d(np.polyfit((angles[near] - middle) / window, lifts[near], 4))
            x = (a - middle) / window
            want += [fit(x), fit.deriv()(x) / window, fit.deriv(2)(x) / window**2]
            scale += [lift, lift / window, lift / window**2]
        yield Case([[float(a) for a in angles], [float(v) for v in lifts]], want, scale)
