/**
 * Heat that soaks into a body too deep to feel its far side, against the error function: a face held
 * at a temperature, a face with a film, a face under constant heat. The model runs a thick pane
 * whose layers are only there to make the cells finer near the face.
 */
import { roomAt } from '../../../sim/plant/pane/laminate.ts';
import type { Layer } from '../../../sim/plant/pane/pane.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import {
  atDepthK,
  between,
  GLASS_DIFFUSIVITY,
  HELD_WPERM2K,
  layerOf,
  paneOf,
  runFor,
  widePane,
} from './pane-bench.ts';

const CARSLAW = 'Carslaw and Jaeger, Conduction of Heat in Solids, ch. 2 (from memory)';

const deep = (scaleM: number, rest?: Parameters<typeof layerOf>[1]) =>
  paneOf([4, 8, 28].map((part) => layerOf(part * scaleM, rest)));

/** An odd number of cells: 2 mm is the middle of one. */
const held = (seconds: number) =>
  runFor(widePane(deep(1e-3), 0, 161), between(1, HELD_WPERM2K, 0, 0), seconds, seconds / 1000);

const stepRow = (seconds: number, expected: number): CheckRow => ({
  what: `share of a step of the face that is felt 2 mm deep in glass after ${seconds} s`,
  actual: () => atDepthK(held(seconds), 2e-3),
  expected,
  tolerance: 1e-5,
  unit: '1',
  source: `${CARSLAW}, erfc(x/(2 sqrt(a t))), to five digits; a of EN 572`,
  obtained: 'computed',
});

const heated = (seconds: number) =>
  runFor(
    widePane(deep(1e-3), 0, 160),
    { ...roomAt(0), ...between(0, 0, 0, 0), heaterWPerM2: 2000 },
    seconds,
    seconds / 1000,
  );

const fluxRow = (seconds: number, expected: number): CheckRow => ({
  what: `rise of a glass face under 2000 W/m2 after ${seconds} s`,
  actual: () => heated(seconds).outerK,
  expected,
  tolerance: 5e-4,
  unit: 'K',
  source: `${CARSLAW}, (2 q/k) sqrt(a t/pi), to four digits; properties of EN 572`,
  obtained: 'computed',
});

const COPPER: Pick<Layer, 'conductivityWPerMK' | 'densityKgPerM3' | 'heatCapacityJPerKgK'> = {
  conductivityWPerMK: 401,
  densityKgPerM3: 1,
  heatCapacityJPerKgK: 401 / 117e-6,
};
const copper = () =>
  runFor(
    widePane(deep(0.05, COPPER), 20, 60),
    { ...roomAt(20), ...between(20, 0, 20, 0), heaterWPerM2: 3e5 },
    120,
    0.1,
  );
const EXAMPLE_5_10 =
  'Incropera, Fundamentals of Heat and Mass Transfer, example 5.10, copper slab under 3e5 W/m2';

const SOIL = {
  conductivityWPerMK: 0.52,
  densityKgPerM3: 2050,
  heatCapacityJPerKgK: 1840,
};
/** Depth at which the soil has just come down to 0 C, by bisection. */
function frostDepthM(): number {
  const days = 86_400;
  const soil = runFor(
    widePane(deep(0.2, SOIL), 20, 60),
    between(-15, HELD_WPERM2K, 20, 0),
    60 * days,
    0.06 * days,
  );
  let [low, high] = [0.05, 2];
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (atDepthK(soil, middle) < 0) low = middle;
    else high = middle;
  }
  return low;
}

const FIELD = {
  conductivityWPerMK: 0.865,
  densityKgPerM3: 1,
  heatCapacityJPerKgK: 0.865 / 4.65e-7,
};
const field = () =>
  runFor(widePane(deep(0.02, FIELD), 15.6, 100), between(-17.8, 11.36, 15.6, 0), 5 * 3600, 10);

export const DEEP_GLASS: CheckGroup = {
  title: 'heat soaking into a deep body',
  rows: [
    stepRow(1, 0.05778),
    stepRow(5, 0.39614),
    stepRow(10, 0.54851),
    stepRow(30, 0.72903),
    fluxRow(10, 5.319),
    fluxRow(60, 13.029),
    {
      what: 'copper face after 120 s',
      actual: () => copper().outerK,
      expected: 120,
      tolerance: 0.05,
      unit: 'C',
      source: `${EXAMPLE_5_10}, exact solution`,
      obtained: 'from memory',
    },
    {
      what: 'the same 150 mm deep',
      actual: () => atDepthK(copper(), 0.15),
      expected: 45.4,
      tolerance: 0.05,
      unit: 'C',
      source: `${EXAMPLE_5_10}, exact solution, as quoted by a collection of worked examples`,
      obtained: 'seen second-hand',
    },
    {
      what: 'depth of 0 C in soil of 20 C after 60 days under a face at -15 C',
      actual: frostDepthM,
      expected: 0.68,
      tolerance: 0.005,
      unit: 'm',
      source: 'Incropera, Fundamentals of Heat and Mass Transfer, example 5.6',
      obtained: 'from memory',
    },
    {
      what: 'soil face of 15.6 C after 5 h in air of -17.8 C, film 11.36 W/(m2 K)',
      actual: () => field().outerK,
      expected: -5.168,
      tolerance: 0.001,
      unit: 'C',
      source:
        'Geankoplis, Transport Processes, example 5.3-1, exact solution as computed by a public program',
      obtained: 'seen second-hand',
    },
  ],
  plots: () => [soakPlot()],
};

/** Abramowitz and Stegun 7.1.26, to 1.5e-7. */
function erfc(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const series = [1.061405429, -1.453152027, 1.421413741, -0.284496736, 0.254829592];
  return series.reduce((sum, c) => sum * t + c, 0) * t * Math.exp(-x * x);
}

function soakPlot(): Plot {
  const times = [1, 5, 10, 30];
  const lineMm = Array.from({ length: 61 }, (_, i) => 0.05 + i * 0.2);
  const pointMm = [0.5, 1, 2, 3, 4, 6, 8, 10];
  return {
    title: 'Glass whose face is stepped: share felt with depth',
    xLabel: 'depth, mm',
    yLabel: 'share of the step',
    lines: times.map((seconds) => {
      const pane = held(seconds);
      return {
        label: `model, ${seconds} s`,
        x: lineMm,
        y: lineMm.map((mm) => atDepthK(pane, mm / 1000)),
      };
    }),
    points: times.map((seconds) => ({
      label: `erfc, ${seconds} s`,
      x: pointMm,
      y: pointMm.map((mm) => erfc(mm / 1000 / (2 * Math.sqrt(GLASS_DIFFUSIVITY * seconds)))),
    })),
  };
}
