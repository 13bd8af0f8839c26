"""Bolted joints: screws by the work of a turn, cones by integrating their flexibility, stresses by roots."""

import mpmath as mp
import numpy as np
from scipy import integrate, optimize
from harness import Case, check


def thread(rng):
    """Diameter, pitch, and whether metric."""
    d = float(rng.uniform(0.005, 0.03))
    return d, d * float(rng.uniform(0.06, 0.18)), float(rng.integers(2))


def diameters(d, p, metric):
    """Pitch, root and stress diameter by the height of a 60 degree thread."""
    high = np.sqrt(3) / 2 * p
    pitch = d - 2 * 3 / 8 * high
    # metric roots are rounded 1/6 of the height below the flat at 5/8; unified ones counted at 3/4
    root = d - 2 * (5 / 8 + 1 / 12) * high if metric else d - 2 * 3 / 4 * high
    return pitch, root, (pitch + root) / 2


@check("bolt.thread", "numpy", 1.2e-5, "unified threads have their 0.9743 rounded by ASME B1.1: off by 2.1e-5 p in a diameter, p/d of up to 0.18, squared; metric ones agree to the digits of their constants")
def threads(rng):
    for _ in range(1_000):
        d, p, metric = thread(rng)
        pitch, root, stress = diameters(d, p, metric)
        yield Case([d, p, metric], [pitch, root, np.pi / 4 * stress**2])


@check("bolt.torque-by-friction", "scipy.integrate.quad", 1e-3, "VDI 2230 prints 0.159 for 1/(2 pi) and 0.577 for 1/(2 cos 30°), which are 9.7e-4 and 6.1e-4 low; here a turn's work with the flanks' and the collar's friction")
def torque(rng):
    for _ in range(1_000):
        d, p, metric = thread(rng)
        tension, mu, under = float(rng.uniform(1e3, 2e5)), float(rng.uniform(0.04, 0.25)), float(rng.uniform(0.04, 0.25))
        collar = d * float(rng.uniform(1.2, 1.7))
        pitch, _, _ = diameters(d, p, metric)
        # force along the thread a radian: the lift, and rubbing on flanks that stand 30 degrees from the axis' normal
        work = lambda a: tension * (p / (2 * np.pi) + mu / np.cos(np.pi / 6) * pitch / 2 + under * collar / 2)  # noqa: E731, B023
        turn, _ = integrate.quad(work, 0, 2 * np.pi, epsabs=0, epsrel=1e-13)
        yield Case([d, p, metric, tension, mu, under, collar], turn / (2 * np.pi))


@check("bolt.torque-factor", "numpy.linalg.solve", 2e-9, "the balance of forces on an inclined plane, solved as two equations; constants of 10 digits")
def torque_factor(rng):
    for _ in range(1_000):
        d, p, metric = thread(rng)
        mu, under = float(rng.uniform(0.04, 0.3)), float(rng.uniform(0.04, 0.3))
        mean = (d + diameters(d, p, metric)[1]) / 2
        lead = np.arctan(p / (np.pi * mean))
        rub = mu / np.cos(np.pi / 6)
        # push P and normal N that lift one newton: N (cos - rub sin) = 1, P = N (sin + rub cos)
        push = np.linalg.solve([[0.0, np.cos(lead) - rub * np.sin(lead)], [1.0, -(np.sin(lead) + rub * np.cos(lead))]], [1.0, 0.0])[0]
        yield Case([d, p, metric, mu, under], push * mean / 2 / d + under * 1.25 * d / 2 / d)


@check("bolt.assembly-tension", "scipy.optimize.brentq", 3e-5, "the tension whose von Mises stress is the share of the yield; the stress area's rounded constant, squared, as in bolt.thread, and the torsion's arm a little")
def assembly(rng):
    for _ in range(1_000):
        d, p, metric = thread(rng)
        strength, mu, nu = float(rng.uniform(4e8, 1.6e9)), float(rng.uniform(0.05, 0.2)), float(rng.uniform(0.6, 0.95))
        pitch, _, stress = diameters(d, p, metric)
        area = np.pi / 4 * stress**2

        def over(force):
            # torsion wholly plastic: pi d0^3/12
            twist = force * pitch / 2 * (p / (np.pi * pitch) + mu / np.cos(np.pi / 6)) / (np.pi * stress**3 / 12)  # noqa: B023
            return np.hypot(force / area, np.sqrt(3) * twist) - nu * strength  # noqa: B023

        yield Case([d, p, metric, strength, mu, nu], optimize.brentq(over, 1.0, 2 * area * strength, xtol=1e-9, rtol=1e-14))


@check("bolt.frustum", "scipy.integrate.quad", 1e-9, "the flexibility of the cone's slices integrated by quad to 1e-12, their area a difference of squares")
def frustum(rng):
    for _ in range(1_000):
        modulus, d = float(rng.uniform(6e10, 2.2e11)), float(rng.uniform(0.005, 0.02))
        face, thick = d * float(rng.uniform(1.3, 2.2)), d * float(rng.uniform(0.5, 6))
        tangent = float(np.tan(np.radians(rng.uniform(20, 40))))
        slices = lambda x: 1 / (modulus * np.pi / 4 * ((face + 2 * x * tangent) ** 2 - d**2))  # noqa: E731, B023
        flexible, _ = integrate.quad(slices, 0, thick, epsabs=0, epsrel=1e-12)
        yield Case([modulus, d, face, thick, tangent], 1 / flexible)


@check("bolt.members", "scipy.integrate.quad", 1e-9, "both cones, as one integral")
def members(rng):
    for _ in range(500):
        modulus, d = float(rng.uniform(6e10, 2.2e11)), float(rng.uniform(0.005, 0.02))
        face, grip, tangent = d * 1.5, d * float(rng.uniform(1, 8)), float(np.tan(np.pi / 6))
        half = lambda x: 1 / (modulus * np.pi / 4 * ((face + 2 * min(x, grip - x) * tangent) ** 2 - d**2))  # noqa: E731, B023
        flexible, _ = integrate.quad(half, 0, grip, points=[grip / 2], epsabs=0, epsrel=1e-12)
        yield Case([modulus, d, face, grip, tangent], 1 / flexible)


@check("bolt.joint", "numpy.linalg.solve", 1e-12, "two springs in balance with a load: three equations; forces against the preload")
def joint(rng):
    for _ in range(1_000):
        bolt, parts = float(10 ** rng.uniform(7.5, 9.3)), float(10 ** rng.uniform(8, 10))
        preload, load = float(rng.uniform(1e4, 2e5)), float(rng.uniform(1e2, 5e4))
        # bolt tension T, clamp K, further stretch x: T - K = load, T = preload + bolt x, K = preload - parts x
        tension, clamp, _ = np.linalg.solve(
            [[1, -1, 0], [1, 0, -bolt / 1e9], [0, 1, parts / 1e9]], [load, preload, preload]
        )
        # open when the clamp has gone: linear in the load
        yield Case([bolt, parts, preload, load], [tension, clamp, preload / (preload - clamp)], [preload, preload, preload / (preload - clamp) * max(1.0, preload / (preload - clamp))])


@check("bolt.bolt-stiffness", "scipy.integrate.quad", 1e-11, "flexibility along the bolt, split at the step")
def bolt_stiffness(rng):
    for _ in range(500):
        shank, thread_, modulus = float(rng.uniform(0.01, 0.1)), float(rng.uniform(0.002, 0.05)), float(rng.uniform(1e11, 2.2e11))
        wide, narrow = float(rng.uniform(3e-5, 2e-4)), float(rng.uniform(2e-5, 1.5e-4))
        flexible = sum(integrate.quad(lambda x: 1 / (modulus * a), 0, l, epsabs=0, epsrel=1e-13)[0] for a, l in ((wide, shank), (narrow, thread_)))  # noqa: B023
        yield Case([shank, wide, thread_, narrow, modulus], 1 / flexible)


@check("bolt.goodman-preloaded", "numpy.linalg.solve", 1e-12, "the load line from the preload, at 45 degrees, crossed with Goodman's")
def goodman_preloaded(rng):
    for _ in range(500):
        strength = float(rng.uniform(8e8, 2e9))
        endurance, preload = strength * float(rng.uniform(0.1, 0.4)), strength * float(rng.uniform(0.3, 0.85))
        alternating = strength * float(rng.uniform(0.005, 0.1))
        crossing = np.linalg.solve([[1 / strength, 1 / endurance], [1, -1]], [1, preload])
        yield Case([preload, alternating, endurance, strength], crossing[1] / alternating)
