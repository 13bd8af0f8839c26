"""Journals that move: quadrature for the short film, Reynolds' equation for the finite one, solve_ivp for the orbit."""

import mpmath as mp
import numpy as np
from scipy import integrate, optimize
from harness import Case, check
from subjects.journal_bearing import AROUND, Film
from subjects.kinematics import height

NODES, WEIGHTS = np.polynomial.legendre.leggauss(200)


def force(e, motion):
    """Force of the short film against a unit motion at an angle from the eccentricity: along and across the latter."""
    t = motion + NODES * np.pi / 2
    push = np.cos(t - motion) / (1 - e * np.cos(t)) ** 3 * WEIGHTS * np.pi / 2
    return np.sum(push * np.cos(t)), np.sum(push * np.sin(t))


def exact(x, y):
    """Mobility of the short film along and across the load, times (L/D)^2; the load lies along x."""
    e, where = np.hypot(x, y), np.arctan2(y, x)
    # angle of the load from the eccentricity is -where; find the motion that meets that load
    def off(motion):
        along, across = force(e, motion)
        turn = np.arctan2(across, along) + where
        return np.arctan2(np.sin(turn), np.cos(turn))

    motion = optimize.brentq(off, -where - np.pi / 2, -where + np.pi / 2, xtol=1e-14, rtol=1e-14)
    size = 1 / (2 * np.hypot(*force(e, motion)))
    # in the load's frame
    return size * np.cos(motion + where), size * np.sin(motion + where)


def place(rng, most):
    e, angle = most * np.sqrt(float(rng.uniform(0.001, 1))), float(rng.uniform(-np.pi, np.pi))
    return float(e * np.cos(angle)), float(e * np.sin(angle))


@check("mobility.short-exact", "numpy.leggauss, brentq", 1e-9, "200 points of Gauss on a film of up to 1/(1 - e)^3 = 1.6e4; against the mobility's size")
def short_exact(rng):
    for _ in range(1_000):
        (x, y), ratio = place(rng, 0.96), float(rng.uniform(0.15, 1))
        m = np.array(exact(x, y)) / ratio**2
        yield Case([x, y, ratio], m, np.hypot(*m))


@check("mobility.short-fit", "numpy.leggauss, brentq", 9.5e-2, "Booker's fit is within 9 % of the exact map up to an eccentricity of 0.96, by its own account; against the mobility's size")
def short_fit(rng):
    for _ in range(1_000):
        (x, y), ratio = place(rng, 0.96), float(rng.uniform(0.15, 1))
        m = np.array(exact(x, y)) / ratio**2
        yield Case([x, y, ratio], m, np.hypot(*m))


def squeezed(x, y, ratio):
    """Mobility of a finite film: the motion whose film bears a unit load along x, by Reynolds' equation."""
    angle = np.arange(2 * AROUND) * np.pi / AROUND
    nodes = angle[0::2]
    film = Film(1 - x * np.cos(angle) - y * np.sin(angle), ratio, pinned=False)

    def load(motion):
        along = film.mean_across(film.pressure(-12 * np.cos(nodes - motion)))
        return np.array([np.sum(along * np.cos(nodes)), np.sum(along * np.sin(nodes))]) * film.dt / 2

    def off(motion):
        fx, fy = load(motion)
        return np.arctan2(fy, fx)

    motion = optimize.brentq(off, -1.5, 1.5, xtol=1e-3)
    size = 1 / np.hypot(*load(motion))
    return size * np.cos(motion), size * np.sin(motion)


@check("mobility.finite", "scipy.sparse (Reynolds)", 2e-2, "the map is within 1 % of a fine solution by its own account; a grid of 240 by 12 is another 1 % off; against the mobility's size")
def finite(rng):
    for _ in range(16):
        (x, y), ratio = place(rng, 0.88), float(rng.uniform(0.15, 0.9))
        m = squeezed(x, y, ratio)
        yield Case([x, y, ratio], m, np.hypot(*m))


def big_end(rng):
    r = float(rng.uniform(0.03, 0.06))
    return [r, r * float(rng.uniform(2.8, 4)), float(rng.choice([0.0, 0.0015])), float(rng.uniform(0.08, 0.115)), float(rng.uniform(0.3, 0.9)), float(rng.uniform(0.3, 0.7))]


@check("mobility.big-end", "mpmath.diff", 1e-12, "Newton's law on the piston and the rod's two masses, their places differentiated at 34 digits; against the forces' sizes")
def loads(rng):
    for _ in range(600):
        r, l, d, bore, upper, lower = one = big_end(rng)
        angle, omega, p = float(rng.uniform(-6.2, 6.2)), float(rng.uniform(200, 900)), float(rng.uniform(0, 1e7))
        t, w = mp.mpf(angle), mp.mpf(omega)
        up = height(mp.mpf(r), mp.mpf(l), mp.mpf(d))
        # the piston's rise is -a; gas presses it down; what is left, the rod pushes with, along its own line
        rod_up = mp.mpf(upper) * mp.diff(up, t, 2) * w**2 + mp.pi / 4 * mp.mpf(bore) ** 2 * mp.mpf(p)
        slant = mp.asin((mp.mpf(r) * mp.sin(t) - mp.mpf(d)) / mp.mpf(l))
        pin = lambda q: (mp.mpf(r) * mp.cos(q), mp.mpf(r) * mp.sin(q))  # noqa: E731, B023
        ax, ay = (mp.diff(lambda q, k=k: pin(q)[k], t, 2) * w**2 for k in (0, 1))
        x = -rod_up - mp.mpf(lower) * ax
        y = rod_up * mp.tan(slant) - mp.mpf(lower) * ay
        turning = mp.diff(lambda q: mp.asin((mp.mpf(r) * mp.sin(q) - mp.mpf(d)) / mp.mpf(l)), t) * w
        big = upper * r * omega**2 * 1.5 + np.pi / 4 * bore**2 * p + lower * r * omega**2
        # the rod turns the other way to the crank while the crank is on its upper half
        yield Case([*one, angle, omega, p], [float(x), float(y), float((w - turning) / 2), float(w + turning)], [big, big, omega, omega])


@check("mobility.orbit", "scipy.integrate.solve_ivp", 3e-2, "steps are held to 4e-4 of the film each, a few dozen of which a squeeze takes, and repeat to 2e-3; the load between degrees is a cubic; against the film")
def orbit(rng):
    for _ in range(16):
        r, l, d, bore, upper, lower = one = big_end(rng)
        omega, peak = float(rng.uniform(250, 750)), float(rng.uniform(4e6, 9e6))
        diameter = float(rng.uniform(0.045, 0.06))
        length, clearance, mu = diameter * float(rng.uniform(0.3, 0.45)), float(rng.uniform(2.2e-5, 4e-5)), float(rng.uniform(5e-3, 1.2e-2))
        ratio = length / diameter
        k = (2 * clearance / diameter) ** 2 / (mu * length * diameter) / omega

        def rate(angle, at):
            sin, cos = np.sin(angle), np.cos(angle)
            u = r * sin - d  # noqa: B023
            q = np.sqrt(l * l - u * u)  # noqa: B023
            a = r * omega**2 * (cos + (r * cos * cos - u * sin) / q + u * u * r * cos * cos / q**3)  # noqa: B023
            degrees = (np.degrees(angle) - 14 + 360) % 720 - 360
            up = upper * a - np.pi / 4 * bore**2 * peak * np.exp(-((degrees / 25) ** 2))  # noqa: B023
            fx, fy = up + lower * r * omega**2 * cos, -up * u / q + lower * r * omega**2 * sin  # noqa: B023
            size = np.hypot(fx, fy)
            cx, cy = fx / size, fy / size
            x, y = at[0] * cx + at[1] * cy, -at[0] * cy + at[1] * cx
            gap = max(1 - x, 1e-9)
            mx, my = gap**2.5 / (np.pi * ratio**2), -4 * y * gap**1.5 / (np.pi**2 * ratio**2)  # noqa: B023
            turn = (1 - r * cos / q) / 2  # noqa: B023
            return [k * size * (mx * cx - my * cy) - turn * at[1], k * size * (mx * cy + my * cx) + turn * at[0]]  # noqa: B023

        first = integrate.solve_ivp(rate, (-2 * np.pi, 2 * np.pi), [0.0, 0.0], "LSODA", rtol=1e-7, atol=1e-8)
        second = integrate.solve_ivp(rate, (-2 * np.pi, 2 * np.pi), first.y[:, -1], "LSODA", rtol=1e-8, atol=1e-9, dense_output=True)
        films = lambda a: clearance * (1 - np.hypot(*second.sol(a)))  # noqa: E731, B023
        fine = np.radians(np.arange(-360, 360, 0.25))
        least = np.min(films(fine))
        if least < 2e-7:
            continue
        some = films(np.radians(np.arange(-360, 360, 20)))
        yield Case([*one, omega, peak, [diameter, length, clearance, mu]], [least, *some], [least, *some])


@check("mobility.main", "numpy", 1e-8, "second differences of where the masses are, good to 1e-8; against what one throw pulls with")
def main(rng):
    """A throw with its rods and pistons as one body: what the mains hold it with is its change of momentum less gas and wall."""

    def accelerated(where, t, w):
        # sixth order, in turns small enough for rounding and large enough for the order
        h = 4e-3
        weights = np.array([2, -27, 270, -490, 270, -27, 2]) / 180
        return sum(k * where(t + n * h) for n, k in zip(range(-3, 4), weights)) / h**2 * w**2

    for _ in range(400):
        r, l, d, bore, upper, lower = one = big_end(rng)
        omega, peak = float(rng.uniform(250, 900)), float(rng.uniform(4e6, 9e6))
        countered = float(rng.uniform(0, upper + lower))
        throws = int(rng.integers(1, 5))
        pins = [pin for pin in range(throws) for _ in range(int(rng.integers(1, 3)))]
        axes = rng.uniform(-1.6, 1.6, len(pins))
        turns = rng.uniform(-6, 6, len(pins))
        angle, wanted = float(rng.uniform(-6, 6)), int(rng.integers(0, throws + 1))
        total = np.zeros(2)
        for pin, axis, turn in zip(pins, axes, turns):
            if wanted not in (pin, pin + 1):
                continue
            own = angle - turn
            # along the cylinder and across it
            crankpin = lambda q: r * np.array([np.cos(q), np.sin(q)])  # noqa: E731, B023
            piston = lambda q: np.array([r * np.cos(q) + np.sqrt(l * l - (r * np.sin(q) - d) ** 2), 0 * q])  # noqa: E731, B023
            momentum = upper * accelerated(piston, own, omega) + (lower - countered) * accelerated(crankpin, own, omega)
            degrees = (np.degrees(own) - 14 + 360) % 720 - 360
            gas = -np.pi / 4 * bore**2 * peak * np.exp(-((degrees / 25) ** 2))
            # the wall holds the piston against what its rod pushes it aside with
            thrust = gas - upper * accelerated(piston, own, omega)[0]
            lean = (r * np.sin(own) - d) / np.sqrt(l * l - (r * np.sin(own) - d) ** 2)
            load = np.array([gas, thrust * -lean]) - momentum
            # half of it to the main on each side
            c, s = np.cos(axis), np.sin(axis)
            total += 0.5 * np.array([load[0] * c - load[1] * s, load[0] * s + load[1] * c])
        big = upper * r * omega**2 * 1.5 + np.pi / 4 * bore**2 * peak + (lower + countered) * r * omega**2
        yield Case([*one, countered, omega, peak, wanted, angle, [float(p) for p in pins], list(axes), list(turns)], list(total), [big, big])
