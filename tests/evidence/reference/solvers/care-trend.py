"""Trends with Student's t and the range in which they reach a limit; see care-trend.md."""

import numpy as np
from scipy.optimize import brentq
from scipy.stats import linregress, t

SERIES = {
    "declining": (12, 30, 200, -0.1, 1, 120),
    "few": (5, 20, 198, -0.3, 4, 120),
    "rising": (8, 14, 8, 0.05, 0.6, 60),
    "flat": (9, 30, 2, 0.0001, 0.05, 10),
}


def solved(readings, step, start, slope, scatter, limit):
    i = np.arange(readings)
    x = step * i.astype(float)
    y = start + slope * x + scatter * np.sin(1000 * np.sin(i + 1))
    line = linregress(x, y)
    factor = t.ppf(0.975, readings - 2)
    found = {"slope": line.slope, "slopeHalfWidth": factor * line.stderr}
    if abs(line.slope) <= factor * line.stderr:
        return found
    s = np.sqrt(np.sum((y - line.intercept - line.slope * x) ** 2) / (readings - 2))
    spread = np.sum((x - x.mean()) ** 2)

    def outside(at):
        band = factor * s * np.sqrt(1 / readings + (at - x.mean()) ** 2 / spread)
        return abs(line.intercept + line.slope * at - limit) - band

    crossing = (limit - line.intercept) / line.slope
    return {
        **found,
        "crossing": crossing,
        "from": brentq(outside, x.mean(), crossing, xtol=1e-11, rtol=1e-14),
        "to": brentq(outside, crossing, 1e6, xtol=1e-11, rtol=1e-14),
    }


def cases():
    return {name: solved(*series) for name, series in SERIES.items()}
