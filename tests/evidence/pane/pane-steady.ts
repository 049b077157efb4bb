/**
 * The pane at rest: heat through it between two airs by EN 673, layers in series, light taken up in
 * the interlayer, and the radiation of a face.
 */
import { DEMO_PANE, PVB } from '../../../sim/plant/pane/pane.ts';
import {
  radiationSlopeWPerM2K,
  radiationWPerM2,
  STEFAN_BOLTZMANN,
} from '../../../sim/plant/pane/pane-face.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import { between, layerOf, paneOf, runFor, widePane } from './pane-bench.ts';

const FOIL = layerOf(0.76e-3, PVB);
const SPLIT = paneOf([layerOf(3e-3), FOIL, layerOf(3e-3)]);
const NEWER = { outer: 25, inner: 7.7, name: 'he 25, hi 7.7 of 2011' };
const OLDER = { outer: 23, inner: 8, name: 'he 23, hi 8 of 1997' };

/** Heat from the outer air over a difference of 20 K, when nothing changes any more. */
function uValue(pane: typeof SPLIT, films: typeof NEWER): number {
  const air = between(273.15, films.outer, 293.15, films.inner);
  const { outerK } = runFor(widePane(pane, 280, 4), air, 20_000, 10);
  return (films.outer * (outerK - 273.15)) / 20;
}

const en673 = (
  what: string,
  pane: typeof SPLIT,
  films: typeof NEWER,
  expected: number,
): CheckRow => ({
  what: `U of ${what}, ${films.name}`,
  actual: () => uValue(pane, films),
  expected,
  tolerance: 5e-5,
  unit: 'W/(m2 K)',
  source: 'EN 673, 1/U = 1/he + sum d/k + 1/hi (coefficients from memory)',
  obtained: 'computed',
});

const published = (what: string, pane: typeof SPLIT, expected: number): CheckRow => ({
  what: `U of ${what} as data sheets of single panes print it`,
  actual: () => uValue(pane, NEWER),
  expected,
  tolerance: 0.05,
  unit: 'W/(m2 K)',
  source: 'glass makers by EN 673, to a decimal',
  obtained: 'from memory',
});

const SHEET_4 = paneOf([layerOf(4e-3)]);
const SHEET_6 = paneOf([layerOf(6e-3)]);

export const PANE_U_VALUE: CheckGroup = {
  title: 'heat through a pane between two airs',
  rows: [
    en673('4 mm glass', SHEET_4, NEWER, 5.7514),
    en673('6 mm glass', SHEET_6, NEWER, 5.686),
    en673('6 mm glass with 0.76 mm of interlayer', SPLIT, NEWER, 5.5658),
    en673('4 mm glass', SHEET_4, OLDER, 5.7978),
    en673('6 mm glass', SHEET_6, OLDER, 5.7314),
    en673('6 mm glass with 0.76 mm of interlayer', SPLIT, OLDER, 5.6092),
    published('4 mm glass', SHEET_4, 5.8),
    published('6 mm glass', SHEET_6, 5.7),
  ],
};

/** The demo pane, black to nothing, between 0 C moving air and 20 C still air. */
const DARK = paneOf(DEMO_PANE.layers);
const settled = () => runFor(widePane(DARK, 280, 4), between(273.15, 25, 293.15, 7.7), 20_000, 10);
const SERIES_M2KPERW = 1 / 25 + 2.1e-3 + 3.8e-3 + 1.6e-3 + 1 / 7.7;
const FLUX = 20 / SERIES_M2KPERW;

/** 1000 W/m2 of sun of which the interlayer takes up a tenth, all in one layer. */
const SUNNY = paneOf([layerOf(2.1e-3), { ...FOIL, sunRatio: 0.1 }, layerOf(1.6e-3)]);
const sunned = () =>
  runFor(
    widePane(SUNNY, 293.15, 4),
    { ...between(293.15, 25, 293.15, 7.7), sunWPerM2: 1000 },
    20_000,
    10,
  );
const OUTWARD = 1 / 25 + 2.1e-3;
const INWARD = 1 / 7.7 + 1.6e-3;
const OUT_WPERM2 = (100 * (INWARD + 1.9e-3)) / (OUTWARD + INWARD + 3.8e-3);

const seriesRow = (
  what: string,
  actual: () => number,
  expected: number,
  source = 'thermal resistances in series, R = d/k and 1/h; properties from EN 572 and memory',
): CheckRow => ({
  what,
  actual,
  expected,
  tolerance: 1e-6,
  unit: 'K',
  source,
  obtained: 'computed',
});
const SOURCE_IN_SLAB =
  'slab with even heat Q between resistances: Qo = Q (Ri + d/2k)/(Ro + Ri + d/k), Poisson equation';

export const LAYERS_IN_SERIES: CheckGroup = {
  title: 'layers of a pane in series',
  rows: [
    seriesRow('outer face over outer air', () => settled().outerK - 273.15, FLUX / 25),
    seriesRow('inner air over inner face', () => 293.15 - settled().innerK, FLUX / 7.7),
    seriesRow(
      'middle of the interlayer over the outer face',
      () => settled().interlayerK - settled().outerK,
      FLUX * (2.1e-3 + 1.9e-3),
    ),
    seriesRow('face to face', () => settled().innerK - settled().outerK, FLUX * 7.5e-3),
    seriesRow(
      'outer face of a pane whose interlayer takes up 100 W/m2',
      () => sunned().outerK - 293.15,
      OUT_WPERM2 / 25,
      SOURCE_IN_SLAB,
    ),
    seriesRow(
      'inner face of the same',
      () => sunned().innerK - 293.15,
      (100 - OUT_WPERM2) / 7.7,
      SOURCE_IN_SLAB,
    ),
    {
      ...seriesRow(
        'mean of its interlayer',
        () => sunned().interlayerK - 293.15,
        OUT_WPERM2 * (OUTWARD + 1.9e-3) - 100 * (3.8e-3 / 6),
        `${SOURCE_IN_SLAB}; tolerance: the scheme's own error under even heat with n = 4 cells, Q d/(6 k n^2), 0.00396 K`,
      ),
      tolerance: 0.004,
    },
  ],
};

const slope = (kelvin: number, expected: number): CheckRow => ({
  what: `radiation coefficient of glass at ${kelvin} K`,
  actual: () => radiationSlopeWPerM2K(0.837, kelvin),
  expected,
  tolerance: 5e-5,
  unit: 'W/(m2 K)',
  source: '4 eps sigma T^3, eps 0.837 (EN 673, from memory), sigma of CODATA 2018',
  obtained: 'computed',
});

/** Mean coefficient over a difference, as handbooks define it. */
const meanCoefficient = (surfaceK: number, aroundK: number, expected: number): CheckRow => ({
  what: `mean radiation coefficient, emissivity 0.8, ${surfaceK} K in ${aroundK} K`,
  actual: () => radiationWPerM2(0.8, surfaceK, aroundK) / (aroundK - surfaceK),
  expected,
  tolerance: 0.05,
  unit: 'W/(m2 K)',
  source:
    'Incropera, Fundamentals of Heat and Mass Transfer, example 5.3, as quoted by a collection of worked examples',
  obtained: 'seen second-hand',
});

export const PANE_RADIATION: CheckGroup = {
  title: 'radiation of a face',
  rows: [
    {
      what: 'a black face at 300 K to nothing',
      actual: () => -radiationWPerM2(1, 300, 0),
      expected: 459.3,
      tolerance: 0.05,
      unit: 'W/m2',
      source: 'sigma T^4, sigma 5.670374419e-8 (CODATA 2018, from memory)',
      obtained: 'computed',
    },
    {
      what: 'constant of Stefan and Boltzmann from h, c and k of the SI, times 1e8',
      actual: () => STEFAN_BOLTZMANN * 1e8,
      expected:
        ((2 * Math.PI ** 5 * 1.380649e-23 ** 4) / (15 * 6.62607015e-34 ** 3 * 299_792_458 ** 2)) *
        1e8,
      tolerance: 5e-10,
      unit: '1e-8 W/(m2 K4)',
      source: 'sigma = 2 pi^5 k^4/(15 h^3 c^2), exact constants of the SI of 2019',
      obtained: 'computed',
    },
    slope(273.15, 3.869),
    slope(293.15, 4.7826),
    slope(323.15, 6.4063),
    meanCoefficient(423, 448, 15),
    meanCoefficient(423, 298, 8.8),
  ],
};
