"""Least-squares fits of a closed chamber's rise; see seal-rise.md."""
import numpy as np
from scipy.stats import linregress, t as student

TAUS = [3, 4, 5.3, 7, 9.3, 12.4, 16.5, 22, 29, 39]


def trace(slope, height, tau, scatter):
    i = np.arange(0, 901, 3)
    t = 2 + 0.05 * i
    p = 60000 + slope * t + height * (1 - np.exp(-t / tau))
    return t, p + scatter * np.sin(1000 * np.sin(i + 1.0))


def bent(t, p):
    best = None
    for tau in TAUS:
        design = np.column_stack([np.ones_like(t), t, 1 - np.exp(-t / tau)])
        found, *_ = np.linalg.lstsq(design, p, rcond=None)
        rest = float(np.sum((p - design @ found) ** 2))
        if best is None or rest < best[0]:
            best = (rest, tau, found)
    return {
        "tauS": best[1],
        "startPa": float(best[2][0]),
        "slopePaPerS": float(best[2][1]),
        "heightPa": float(best[2][2]),
    }


def cases():
    t, p = trace(120, 0, 1, 300)
    fit = linregress(t, p)
    return {
        "straight": {
            "slopePaPerS": float(fit.slope),
            "halfRangePaPerS": float(fit.stderr * student.ppf(0.975, len(t) - 2)),
        },
        "water": bent(*trace(15, 2800, 9.3, 300)),
        "between": bent(*trace(15, 2800, 8, 300)),
        "outgassing": bent(*trace(15, 900, 7, 100)),
    }
