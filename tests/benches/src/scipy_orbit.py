"""The big end's orbit on a short film, as tests/crosscheck/subjects/mobility.py has it, timed: a job in, times out."""

import json
import sys
from math import cos, exp, hypot, pi, sin, sqrt
from time import perf_counter

import numpy as np
from scipy.integrate import solve_ivp

JOB = json.load(sys.stdin)
R, L, D = JOB["crank"]
UPPER, LOWER = JOB["masses"]
DIAMETER, LENGTH, CLEARANCE, MU = JOB["bearing"]
OMEGA, PEAK, BORE = JOB["speed"], JOB["peak"], JOB["bore"]
RATIO = LENGTH / DIAMETER
K = (2 * CLEARANCE / DIAMETER) ** 2 / (MU * LENGTH * DIAMETER) / OMEGA
ANGLES = np.radians(np.arange(-360, 360))


def rate(angle, at):
    """Plain floats: numpy's own sine of one number takes several times as long."""
    ex, ey = float(at[0]), float(at[1])
    s, c = sin(angle), cos(angle)
    u = R * s - D
    q = sqrt(L * L - u * u)
    a = R * OMEGA**2 * (c + (R * c * c - u * s) / q + u * u * R * c * c / q**3)
    degrees = (angle * 180 / pi - 14 + 360) % 720 - 360
    up = UPPER * a - pi / 4 * BORE**2 * PEAK * exp(-((degrees / 25) ** 2))
    fx, fy = up + LOWER * R * OMEGA**2 * c, -up * u / q + LOWER * R * OMEGA**2 * s
    size = hypot(fx, fy)
    cx, cy = fx / size, fy / size
    x, y = ex * cx + ey * cy, -ex * cy + ey * cx
    gap = max(1 - x, 1e-9)
    mx, my = gap**2.5 / (pi * RATIO**2), -4 * y * gap**1.5 / (pi**2 * RATIO**2)
    turn = (1 - R * c / q) / 2
    return [K * size * (mx * cx - my * cy) - turn * ey, K * size * (mx * cy + my * cx) + turn * ex]


def orbit(method, rtol, atol):
    """Films at the degrees of the first cycle that ends where it began, as the Rust has it, and evaluations."""
    of = {"method": method, "rtol": rtol, "atol": atol}
    first = solve_ivp(rate, (4 / 3 * pi, 2 * pi), [0.0, 0.0], **of)
    at, asked = first.y[:, -1], first.nfev
    for _ in range(8):
        done = solve_ivp(rate, (-2 * pi, 2 * pi), at, dense_output=True, **of)
        asked += done.nfev
        start, at = at, done.y[:, -1]
        if hypot(*(at - start)) < 2e-3 * (1 - hypot(*at)):
            break
    return CLEARANCE * (1 - np.hypot(*done.sol(ANGLES))), asked


told = []
for name, method, rtol, atol in (
    ("scipy LSODA, rtol 1e-4", "LSODA", 1e-4, 1e-5),
    ("scipy LSODA, rtol 1e-5", "LSODA", 1e-5, 1e-6),
    ("scipy RK23, rtol 1e-4", "RK23", 1e-4, 1e-5),
    ("scipy LSODA, rtol 1e-7", "LSODA", 1e-7, 1e-8),
):
    films, asked = orbit(method, rtol, atol)
    us = []
    for _ in range(JOB["rounds"]):
        start = perf_counter()
        orbit(method, rtol, atol)
        us.append((perf_counter() - start) * 1e6)
    told.append({"name": name, "least": float(np.min(films)), "evaluations": int(asked), "us": us})
json.dump(told, sys.stdout)
