"""Filling of a gap by resin, from filling.md: shapes by quadrature, fronts by an ODE solver."""

import numpy as np
from scipy.integrate import quad, solve_ivp

RM = 8.314462618
T = 296.15
PA = 101_325.0
MU = 0.042
A = 0.033
KH = 2.5e-5
D_GAS = 2e-9
P_RESIN = 60_000.0
MENISCUS = 2.5e-3

GAPS = {
    "leg": dict(kind="leg", L=0.01, h0=1.2e-6, e=0.6, w0=0.0012, r0=0.0, phi=0.2),
    "disc": dict(kind="disc", L=0.0095, h0=6e-6, e=0.5, w0=2 * np.pi * 0.0015, r0=0.0015, phi=0.4),
    "crack": dict(kind="crack", L=0.02, h0=2e-6, e=0.5, w0=0.0018, r0=0.0, phi=0.3),
}
# Seconds and pressures at the mouth, and seconds after the start at which results are kept.
PROGRAMME = {
    "leg": [(10, PA), (40, 239_325.0), (30, 25_000.0), (60, 239_325.0), (20, PA)],
    "disc": [(2, PA), (6, 239_325.0), (3, 25_000.0), (30, 239_325.0), (20, PA)],
}
TIMES = {
    "leg": [5, 10, 30, 50, 65, 80, 110, 140, 160],
    "disc": [1, 2, 5, 8, 9.5, 11, 25, 41, 61],
}


def shape(g):
    """w(x) and h(x) of a gap."""
    h = lambda x: g["h0"] * (1 - (1 - g["e"]) * x / g["L"])
    if g["kind"] == "leg":
        w = lambda x: g["w0"] * h(x) / g["h0"]
    elif g["kind"] == "disc":
        w = lambda x: g["w0"] * (1 + x / g["r0"])
    else:
        w = lambda x: g["w0"] + 0 * x
    return w, h


def integrals(g, x):
    w, h = shape(g)
    tight = dict(epsabs=0, epsrel=1e-12, limit=200)
    V = quad(lambda s: w(s) * h(s), 0, x, **tight)[0]
    R = quad(lambda s: 12 / (w(s) * h(s) ** 3), 0, x, **tight)[0]
    return V, R


def smooth_integrals(g):
    """V and R over x as high polynomials: Chebyshev series of the integrands, integrated."""
    from numpy.polynomial.chebyshev import Chebyshev

    w, h = shape(g)
    series = lambda f: Chebyshev.interpolate(f, 60, domain=[0, g["L"]]).integ(lbnd=0)
    return series(lambda s: w(s) * h(s)), series(lambda s: 12 / (w(s) * h(s) ** 3))


def fill(name):
    g = GAPS[name]
    w, h = shape(g)
    V, R = smooth_integrals(g)
    VL = integrals(g, g["L"])[0]
    n0 = PA * VL / (RM * T)
    mouth = 12 * MENISCUS / (g["w0"] * g["h0"] ** 3)
    spread = 4 * (g["w0"] / 2) ** 2 / (np.pi**2 * D_GAS)

    # The state is made of numbers near one: (x / L)^2, which grows evenly from nought, n and d over n0.
    def rates(_, s, pi):
        x = g["L"] * np.sqrt(max(s[0], 1e-14))
        n, d = s[1] * n0, s[2] * n0
        Vx = V(x)
        pg = n * RM * T / (VL - Vx)
        Q = (pi + 2 * A / h(x) - pg) / (MU * R(x))
        if s[0] <= 1e-14 and Q < 0:
            Q = 0.0
        over = max(0.0, pg - pi - 2 * A / g["h0"])
        q = g["phi"] * over / (MU * (R(x) + mouth))
        E = pg * q / (RM * T)
        S = (KH * pg * Vx - d) / spread
        C = KH * P_RESIN * Q if Q > 0 else d * Q / Vx
        return [2 * x * Q / (w(x) * h(x)) / g["L"] ** 2, (-E - S) / n0, (S + C) / n0]

    s, start, found = [1e-14, 1.0, 0.0], 0.0, []
    for seconds, pi in PROGRAMME[name]:
        end = start + seconds
        wanted = [t for t in TIMES[name] if start < t <= end]
        solved = solve_ivp(
            rates, (start, end), s, method="Radau", args=(pi,), t_eval=sorted({*wanted, end}),
            rtol=1e-9, atol=1e-13, max_step=seconds / 100,
        )
        assert solved.success, solved.message
        found += [solved.y[:, i] for i, t in enumerate(solved.t) if t in wanted]
        s, start = solved.y[:, -1], end
    found = np.array(found)
    return dict(
        timeS=TIMES[name],
        frontRatio=np.sqrt(found[:, 0]),
        trappedRatio=found[:, 1],
        dissolvedRatio=found[:, 2],
    )


def times_to(name, ratios, driving):
    """t = mu / p times the integral of w h R, with R itself by quadrature."""
    g = GAPS[name]
    w, h = shape(g)
    inner = lambda x: w(x) * h(x) * integrals(g, x)[1]
    return [MU / driving * quad(inner, 0, r * g["L"], epsabs=0, epsrel=1e-10)[0] for r in ratios]


def cases():
    shapes = {}
    for name, g in GAPS.items():
        (Vh, Rh), (Ve, Re) = integrals(g, g["L"] / 2), integrals(g, g["L"])
        shapes[name] = dict(halfVolumeM3=Vh, volumeM3=Ve, halfResistancePerM3=Rh, resistancePerM3=Re)
    ratios = [0.25, 0.5, 0.9]
    times = {name: dict(ratio=ratios, timeS=times_to(name, ratios, 150_000.0)) for name in GAPS}
    return dict(shapes=shapes, times=times, leg=fill("leg"), disc=fill("disc"))
