/**
 * A plate that cools in air on both sides: the Fourier series with the Biot number, summed here, the
 * first root and coefficient of textbook tables, worked examples, and a plate thin enough to be one
 * lump, with radiation too.
 */
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import {
  atDepthK,
  between,
  GLASS_DIFFUSIVITY,
  layerOf,
  paneOf,
  runFor,
  timeToMeanS,
  widePane,
} from './pane-bench.ts';

const HALF_M = 10e-3;
/** Odd: the middle of the slab is that of a cell. */
const CELLS = 101;
const SLAB = paneOf([layerOf(2 * HALF_M)]);
const INCROPERA = 'Incropera, Fundamentals of Heat and Mass Transfer';
const COPY = 'as quoted by a collection of worked examples';

const timeS = (fourier: number): number => (fourier * HALF_M * HALF_M) / GLASS_DIFFUSIVITY;

/** Glass of 1 W/(m K), from 1 K over its air. */
function cooled(biot: number, fourier: number) {
  const film = biot / HALF_M;
  return runFor(
    widePane(SLAB, 1, CELLS),
    between(0, film, 0, film),
    timeS(fourier),
    timeS(fourier) / 500,
  );
}

/** Root n (from 0) of z tan z = Bi, by bisection between n pi and n pi + pi/2. */
function root(biot: number, n: number): number {
  let [low, high] = [n * Math.PI, n * Math.PI + Math.PI / 2];
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (middle * Math.sin(middle) < biot * Math.cos(middle) === (n % 2 === 0)) low = middle;
    else high = middle;
  }
  return low;
}

function series(biot: number, fourier: number, place: number): number {
  let sum = 0;
  for (let n = 0; n < 40; n++) {
    const z = root(biot, n);
    const c = (4 * Math.sin(z)) / (2 * z + Math.sin(2 * z));
    sum += c * Math.exp(-z * z * fourier) * Math.cos(z * place);
  }
  return sum;
}

const seriesRow = (biot: number, fourier: number, place: 'middle' | 'face'): CheckRow => ({
  what: `what is left at the ${place} at Biot ${biot}, Fourier ${fourier}`,
  actual: () => {
    const slab = cooled(biot, fourier);
    return place === 'middle' ? atDepthK(slab, HALF_M) : slab.outerK;
  },
  expected: series(biot, fourier, place === 'middle' ? 0 : 1),
  tolerance: 1e-4,
  unit: 'of the first excess',
  source: `Fourier series of the slab (form of ${INCROPERA}, sec. 5.5, from memory), 40 terms; to the four digits of its tables`,
  obtained: 'computed',
});

/** The first root, from how fast the model's middle cools late; and the coefficient with it. */
function tableOf(biot: number) {
  const [early, late] = [1, 2].map((fourier) => atDepthK(cooled(biot, fourier), HALF_M));
  const squared = Math.log(early! / late!);
  return { root: Math.sqrt(squared), coefficient: early! * Math.exp(squared) };
}

const tableRows = (biot: number, first: number, coefficient: number): readonly CheckRow[] =>
  (['root', 'coefficient'] as const).map((which) => ({
    what: `first ${which} of the slab at Biot ${biot}`,
    actual: () => tableOf(biot)[which],
    expected: which === 'root' ? first : coefficient,
    tolerance: 1e-4,
    unit: '1',
    source: `${INCROPERA}, table 5.1, last digit either way`,
    obtained: 'from memory',
  }));

const PIPE = paneOf([
  layerOf(0.04, { conductivityWPerMK: 63.9, densityKgPerM3: 7832, heatCapacityJPerKgK: 434 }),
]);
const pipe = () => runFor(widePane(PIPE, -20, 60), between(-20, 0, 60, 500), 480, 0.5);

export const SLAB_COOLING: CheckGroup = {
  title: 'a plate cooling on both sides',
  rows: [
    seriesRow(0.1, 1, 'middle'),
    seriesRow(1, 0.2, 'middle'),
    seriesRow(1, 0.2, 'face'),
    seriesRow(1, 1, 'middle'),
    seriesRow(10, 0.1, 'face'),
    seriesRow(10, 0.5, 'middle'),
    ...tableRows(0.1, 0.3111, 1.0161),
    ...tableRows(1, 0.8603, 1.1191),
    ...tableRows(10, 1.4289, 1.262),
    {
      what: 'insulated face of a 40 mm steel wall, -20 C, 8 min after oil of 60 C at 500 W/(m2 K)',
      actual: () => pipe().outerK,
      expected: 42.92,
      // The root, by a straight line in a table of steps of 0.1 in Biot and to three digits, is
      // known to 0.00135; in exp(-5.64 root^2) that is 0.8 % of 17 K.
      tolerance: 0.15,
      unit: 'C',
      source: `${INCROPERA}, example 5.4, ${COPY}; root 0.531 from a table`,
      obtained: 'seen second-hand',
    },
    {
      what: 'heat into the wet face of the same',
      actual: () => 500 * (60 - pipe().innerK),
      expected: 7362,
      tolerance: 65,
      unit: 'W/m2',
      source: `${INCROPERA}, example 5.4, ${COPY}; 0.8 % by the same root, and its cosine`,
      obtained: 'seen second-hand',
    },
  ],
  plots: () => [coolingPlot()],
};

/** 4 mm of glass in still air: Biot 0.008, 4 eps sigma T^3 left out. */
const lump = (seconds: number) =>
  runFor(widePane(paneOf([layerOf(4e-3)]), 1, 20), between(0, 4, 0, 4), seconds, 1).meanK;
const LUMP_S = (2500 * 720 * 4e-3) / 8;

const lumpRow = (share: number): CheckRow => ({
  what: `mean excess of a thin plate after ${share} time constants of ${LUMP_S} s`,
  actual: () => lump(share * LUMP_S),
  expected: Math.exp(-share),
  // The lump leaves out the resistance inside: Bi/3 of the time constant.
  tolerance: (0.008 / 3) * share * Math.exp(-share) + 2e-5,
  unit: '1',
  source: 'one lump, exp(-t h/(rho c d)); off by a third of the Biot number in the time constant',
  obtained: 'computed',
});

/** A ball of the same heat a square metre is a plate twice D/6 thick with both faces free. */
const BEAD_M = 1 / 8500;
const BEAD = paneOf(
  [layerOf(2 * BEAD_M, { conductivityWPerMK: 20, densityKgPerM3: 8500, heatCapacityJPerKgK: 400 })],
  0.9,
);
const HOT_GAS = { ...between(473, 400, 473, 400), outerRadiantK: 673, innerRadiantK: 673 };
const SHEET = paneOf(
  [layerOf(3e-3, { conductivityWPerMK: 177, densityKgPerM3: 2770, heatCapacityJPerKgK: 875 })],
  0.8,
);
const OVEN = { ...between(448, 40, 448, 40), outerRadiantK: 448, innerRadiantK: 448 };
const COOL = { ...between(298, 10, 298, 10), outerRadiantK: 298, innerRadiantK: 298 };

function bakedS(): number {
  const sheet = widePane(SHEET, 298, 4);
  const warmS = timeToMeanS(sheet, OVEN, 423, 0.1);
  runFor(sheet, OVEN, 300, 0.1);
  return warmS + 300 + timeToMeanS(sheet, COOL, 310, 0.1);
}

export const THIN_PLATE: CheckGroup = {
  title: 'a plate thin enough to be one lump',
  rows: [
    lumpRow(0.5),
    lumpRow(1),
    lumpRow(3),
    {
      what: 'thermocouple of time constant 1 s in gas of 200 C that sees walls of 400 C, at rest',
      actual: () => runFor(widePane(BEAD, 298, 2), HOT_GAS, 30, 0.01).meanK - 273,
      expected: 218.7,
      tolerance: 0.05,
      unit: 'C',
      source: `${INCROPERA}, example 5.2`,
      obtained: 'from memory',
    },
    {
      what: 'time for it to come within a kelvin of that, from 25 C',
      actual: () => timeToMeanS(widePane(BEAD, 298, 2), HOT_GAS, 217.7 + 273, 0.01),
      expected: 4.98,
      tolerance: 0.05,
      unit: 's',
      source: `${INCROPERA}, example 5.2, ${COPY}; to a digit`,
      obtained: 'seen second-hand',
    },
    {
      what: 'time for a 3 mm aluminium sheet to go from 25 to 150 C in an oven of 175 C',
      actual: () => timeToMeanS(widePane(SHEET, 298, 4), OVEN, 423, 0.1),
      expected: 123.07,
      tolerance: 1,
      unit: 's',
      source: `${INCROPERA}, example 5.3, ${COPY}; editions differ by a second`,
      obtained: 'seen second-hand',
    },
    {
      what: 'time for it to warm, stay 300 s more and cool to 37 C',
      actual: bakedS,
      expected: 987,
      tolerance: 2,
      unit: 's',
      source: `${INCROPERA}, example 5.3, ${COPY}; editions differ by two seconds`,
      obtained: 'seen second-hand',
    },
  ],
};

function coolingPlot(): Plot {
  const biots = [0.1, 1, 10];
  const fouriers = Array.from({ length: 31 }, (_, i) => 0.02 + i * 0.05);
  const few = fouriers.filter((_, i) => i % 4 === 0);
  return {
    title: 'Plate cooling on both sides: excess at the middle',
    xLabel: 'Fourier number',
    yLabel: 'excess left',
    lines: biots.map((biot) => ({
      label: `model, Biot ${biot}`,
      x: fouriers,
      y: fouriers.map((fourier) => atDepthK(cooled(biot, fourier), HALF_M)),
    })),
    points: biots.map((biot) => ({
      label: `series, Biot ${biot}`,
      x: few,
      y: few.map((fourier) => series(biot, fourier, 0)),
    })),
  };
}
