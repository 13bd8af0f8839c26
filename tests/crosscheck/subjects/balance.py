"""Shaking forces of engines of any layout: every cylinder's pull summed as it turns, and the ellipse by its singular values."""

import numpy as np
from scipy import integrate, optimize
from harness import Case, check


def engine(rng):
    """Cylinders with any pins, axes, places and masses, and radius, rod, speed, direction."""
    n = int(rng.integers(1, 13))
    rows = np.column_stack([rng.uniform(0, 2 * np.pi, n), rng.uniform(-np.pi, np.pi, n), rng.uniform(-0.4, 0.4, n), rng.uniform(0.3, 1.2, n)])
    radius = float(rng.uniform(0.02, 0.08))
    return rows, radius, radius * float(rng.uniform(2.5, 5)), float(rng.uniform(100, 1000)), float(rng.uniform(-np.pi, np.pi))


def pull(rows, radius, rod, omega, order, arm, turn):
    """Vector sum of one order at a turn of the crank."""
    pin, axis, position, mass = rows.T
    size = mass * radius * omega**2 * (1.0 if order == 1 else radius / rod) * np.cos(order * (pin + turn - axis))
    size = size * (position if arm else 1.0)
    return np.array([np.sum(size * np.cos(axis)), np.sum(size * np.sin(axis))])


def order_cases(rng, order, arm, count=400):
    for _ in range(count):
        rows, radius, rod, omega, direction = engine(rng)
        # F(turn) = cos(order turn) a + sin(order turn) b
        a = pull(rows, radius, rod, omega, order, arm, 0.0)
        b = pull(rows, radius, rod, omega, order, arm, np.pi / 2 / order)
        most, least = np.linalg.svd(np.column_stack([a, b]), compute_uv=False)
        line = np.array([np.cos(direction), np.sin(direction)])
        big = np.sum(rows[:, 3]) * radius * omega**2 * (1.0 if order == 1 else radius / rod) * (0.4 if arm else 1.0)
        yield Case([[float(v) for v in rows.ravel()], radius, rod, omega, direction], [most, least, np.hypot(a @ line, b @ line)], big)


WHY = "sums of up to twelve vectors, against the sum of their sizes"


@check("balance.primary-force", "numpy.linalg.svd", 5e-15, WHY)
def primary_force(rng):
    yield from order_cases(rng, 1, False)


@check("balance.primary-couple", "numpy.linalg.svd", 5e-15, WHY)
def primary_couple(rng):
    yield from order_cases(rng, 1, True)


@check("balance.secondary-force", "numpy.linalg.svd", 1e-14, WHY + "; twice the angle")
def secondary_force(rng):
    yield from order_cases(rng, 2, False)


@check("balance.secondary-couple", "numpy.linalg.svd", 1e-14, WHY + "; twice the angle")
def secondary_couple(rng):
    yield from order_cases(rng, 2, True)


@check("balance.pair-secondary", "scipy.optimize", 1e-12, "the greatest of the pair's second order along and across the V, over a turn, by a bounded search, flat at its top; against the greater")
def pair_secondary(rng):
    for _ in range(400):
        bank, mass = float(rng.uniform(0.3, 3.1)), float(rng.uniform(0.3, 1.2))
        radius = float(rng.uniform(0.02, 0.08))
        rod, omega = radius * float(rng.uniform(2.5, 5)), float(rng.uniform(100, 1000))
        rows = np.array([[0.0, bank / 2, 0.0, mass], [0.0, -bank / 2, 0.0, mass]])
        greatest = []
        for line in ([1.0, 0.0], [0.0, 1.0]):
            size = lambda t: -abs(pull(rows, radius, rod, omega, 2, False, t) @ line)  # noqa: E731, B023
            grid = np.linspace(0, np.pi, 41)
            at = grid[int(np.argmin([size(t) for t in grid]))]
            greatest.append(-optimize.minimize_scalar(size, bounds=(at - 0.1, at + 0.1), method="bounded", options={"xatol": 1e-9}).fun)
        yield Case([bank, mass, radius, rod, omega], greatest, max(greatest))


@check("balance.two-planes", "numpy (complex)", 1e-14, "sum and half of the difference of two vectors as complex numbers; against their sizes")
def two_planes(rng):
    for _ in range(400):
        front, rear = (float(10 ** rng.uniform(-6, -3)) for _ in range(2))
        between = float(rng.uniform(-np.pi, np.pi))
        z = front, rear * np.exp(1j * between)
        yield Case([front, rear, between], [abs(z[0] + z[1]), abs(z[0] - z[1]) / 2], front + rear)


@check("balance.unbalance-force", "scipy.integrate.quad", 1e-12, "m v^2 / r with v from a turn's length over its time")
def unbalance_force(rng):
    for _ in range(500):
        mass, radius, omega = float(rng.uniform(1e-3, 0.2)), float(rng.uniform(0.02, 0.2)), float(rng.uniform(50, 1200))
        way, _ = integrate.quad(lambda t: np.hypot(radius * np.sin(t), radius * np.cos(t)), 0, 2 * np.pi)  # noqa: B023
        v = way / (2 * np.pi / omega)
        yield Case([mass, radius, omega], mass * v * v / radius)
