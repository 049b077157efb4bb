"""Independent solution of the equations in air.md: absolute pressures in Pa at several times."""
from math import sqrt

from scipy.integrate import solve_ivp

R, MOLAR_MASS, RHO0, T0 = 8.314462618, 0.0289644, 1.185, 293.15
T, AIR = 293.15, 101325.0
VM, VI = 16e-6, 14e-6


def restriction(c, b, a_pa, b_pa):
    high, low = max(a_pa, b_pa), min(a_pa, b_pa)
    ratio = low / high
    choked = c * high * RHO0 / MOLAR_MASS * sqrt(T0 / T)
    if ratio <= b:
        flow = choked
    elif ratio < 0.999:
        flow = choked * sqrt(1 - ((ratio - b) / (1 - b)) ** 2)
    else:
        flow = choked * (1 - ratio) / (1 - 0.999) * sqrt(1 - ((0.999 - b) / (1 - b)) ** 2)
    return flow if a_pa > b_pa else -flow


def clamp(x):
    return min(1.0, max(0.0, x))


def pump(mode, speed, pm, free, ratio, dead_head):
    if mode == "vacuum":
        return -speed * free * pm / (R * T) * clamp(1 - (AIR / pm - 1) / (ratio - 1))
    if mode == "pressure":
        return speed * free * AIR / (R * T) * clamp(1 - (pm - AIR) / dead_head)
    return 0.0


def solve(times, start=AIR, mode="off", volts=12.0, vent=False, seal=5e-14, free=2.5e-5, dead_head=230e3):
    def rates(_, y):
        nm, ni, speed = y
        pm, pi = nm * R * T / VM, ni * R * T / VI
        lift = clamp((pm - AIR - 200e3) / 20e3)
        hose = restriction(7e-9, 0.2, pm, pi)
        into_m = pump(mode, speed, pm, free, 12.5, dead_head) - hose
        into_m += restriction(2e-9, 0.3, AIR, pm) * ((1 if vent else 0) + lift)
        into_i = hose + restriction(seal, 0.3, AIR, pi)
        settled = volts / 12.0 if mode != "off" else 0.0
        return [into_m, into_i, (settled - speed) / 0.08]

    y0 = [start * VM / (R * T), start * VI / (R * T), 0.0]
    # Short steps: the right-hand side has corners where valves and regimes change.
    found = solve_ivp(rates, (0.0, times[-1]), y0, method="Radau", t_eval=times,
                      rtol=1e-10, atol=1e-16, max_step=times[-1] / 400)
    assert found.success
    return {
        "timesS": times,
        "manifoldPa": [n * R * T / VM for n in found.y[0]],
        "injectorPa": [n * R * T / VI for n in found.y[1]],
    }


def cases():
    return {
        "pump-down": solve([0.1, 0.25, 0.5, 1.0, 2.0, 4.0, 8.0], mode="vacuum"),
        "vent from pressure": solve([0.02, 0.05, 0.1, 0.15, 0.2, 0.25], start=300e3, vent=True),
        "pressurise with relief": solve([0.1, 0.25, 0.5, 0.75, 1.0, 2.0], mode="pressure",
                                        free=1e-4, dead_head=600e3),
        "leak rise": solve([10.0, 30.0, 60.0, 120.0], start=9e3, seal=2e-12),
        "supply sag": solve([0.25, 0.5, 1.0, 2.0, 4.0], mode="vacuum", volts=9.0),
    }
