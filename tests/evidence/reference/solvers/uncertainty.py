"""Uncertainty of readings and of a dose: see uncertainty.md."""

import numpy as np
from scipy import integrate, optimize, special, stats

FULL = 1023
SAMPLES = 400_000


def t_factor(share, nu):
    log_front = special.gammaln((nu + 1) / 2) - special.gammaln(nu / 2) - 0.5 * np.log(nu * np.pi)

    def density(t):
        return np.exp(log_front - (nu + 1) / 2 * np.log1p(t * t / nu))

    def missing(k):
        return 2 * integrate.quad(density, 0, k, epsabs=1e-13, epsrel=1e-13)[0] - share

    return optimize.brentq(missing, 1e-6, 100, xtol=1e-13)


def step_left(sigma):
    codes = np.arange(-40, 42)

    def squared_error(x):
        upper = stats.norm.cdf((codes + 0.5 - x) / sigma)
        lower = stats.norm.cdf((codes - 0.5 - x) / sigma)
        return (np.sum(codes * (upper - lower)) - x) ** 2

    # The error is odd about every half count.
    return np.sqrt(2 * integrate.quad(squared_error, 0, 0.5, epsabs=1e-15, epsrel=1e-10, limit=400)[0])


def middle_of_three():
    def second_moment(z):
        share = stats.norm.cdf(z)
        return z * z * 6 * share * (1 - share) * stats.norm.pdf(z)

    return np.sqrt(integrate.quad(second_moment, -np.inf, np.inf)[0])


class Draws:
    def __init__(self, seed):
        self.generator = np.random.Generator(np.random.PCG64(seed))

    def limit(self, half_width, n=SAMPLES):
        return half_width * (2 * self.generator.random(n) - 1)

    def normal(self, sigma, n=SAMPLES):
        return sigma * stats.norm.ppf(self.generator.random(n))


def middle_counts(exact, draws):
    """Three noisy, rounded samples of one signal each; the middle one."""
    with_curve = exact + draws.limit(1)
    three = [np.clip(np.rint(with_curve + draws.normal(0.5)), 0, FULL) for _ in range(3)]
    return np.median(three, axis=0)


def live_zero(value, span, draws):
    counts = middle_counts(FULL * (0.1 + 0.8 * value / span), draws)
    return (counts / FULL - 0.1) / 0.8 * span


def pressure_spread(pressure, seed):
    draws, span = Draws(seed), 400e3
    of_span = draws.limit(0.002) + draws.limit(0.0015) + draws.limit(0.0001 * 15) + draws.limit(0.001)
    sensed = pressure * (1 + draws.limit(0.002)) + of_span * span
    return np.std(live_zero(sensed, span, draws) - pressure)


def light_gain(draws, n=SAMPLES):
    gain = 1 + draws.normal(0.02, n)
    for half_width in (0.025, 0.015, 0.01, 0.01):
        gain = gain * (1 + draws.limit(half_width, n))
    return gain


def irradiance_spread(light, seed):
    draws, span = Draws(seed), 400.0
    sensed = light * light_gain(draws) + (draws.limit(0.001) + draws.limit(0.001)) * span
    return np.std(live_zero(sensed, span, draws) - light)


A, B, C = 1.129148e-3, 2.34125e-4, 8.76741e-8
SERIES = 10e3


def ohm_at(temperature):
    """ln R from the cubic c x^3 + b x + (a - 1/T) = 0, by Cardano."""
    p, q = B / C, (A - 1 / np.asarray(temperature)) / C
    root = np.sqrt((q / 2) ** 2 + (p / 3) ** 3)
    return np.exp(np.cbrt(-q / 2 + root) + np.cbrt(-q / 2 - root))


def temperature_spread(temperature, seed):
    draws = Draws(seed)
    ohm = ohm_at(temperature)
    heating = (5 / (ohm + SERIES)) ** 2 * ohm / 3e-3
    element = temperature + sum(draws.limit(limit) for limit in (0.5, 0.2, 0.02, heating))
    resistance = ohm_at(element) + draws.limit(1)
    series = SERIES * (1 + draws.limit(0.001))
    ratio = middle_counts(FULL * resistance / (resistance + series), draws) / FULL
    log = np.log(SERIES * ratio / (1 - ratio))
    return np.std(1 / (A + B * log + C * log**3) - temperature)


def dose_spread(seed):
    n, light, time, tick = 200_000, 195.0, 324.0, 0.05
    draws, per_count = Draws(seed), 400 / (0.8 * FULL)
    zero = (draws.limit(0.001, n) + draws.limit(0.001, n)) * 400 + draws.limit(1, n) * per_count
    noise = draws.normal(np.sqrt(0.25 + 1 / 12) / np.sqrt(time / tick), n) * per_count
    counted = time * (1 + draws.limit(0.005, n)) + draws.limit(0.1, n)
    # To the resin: film, edge of the spot, and the glass nearer or farther by 0.2 of 20 mm.
    way = (1 + draws.limit(0.02, n)) * (1 + draws.limit(0.02 / 0.9, n))
    way = way * (20 / (20 + draws.limit(0.2, n))) ** 2
    return np.std((light * light_gain(draws, n) + zero + noise) * counted * way)


def accepted(true_over_target, gain=0.03, k=1.6448536269514722):
    return 1 - stats.norm.cdf((1 / (true_over_target * (1 - k * gain)) - 1) / gain)


def cases():
    return {
        "t": {str(nu): t_factor(0.95, nu) for nu in (1.5, 2.7, 16.65, 137.3)},
        "step": {str(sigma): step_left(sigma) for sigma in (0.1, 0.2, 0.3, 0.5)},
        "middle": middle_of_three(),
        "pressure": {str(pa): pressure_spread(pa, 1) for pa in (25_000, 238_000)},
        "irradiance": {str(w): irradiance_spread(w, 2) for w in (80, 195)},
        "temperature": {str(k): temperature_spread(k, 3) for k in (278.15, 296.15, 313.15)},
        "dose": dose_spread(4),
        "accepted": {str(x): accepted(x) for x in (1, 1.03, 1.05, 1.1)},
    }
