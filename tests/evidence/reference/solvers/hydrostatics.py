"""Pressure at height by integrating the hydrostatic equation; see hydrostatics.md."""

from scipy.integrate import solve_ivp

G0 = 9.80665
M = 28.9644
SEA_LEVEL_PA = 101_325.0
HEIGHTS_M = [-1000, 250, 750, 1500, 3500, 4500, 6000, 8848, 11000]


def pressure_at(height_m, gas_constant):
    def slope(h, p):
        return [-p[0] * G0 * M / (gas_constant * (288.15 - 0.0065 * h))]

    solution = solve_ivp(slope, (0, height_m), [SEA_LEVEL_PA], method="LSODA", rtol=1e-12, atol=1e-9)
    return solution.y[0][-1]


def cases():
    return {
        "heightM": HEIGHTS_M,
        "pressurePa": [pressure_at(h, 8314.32) for h in HEIGHTS_M],
        "with2019GasConstantPa": [pressure_at(h, 8314.462618) for h in HEIGHTS_M],
    }
