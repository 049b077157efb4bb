/**
 * The pane with a warmed spot against an independent solver (reference/laminate.md): the same
 * cells, independently written equations, integrated by a stiff solver to 1e-9. The remaining
 * difference is the model's step error, estimated from its tested order: a third of the change
 * between this step and twice it, here doubled. Also the sideways loss against the fin's equation
 * and a table of Bessel functions.
 */
import {
  createLaminate,
  type LaminateOptions,
  type PaneSurroundings,
  roomAt,
  stepLaminate,
} from '../../../sim/plant/pane/laminate.ts';
import { DEMO_PANE, paneSheetWPerK } from '../../../sim/plant/pane/pane.ts';
import { radiationSlopeWPerM2K } from '../../../sim/plant/pane/pane-face.ts';
import { besselK, spotLossPerM2 } from '../../../sim/plant/pane/spot-loss.ts';
import type { CheckGroup, CheckRow, Plot } from '../check.ts';
import reference from '../reference/laminate.json' with { type: 'json' };

const SHOWN_AS = { outerK: 'outer face', interlayerK: 'interlayer', innerK: 'inner face' } as const;
const KEYS = ['outerK', 'interlayerK', 'innerK', 'aroundK'] as const;
type Key = (typeof KEYS)[number];
type Trace = Readonly<Record<Key, readonly number[]>>;

interface Story {
  readonly startK: number;
  readonly options: LaminateOptions;
  readonly airAt: (timeS: number) => PaneSurroundings;
  readonly found: Trace & { readonly timeS: readonly number[] };
}

const COLD: PaneSurroundings = {
  ...roomAt(295.15),
  outerAirK: 293.15,
  outerFilmWPerM2K: 15,
  sunWPerM2: 500,
};
const GUN: PaneSurroundings = { ...roomAt(283.15), gunK: 363.15, gunWPerM2K: 80 };
const DARK = roomAt(293.15);
const LIT: PaneSurroundings = { ...DARK, lampWPerM2: 200 };
const SPOT: LaminateOptions = { spotRadiusM: 0.03, cellsALayer: 4 };
const WIDE: LaminateOptions = { ...SPOT, spotRadiusM: Number.POSITIVE_INFINITY };

const STORIES: Readonly<Record<'gun' | 'lamp' | 'coldPane', Story>> = {
  gun: { startK: 283.15, options: SPOT, airAt: () => GUN, found: reference.gun },
  lamp: {
    startK: 293.15,
    options: WIDE,
    airAt: (timeS) => (timeS < 300 ? LIT : DARK),
    found: reference.lamp,
  },
  coldPane: { startK: 263.15, options: SPOT, airAt: () => COLD, found: reference.coldPane },
};
const TITLES = {
  gun: 'under the warm air gun',
  lamp: 'under the lamp for 300 s, then dark,',
  coldPane: 'cold, brought into a warm room and sun,',
};

function traced({ startK, options, airAt, found }: Story, dtS: number): Trace {
  const laminate = createLaminate(DEMO_PANE, startK, options);
  const trace: Record<Key, number[]> = { outerK: [], interlayerK: [], innerK: [], aroundK: [] };
  let steps = 0;
  for (const timeS of found.timeS) {
    for (; steps < Math.round(timeS / dtS); steps++) {
      stepLaminate(laminate, airAt((steps + 0.5) * dtS), dtS);
    }
    for (const key of KEYS) trace[key].push(laminate[key]);
  }
  return trace;
}

/** The slowest step it is made for. */
const DT_S = 0.05;
/** What the reference itself may be off: rtol 1e-9 of 300 K, some steps long. */
const SOLVER_K = 3e-6;

function rowsOf(name: keyof typeof STORIES): readonly CheckRow[] {
  const story = STORIES[name];
  const model = traced(story, DT_S);
  const twice = traced(story, 2 * DT_S);
  return story.found.timeS.flatMap((timeS, i) =>
    KEYS.map((key) => ({
      what: `${key} of a pane ${TITLES[name]} at ${timeS} s`,
      actual: () => model[key][i]!,
      expected: story.found[key][i]!,
      tolerance: (2 * Math.abs(model[key][i]! - twice[key][i]!)) / 3 + SOLVER_K,
      unit: 'K',
      source: 'reference/laminate.md; tolerance: the error of a step of 50 ms by its second order',
      obtained: 'independent solver' as const,
    })),
  );
}

export const SOLVER_LAMINATE: CheckGroup = {
  title: 'pane with a warmed spot in time',
  rows: [...rowsOf('gun'), ...rowsOf('lamp'), ...rowsOf('coldPane')],
  plots: () => [gunPlot()],
};

const facesWPerM2K = 2 * (3.6 + radiationSlopeWPerM2K(0.837, 293.15));
const lossPerM2 = (radiusM: number): number =>
  spotLossPerM2(radiusM, facesWPerM2K, paneSheetWPerK(DEMO_PANE));

const besselRow = (order: 0 | 1, x: number, expected: number): CheckRow => ({
  what: `K${order}(${x})`,
  actual: () => besselK(order, x),
  expected,
  tolerance: 5e-10,
  unit: '1',
  source: 'Abramowitz and Stegun, table 9.8',
  obtained: 'from memory',
});

export const SPOT_LOSS: CheckGroup = {
  title: 'loss of a warm spot sideways',
  rows: [
    besselRow(0, 1, 0.4210244382),
    besselRow(1, 1, 0.6019072302),
    besselRow(0, 2, 0.1138938727),
    besselRow(1, 2, 0.1398658818),
    ...reference.rim.radiusM.map(
      (radiusM, i): CheckRow => ({
        what: `loss of a spot of ${radiusM * 1000} mm radius for a square metre, metre and kelvin over k`,
        actual: () => lossPerM2(radiusM),
        expected: reference.rim.perM2[i]!,
        tolerance: reference.rim.perM2[i]! * 1e-8,
        unit: '1/m2',
        source: 'reference/laminate.md, the fin equation integrated from far out to 1e-10 a step',
        obtained: 'independent solver',
      }),
    ),
  ],
};

function gunPlot(): Plot {
  const story = STORIES.gun;
  const timeS = Array.from({ length: 61 }, (_, i) => 2 * i);
  const trace = traced({ ...story, found: { ...story.found, timeS } }, DT_S);
  const shown = ['outerK', 'interlayerK', 'innerK'] as const;
  return {
    title: 'Pane of 10 C under a warm air gun of 90 C',
    xLabel: 'time, s',
    yLabel: 'temperature, K',
    lines: shown.map((key) => ({ label: `model, ${SHOWN_AS[key]}`, x: timeS, y: trace[key] })),
    points: shown.map((key) => ({
      label: `solver, ${SHOWN_AS[key]}`,
      x: story.found.timeS,
      y: story.found[key],
    })),
  };
}
