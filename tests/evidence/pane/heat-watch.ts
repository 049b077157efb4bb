import {
  HEAT_WATCH_START,
  RATE_TIME_CONSTANT_S,
  stepHeatWatch,
} from '../../../src/safety/watch/heat-watch.ts';
import type { CheckGroup } from '../check.ts';

const TICK_S = 0.05;
/** Long enough that what lay before its start has faded to e^-20. */
const LONG_S = 20 * RATE_TIME_CONSTANT_S;

/** Counts of 0.09 K with the wobble of a live converter, from a ramp in K/s; repeatable. */
function samplesOf(rateKPerS: number, lastsS: number): readonly number[] {
  let seed = 7;
  return Array.from({ length: Math.round(lastsS / TICK_S) }, (_, tick) => {
    seed = (seed * 16_807) % 2_147_483_647;
    const wobble = 0.1 * (seed / 2_147_483_647 - 0.5);
    return Math.round((296 + rateKPerS * tick * TICK_S + wobble) / 0.09) * 0.09;
  });
}

function watchedRateKPerMin(samples: readonly number[]): number {
  const scene = { watching: true, airK: 296, lowestGlassK: 285, paneFollowsAirS: 400 };
  let state = HEAT_WATCH_START;
  for (const glassK of samples) state = stepHeatWatch(state, { ...scene, glassK }, TICK_S);
  return (state.rateKPerS ?? Number.NaN) * 60;
}

/** Weighted least squares over all stored samples, weights exp(-age / 8 s). */
function regressionKPerMin(samples: readonly number[]): number {
  let [w, wt, wtt, wy, wty] = [0, 0, 0, 0, 0];
  const last = samples.length - 1;
  samples.forEach((value, tick) => {
    const t = (tick - last) * TICK_S;
    const weight = Math.exp(t / RATE_TIME_CONSTANT_S);
    const y = value - 296;
    w += weight;
    wt += weight * t;
    wtt += weight * t * t;
    wy += weight * y;
    wty += weight * t * y;
  });
  return (60 * (w * wty - wt * wy)) / (w * wtt - wt * wt);
}

const BROWN = 'discounted least squares over stored samples; Brown 1963 (from memory)';
/** A tick's half over the time constant: the watch divides by it as if ticks were instants. */
const TICK_SHARE = TICK_S / 2 / RATE_TIME_CONSTANT_S;

const regression = (rateKPerMin: number) => {
  const samples = samplesOf(rateKPerMin / 60, LONG_S);
  const expected = regressionKPerMin(samples);
  return {
    what: `noisy counts rising ${rateKPerMin} K/min`,
    actual: () => watchedRateKPerMin(samples),
    expected,
    tolerance: Math.abs(expected) * TICK_SHARE * 1.05 + 1e-6,
    unit: 'K/min',
    source: BROWN,
    obtained: 'computed' as const,
  };
};

const ramp = (afterS: number) => {
  const x = afterS / RATE_TIME_CONSTANT_S;
  return {
    what: `a 10 K/min ramp ${afterS} s after it began`,
    actual: () =>
      watchedRateKPerMin(
        Array.from({ length: Math.round(afterS / TICK_S) + 1 }, (_, i) => 296 + (i * TICK_S) / 6),
      ),
    expected: 10 * (1 - (1 + x) * Math.exp(-x)),
    tolerance: 10 * TICK_SHARE * 1.05,
    unit: 'K/min',
    source: 'step response of two equal lags, 1 - (1 + t/tau) exp(-t/tau)',
    obtained: 'computed' as const,
  };
};

export const HEATING_RATE_FILTER: CheckGroup = {
  title: 'the heating rate from thermistor counts',
  rows: [regression(2), regression(10), regression(-6), ramp(8), ramp(16), ramp(31)],
  plots: () => {
    const times = Array.from({ length: 30 }, (_, i) => 2 * (i + 1));
    const x = (t: number): number => t / RATE_TIME_CONSTANT_S;
    return [
      {
        title: 'How fast a 10 K/min ramp is told',
        xLabel: 'time, s',
        yLabel: 'rate, K/min',
        lines: [{ label: 'controller', x: times, y: times.map((t) => ramp(t).actual()) }],
        points: [
          {
            label: 'two equal lags',
            x: times,
            y: times.map((t) => 10 * (1 - (1 + x(t)) * Math.exp(-x(t)))),
          },
        ],
      },
    ];
  },
};
