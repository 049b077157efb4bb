"""Pane with a warmed spot, by the method of lines: laminate.md."""

import numpy as np
from scipy.integrate import solve_ivp
from scipy.special import kv

SIGMA = 5.670374419e-8
EPS = 0.837
# thickness, conductivity, density, heat capacity, share of sun, share of lamp
GLASS_OUT = (2.1e-3, 1.0, 2500.0, 720.0, 0.10, 0.08)
FOIL = (0.76e-3, 0.2, 1070.0, 1900.0, 0.04, 0.60)
GLASS_IN = (1.6e-3, 1.0, 2500.0, 720.0, 0.07, 0.02)
STACK = (GLASS_OUT, FOIL, GLASS_IN)
PER_LAYER = 4

CELLS = [layer for layer in STACK for _ in range(PER_LAYER)]
WIDTH = np.array([c[0] / PER_LAYER for c in CELLS])
COND = np.array([c[1] for c in CELLS])
HEAT = WIDTH * np.array([c[2] * c[3] for c in CELLS])
SUN = np.array([c[4] / PER_LAYER for c in CELLS])
LAMP = np.array([c[5] / PER_LAYER for c in CELLS])
BETWEEN = 1.0 / (WIDTH[:-1] / (2 * COND[:-1]) + WIDTH[1:] / (2 * COND[1:]))
SHEET = sum(layer[0] * layer[1] for layer in STACK)
N = len(CELLS)


def surface(cell, g, films, radiant, heater):
    """films: list of (coefficient, temperature)."""

    def left_over(ts):
        return (
            g * (cell - ts)
            + sum(h * (ta - ts) for h, ta in films)
            + EPS * SIGMA * (radiant**4 - ts**4)
            + heater
        )

    # Newton from the cell's temperature: the function falls steadily and bends little.
    ts = cell
    for _ in range(50):
        slope = -(g + sum(h for h, _ in films) + 4 * EPS * SIGMA * ts**3)
        move = left_over(ts) / slope
        ts -= move
        if abs(move) < 1e-13 * ts:
            break
    return ts


def faces(temps, air, worked):
    films = [(air["h_out"], air["t_out"])]
    if worked and air["h_gun"] > 0:
        films.append((air["h_gun"], air["t_gun"]))
    outer = surface(temps[0], 2 * COND[0] / WIDTH[0], films, air["r_out"], 0.0)
    inner = surface(
        temps[-1], 2 * COND[-1] / WIDTH[-1], [(air["h_in"], air["t_in"])], air["r_in"], 0.0
    )
    return outer, inner


def flow(temps, air, worked):
    out = np.zeros(N)
    through = BETWEEN * (temps[1:] - temps[:-1])
    out[:-1] += through
    out[1:] -= through
    outer, inner = faces(temps, air, worked)
    out[0] += 2 * COND[0] / WIDTH[0] * (outer - temps[0])
    out[-1] += 2 * COND[-1] / WIDTH[-1] * (inner - temps[-1])
    return out + SUN * air["sun"] + (LAMP * air["lamp"] if worked else 0.0)


def rate(_, state, air, sideways):
    spot, around = state[:N], state[N:]
    spot_flow = flow(spot, air, True) + sideways * COND * WIDTH * (around - spot)
    return np.concatenate([spot_flow / HEAT, flow(around, air, False) / HEAT])


def loss(radius, start):
    h = 2 * (3.6 + 4 * EPS * SIGMA * start**3)
    m = np.sqrt(h / SHEET)
    return 2 * m / radius * kv(1, m * radius) / kv(0, m * radius)


def rim_by_integration(radius, start):
    """The fin's equation inwards from far out, where T falls as exp(-m R)/sqrt(R)."""
    m = np.sqrt(2 * (3.6 + 4 * EPS * SIGMA * start**3) / SHEET)
    far = 30.0 / m
    slope = -(m + 0.5 / far - 0.125 / (m * far * far))
    solved = solve_ivp(
        lambda r, y: [y[1], m * m * y[0] - y[1] / r],
        (far, radius),
        [1e-12, 1e-12 * slope],
        method="LSODA",
        rtol=1e-10,
        atol=1e-30,
    )
    theta, gradient = solved.y[:, -1]
    return -2.0 / radius * gradient / theta


def room(kelvin):
    return dict(
        t_out=kelvin, t_in=kelvin, h_out=3.6, h_in=3.6, r_out=kelvin, r_in=kelvin,
        h_gun=0.0, t_gun=kelvin, sun=0.0, lamp=0.0,
    )  # fmt: skip


def run(start, stages, times, sideways):
    """stages: (until, air); solved one after another so that no switch falls inside a step."""
    state = np.full(2 * N, start)
    begin = 0.0
    found = []
    for until, air in stages:
        asked = [t for t in times if begin < t <= until]
        solved = solve_ivp(
            rate, (begin, until), state, method="Radau", t_eval=sorted({*asked, until}),
            rtol=1e-9, atol=1e-9, args=(air, sideways),
        )  # fmt: skip
        for t, column in zip(solved.t, solved.y.T):
            if t in asked:
                outer, inner = faces(column[:N], air, True)
                middle = column[PER_LAYER : 2 * PER_LAYER].mean()
                around = float(np.sum(WIDTH * column[N:]) / WIDTH.sum())
                found.append((t, outer, middle, inner, around))
        state = solved.y[:, -1]
        begin = until
    keys = ("timeS", "outerK", "interlayerK", "innerK", "aroundK")
    return {key: [row[i] for row in found] for i, key in enumerate(keys)}


def cases():
    cold = dict(room(295.15), t_out=293.15, h_out=15.0, sun=500.0)
    gun = dict(room(283.15), h_gun=80.0, t_gun=363.15)
    lit = dict(room(293.15), lamp=200.0)
    return {
        "gun": run(283.15, [(120.0, gun)], [1, 5, 20, 60, 120], loss(0.03, 283.15)),
        "lamp": run(
            293.15, [(300.0, lit), (600.0, room(293.15))], [10, 60, 300, 360, 600], 0.0
        ),
        "coldPane": run(263.15, [(600.0, cold)], [1, 10, 60, 300, 600], loss(0.03, 263.15)),
        "rim": {
            "radiusM": [0.01, 0.03, 0.1],
            "perM2": [rim_by_integration(r, 293.15) for r in (0.01, 0.03, 0.1)],
        },
    }
