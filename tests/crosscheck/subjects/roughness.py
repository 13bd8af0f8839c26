"""Finish of a surface: surfalize, and scipy's convolution for the filters."""

import pathlib

import numpy as np
from scipy import signal
from surfalize import Profile
from harness import Case, check


def profile(rng, n):
    """Heights in m of a honed wall: a fine plateau cut by deeper strokes, or one process alone; with some length to it."""
    fine, coarse = rng.normal(0, float(rng.uniform(0.05, 0.2)), n), rng.normal(0, float(rng.uniform(0.3, 1.0)), n)
    shift = float(rng.uniform(0.0, 0.8))
    heights = fine if rng.random() < 0.3 else np.minimum(fine, coarse + shift)
    width = int(rng.integers(1, 6))
    return np.convolve(heights, np.ones(width) / width, mode="same") * 1e-6


def lists(values):
    return [float(v) for v in values]


@check("roughness.amplitudes", "surfalize", 1e-13, "sums of 500 to 2,000 heights, whose order differs")
def amplitudes(rng):
    for _ in range(400):
        heights = profile(rng, int(rng.integers(500, 2_000)))
        told = Profile(heights * 1e6, 1.0)
        yield Case([lists(heights)], [told.Ra() * 1e-6, told.Rq() * 1e-6])


@check("roughness.rz", "surfalize", 1e-12, "five differences, their mean; lengths that part in five without rest")
def rz(rng):
    for _ in range(300):
        heights = profile(rng, 5 * int(rng.integers(100, 400)))
        yield Case([lists(heights)], Profile(heights * 1e6, 1.0).Rz() * 1e-6)


@check("roughness.core", "surfalize", 1e-2, "8,000 heights in our 1,000 and surfalize's 10,000 classes, and it takes areas from the class nearest to the line: a part in a hundred of the whole height in what hangs on the flattest window, where several are alike")
def core(rng):
    for _ in range(50):
        heights = profile(rng, 8_000)
        told = Profile(heights * 1e6, 1.0)
        k, pk, vk = told.Rk(), told.Rpk(), told.Rvk()
        big = k + pk + vk
        values = [k * 1e-6, pk * 1e-6, vk * 1e-6, told.Rmr1() / 100, told.Rmr2() / 100]
        yield Case([lists(heights)], values, [big * 1e-6] * 3 + [1.0] * 2)


def filtered(heights, spacing, cut_off):
    """Mean line by ISO 16610-21's weights, scaled to one where the profile ends."""
    alpha = np.sqrt(np.log(2) / np.pi)
    reach = min(int(np.ceil(cut_off / spacing)), len(heights))
    off = np.arange(-reach, reach + 1) * spacing
    weights = np.exp(-np.pi * (off / (alpha * cut_off)) ** 2)
    return signal.convolve(heights, weights, mode="full", method="direct")[reach:-reach] / signal.convolve(np.ones(len(heights)), weights, mode="full", method="direct")[reach:-reach]


@check("roughness.gaussian", "scipy.signal.convolve", 1e-12, "sums of hundreds of weighted heights")
def gaussian(rng):
    for _ in range(100):
        heights, spacing = profile(rng, 600), float(rng.uniform(0.5e-6, 5e-6))
        cut_off = spacing * float(rng.uniform(10, 250))
        yield Case([lists(heights), spacing, cut_off], heights - filtered(heights, spacing, cut_off), np.abs(heights).max())


@check("roughness.gaussian", "surfalize", 2e-3, "away from the ends; scipy's filter, which surfalize calls, is cut off at four sigma, where 3.4e-4 of the greatest weight, 6e-5 of their sum, stands, and the cut-off is rounded nowhere; against the greatest height")
def gaussian_surfalize(rng):
    for _ in range(100):
        heights, spacing = profile(rng, 900), 1e-6
        cut_off = spacing * float(rng.integers(40, 200))
        line = Profile(heights * 1e6, 1.0).filter("highpass", cut_off * 1e6).data * 1e-6
        margin = int(cut_off / spacing) + 1
        scale = np.full(900, 1e9)
        scale[margin : 900 - margin] = np.abs(heights).max()
        yield Case([lists(heights), spacing, cut_off], line, scale)


@check("roughness.plateau", "scipy.signal.convolve", 1e-12, "the filter twice, with the valleys filled up to the first line")
def plateau(rng):
    for _ in range(100):
        heights, spacing = profile(rng, 600), 1e-6
        cut_off = spacing * float(rng.uniform(20, 250))
        filled = np.maximum(heights, filtered(heights, spacing, cut_off))
        yield Case([lists(heights), spacing, cut_off], heights - filtered(filled, spacing, cut_off), np.abs(heights).max())


FILES = pathlib.Path(__file__).parents[3] / "sample-builds"


@check("roughness.core", "surfalize, the samples' profiles", 1e-2, "as over random walls; a plateau's flattest window is sharper")
def samples(rng):
    for name in ("flat-tappet-bore.csv", "planted/flat-tappet-bore-unbrushed.csv"):
        rows = [line.split(",") for line in (FILES / name).read_text(encoding="utf-8").splitlines() if line[0].isdigit()]
        heights = np.array([float(row[1]) for row in rows]) * 1e-6
        spacing = float(rows[1][0]) * 1e-3
        filled = np.maximum(heights, filtered(heights, spacing, 8e-4))
        rough = heights - filtered(filled, spacing, 8e-4)
        told = Profile(rough * 1e6, 1.0)
        k, pk, vk = told.Rk(), told.Rpk(), told.Rvk()
        values = [k * 1e-6, pk * 1e-6, vk * 1e-6, told.Rmr1() / 100, told.Rmr2() / 100]
        yield Case([lists(rough)], values, [(k + pk + vk) * 1e-6] * 3 + [1.0] * 2)
