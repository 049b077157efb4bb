"""Slopes of straight lines through noisy pressure; see line-fit.md."""

import numpy as np
from scipy.stats import linregress

TICK_S = 0.05
TRACES = {
    "sound": (400, 30_000, 5, 400),
    "leaking": (400, 30_000, 250, 400),
    "long": (18_000, 101_325, 0.05, 500),
    "few": (3, 20_000, 1, 300),
}


def noisy_line(samples, start_pa, rise, noise_pa):
    i = np.arange(samples)
    t = TICK_S * i
    return linregress(t, start_pa + rise * t + noise_pa * np.sin(1000 * np.sin(i + 1)))


def bent_slope():
    t = TICK_S * np.arange(400)
    return linregress(t, 101_325 + (30_000 - 101_325) * np.exp(-t / 40)).slope


def cases():
    lines = {name: noisy_line(*trace) for name, trace in TRACES.items()}
    return {
        "slopePaPerS": {**{name: line.slope for name, line in lines.items()}, "bent": bent_slope()},
        "slopeErrorPaPerS": {name: line.stderr for name, line in lines.items()},
    }
