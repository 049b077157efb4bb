"""Lamp, heat sink, resin and radiometer of cure.md, by adaptive solvers."""

import numpy as np
from scipy.integrate import quad, solve_ivp

TAU, C, P, G, TAIR = 0.05, 60.0, 12.0, 0.4, 295.15
EFULL, ALPHA, TRATED = 200.0, 0.003, 298.15
DP, EOX, K = 1e-3, 100.0, 0.01656 / 10.0
TOLERANCE = {"method": "Radau", "rtol": 1e-10, "atol": 1e-12}


def irradiance(u, t_sink):
    return EFULL * u * (1.0 - ALPHA * (t_sink - TRATED))


def lamp_slope(y, d):
    u, t_sink = y[0], y[1]
    return [(d - u) / TAU, (P * u - G * (t_sink - TAIR)) / C, irradiance(u, t_sink)]


def lamp(pieces, times):
    """pieces: (until, drive) in order; values at times."""
    y, start, out = [0.0, TAIR, 0.0], 0.0, []
    for until, d in pieces:
        wanted = [t for t in times if start < t <= until]
        run = solve_ivp(lambda t, y: lamp_slope(y, d), (start, until), y, t_eval=sorted({*wanted, until}), **TOLERANCE)
        for t in wanted:
            u, t_sink, dose = run.y[:, list(run.t).index(t)]
            out.append({"timeS": t, "heatSinkK": t_sink, "irradianceWPerM2": irradiance(u, t_sink), "doseJPerM2": dose})
        y, start = list(run.y[:, -1]), until
    return out


def resin(depth, film, refill, strength, times):
    """One depth under the steady lamp: oxygen first, conversion after it is gone."""
    share = film * strength * np.exp(-depth / DP)

    def local(y):
        return share * irradiance(y[0], y[1])

    def inhibited(t, y):
        return [*lamp_slope(y, 1.0), refill * (1.0 - y[3]) - local(y) / EOX]

    def used_up(t, y):
        return y[3]

    used_up.terminal, used_up.direction = True, -1

    def reacting(t, y):
        return [*lamp_slope(y, 1.0), K * np.sqrt(local(y)) * (1.0 - y[3])]

    end = times[-1]
    first = solve_ivp(inhibited, (0.0, end), [0.0, TAIR, 0.0, 1.0], events=used_up, dense_output=True, **TOLERANCE)
    gone = first.t_events[0][0] if first.t_events[0].size else end
    rows = [{"timeS": t, "oxygenRatio": first.sol(t)[3], "conversion": 0.0} for t in times if t < gone]
    later = [t for t in times if t >= gone]
    if first.t_events[0].size and later:
        start = [*first.y_events[0][0][:3], 0.0]
        second = solve_ivp(reacting, (gone, end), start, t_eval=later, **TOLERANCE)
        rows += [{"timeS": t, "oxygenRatio": 0.0, "conversion": x} for t, x in zip(second.t, second.y[3])]
    elif not first.t_events[0].size:
        rows += [{"timeS": t, "oxygenRatio": first.sol(t)[3], "conversion": 0.0} for t in later]
    return {"inhibitedS": gone, "rows": rows}


RESPONSE = ([300, 340, 375, 385, 395, 405, 420, 450], [0.3, 0.8, 1, 0.999, 0.995, 0.988, 0.95, 0.6])


def gaussian(peak):
    sigma = 12.0 / (2.0 * np.sqrt(2.0 * np.log(2.0)))
    return lambda nm: np.exp(-0.5 * ((nm - peak) / sigma) ** 2)


def responding(peak):
    """Mean of the responsivity over a band."""
    band = gaussian(peak)
    kinks = [nm for nm in RESPONSE[0] if abs(nm - peak) < 40]
    top = quad(lambda nm: band(nm) * np.interp(nm, *RESPONSE), peak - 40, peak + 40, points=kinks, epsabs=1e-12)[0]
    return top / quad(band, peak - 40, peak + 40, points=[peak], epsabs=1e-12)[0]


def cases():
    times = [1.0, 10.0, 60.0, 300.0]
    return {
        "steady": lamp([(300.0, 1.0)], times),
        "pulsed": lamp([(100.0, 1.0), (150.0, 0.0), (300.0, 0.6)], [100.0, 150.0, 200.0, 300.0]),
        "covered": [resin(z, 0.9, 0.0, 1.0, times) for z in (0.0, 0.25e-3, 1e-3, 2e-3)],
        "open": resin(0.0, 1.0, 4.0, 1.0, [0.1, 0.5, 1.0, 10.0]),
        "openUnderTenfold": resin(0.0, 1.0, 4.0, 10.0, [0.5, 1.0, 10.0]),
        "mismatch": {str(peak): responding(365.0) / responding(peak) for peak in (362.5, 367.5, 395.0)},
    }
