"""Orifices and valves: nozzles by the first law and fluids' isentropes, valves by the distance of their edges."""

import fluids.compressible as compressible
import numpy as np
from scipy import integrate, optimize
from harness import Case, check


def gas(rng):
    return float(rng.uniform(2e4, 4e5)), float(rng.uniform(220, 1200)), float(rng.uniform(1.15, 1.66)), float(rng.uniform(180, 520))


def nozzle(p, t, gamma, constant, behind):
    """Mass flow through a square metre: speed by what the enthalpy falls, density behind by the isentrope."""
    after = compressible.isentropic_T_rise_compression(t, p, behind, gamma)
    heat = gamma * constant / (gamma - 1.0)
    return behind / (constant * after) * np.sqrt(2.0 * heat * (t - after))


@check("flow.critical-ratio", "fluids.compressible", 2e-15, "one power")
def critical_ratio(rng):
    for _ in range(1_000):
        gamma = float(rng.uniform(1.05, 1.67))
        yield Case([gamma], compressible.P_critical_flow(1.0, gamma))


@check("flow.orifice", "fluids.compressible", 1e-10, "the fall of enthalpy is a difference: eps over a fall of down to 1e-5 of it, rooted")
def orifice(rng):
    for _ in range(1_500):
        p, t, gamma, constant = gas(rng)
        area, discharge = float(10 ** rng.uniform(-7, -2)), float(rng.uniform(0.5, 1))
        behind = p * float(rng.uniform(compressible.P_critical_flow(1.0, gamma), 0.9999))
        yield Case([area, discharge, p, t, gamma, constant, behind], area * discharge * nozzle(p, t, gamma, constant, behind))


@check("flow.choked", "fluids, scipy.optimize", 1e-12, "the greatest flow over all pressures behind: flat there, so the search's 1e-8 counts by its square")
def choked(rng):
    for _ in range(1_000):
        p, t, gamma, constant = gas(rng)
        area, discharge = float(10 ** rng.uniform(-7, -2)), float(rng.uniform(0.5, 1))
        most = optimize.minimize_scalar(
            lambda r: -nozzle(p, t, gamma, constant, r * p), bounds=(0.2, 0.9), method="bounded", options={"xatol": 1e-9}
        )
        yield Case([area, discharge, p, t, gamma, constant], -most.fun * area * discharge)


@check("flow.bench-flow", "scipy.integrate.quad", 1e-12, "the speed from the work of the drop, by quad to 1e-13")
def bench_flow(rng):
    for _ in range(1_000):
        area, discharge = float(10 ** rng.uniform(-5, -2)), float(rng.uniform(0.3, 1))
        drop, density = float(rng.uniform(100, 1.5e4)), float(rng.uniform(0.9, 1.4))
        work, _ = integrate.quad(lambda p: 1.0 / density, 0.0, drop, epsabs=0, epsrel=1e-13)
        yield Case([area, discharge, drop, density], area * discharge * np.sqrt(2.0 * work))


def seat(rng):
    head = float(rng.uniform(0.02, 0.07))
    return [head, head * float(rng.uniform(0.75, 0.95)), float(rng.uniform(0.004, 0.012)), head * float(rng.uniform(0.01, 0.06)), float(np.radians(rng.uniform(20, 65)))]


def frustum(head, port, stem, width, angle, lift):
    """Least frustum between the seat's inner edge and the valve's face, which is lowered; or the port."""
    # plane through the stem: seat's inner edge at height 0, the face lies from there outward and rises with the angle
    inner = np.array([head / 2 - width, 0.0])
    low = np.array([head / 2 - width, -lift])
    high = low + np.array([width, width * np.tan(angle)])
    along = (high - low) / np.linalg.norm(high - low)
    reach = np.clip(np.dot(inner - low, along), 0.0, np.linalg.norm(high - low))
    foot = low + reach * along
    lateral = np.pi * (inner[0] + foot[0]) * np.linalg.norm(inner - foot)
    return min(lateral, np.pi / 4 * (port**2 - stem**2))


@check("flow.least-area", "numpy.linalg", 2e-14, "a projection, a norm, a product; lengths of a hundredth of the head's keep 14 digits")
def least_area(rng):
    for _ in range(2_000):
        one = seat(rng)
        lift = one[0] * float(rng.uniform(0.005, 0.4))
        yield Case([*one, lift], frustum(*one, lift))


@check("flow.port-limits-from", "scipy.optimize.brentq", 1e-11, "the lift at which the frustum is the port, by brentq to 1e-14 m")
def port_limits(rng):
    for _ in range(1_000):
        one = seat(rng)
        port = np.pi / 4 * (one[1] ** 2 - one[2] ** 2)
        free = [one[0], 10.0, 0.0, *one[3:]]
        yield Case([*one], optimize.brentq(lambda lift: frustum(*free, lift) - port, 1e-6, 1.0, xtol=1e-16, rtol=1e-14))


@check("flow.valve-for-mach", "scipy.optimize.brentq", 1e-13, "brentq to 1e-14")
def valve_for_mach(rng):
    for _ in range(500):
        bore, index, valves = float(rng.uniform(0.05, 0.13)), float(rng.uniform(0.3, 0.8)), float(rng.integers(1, 4))
        piston, flow, sound = float(rng.uniform(5, 30)), float(rng.uniform(0.25, 0.5)), float(rng.uniform(330, 400))
        off = lambda d: bore**2 * piston / (valves * d**2 * flow * sound) - index  # noqa: E731, B023
        yield Case([bore, index, valves, piston, flow, sound], optimize.brentq(off, 1e-4, 1.0, xtol=1e-16, rtol=1e-14))
