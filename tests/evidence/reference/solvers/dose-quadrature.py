"""Integrals of lamp histories; see dose-quadrature.md."""

from math import exp, pi, sin

from scipy.integrate import quad

CASES = {
    "warmUpAndDroop": (lambda t: 200 * (1 - exp(-t / 2)) * (1 - 0.1 * (1 - exp(-t / 120))), 300),
    "ripple": (lambda t: 150 * (1 + 0.05 * sin(2 * pi * 0.7 * t)) * exp(-t / 900), 240),
    "bell": (lambda t: 200 * exp(-(((t - 60) / 20) ** 2)), 120),
}


def slope(f, t, step=1e-5):
    return (f(t + step) - f(t - step)) / (2 * step)


def cases():
    doses = {}
    for name, (f, end) in CASES.items():
        # In pieces, so that quick and slow parts are both resolved.
        pieces = 60
        edges = [end * i / pieces for i in range(pieces + 1)]
        doses[name] = {
            "doseJPerM2": sum(
                quad(f, a, b, epsabs=0, epsrel=1e-13)[0] for a, b in zip(edges, edges[1:])
            ),
            # Rounded: a difference quotient, good for an error bound only.
            "slopeRiseWPerM2S": round(slope(f, end) - slope(f, 0), 3),
        }
    return doses
