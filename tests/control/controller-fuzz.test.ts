/** Outputs are sound and safe in every phase of every procedure, whatever a board and people do. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ProcedureTypes } from '../../src/control/controller-state.ts';
import {
  BUTTONS,
  type Channel,
  type Frame,
  FULL_SCALE_COUNTS,
  isSafe,
  lampBurns,
  type Request,
  TRIPS,
} from '../../src/core/frame.ts';
import { STEP_IDS } from '../../src/core/guided-events.ts';
import { PHASE_IDS } from '../../src/core/phases.ts';
import { drawnSeed } from '../drawn-seed.ts';
import { checkOutputs } from '../output-rules.ts';
import { actuatorsOf, type Scene, tick, type Unit } from '../steered-unit.ts';
import { guidedIn, repairIn } from '../steering.ts';

/** For so many ticks the world is like this; buttons and requests come in the first of them. */
interface Spell {
  readonly ticks: number;
  readonly scene: Scene;
  readonly pressed: Scene['pressed'];
  readonly requests: readonly Request[];
}

const count = fc.option(fc.integer({ min: 0, max: FULL_SCALE_COUNTS }), { freq: 10 });
const CHANNEL_NAMES: readonly Channel[] = [
  'pressure',
  'irradiance',
  'glassTemperature',
  'heatSinkTemperature',
  'supplyVoltage',
];
const scenes: fc.Arbitrary<Scene> = fc.oneof(
  { weight: 6, arbitrary: fc.constant({}) },
  { weight: 1, arbitrary: fc.constant({ switches: { shieldClosed: false } }) },
  { weight: 1, arbitrary: fc.constant({ switches: { overPressureTripped: true } }) },
  { weight: 1, arbitrary: fc.constant({ switches: { emergencyStopPressed: true } }) },
  { weight: 1, arbitrary: fc.constant({ mute: true }) },
  { weight: 1, arbitrary: fc.constantFrom({ damaged: true }, { gap: true }) },
  { weight: 1, arbitrary: fc.constantFrom(...TRIPS).map((trip) => ({ trips: [trip] })) },
  { weight: 1, arbitrary: fc.constantFrom(0, 0.15, 0.3, 30).map((gapS) => ({ gapS })) },
  { weight: 1, arbitrary: fc.constantFrom(0, 0.1).map((hostGapS) => ({ hostGapS })) },
  {
    weight: 1,
    arbitrary: fc.integer({ min: 0, max: 400_000 }).map((pressurePa) => ({ pressurePa })),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(fc.constantFrom(...CHANNEL_NAMES), count)
      .map(([channel, value]) => ({ counts: { [channel]: value } })),
  },
  {
    weight: 1,
    arbitrary: fc
      .record(Object.fromEntries(CHANNEL_NAMES.map((name) => [name, count])))
      .map((counts) => ({ counts: counts as Partial<Frame['counts']> })),
  },
);
const requests = fc.oneof(
  { weight: 12, arbitrary: fc.constant<readonly Request[]>([]) },
  { weight: 1, arbitrary: fc.constant<readonly Request[]>([{ kind: 'hold' }]) },
  {
    weight: 1,
    arbitrary: fc.double({ noNaN: false }).map((valueSI) => [{ kind: 'enter', valueSI } as const]),
  },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom('person' as const, 'interrupt' as const)
      .map((by) => [{ kind: 'stop', by, why: 'test' } as const]),
  },
);
const spells: fc.Arbitrary<readonly Spell[]> = fc.array(
  fc.record({
    ticks: fc.oneof(fc.integer({ min: 1, max: 8 }), fc.integer({ min: 30, max: 60 })),
    scene: scenes,
    // YES more often: it lets a held job go on.
    pressed: fc.array(fc.constantFrom('yes', 'yes', ...BUTTONS), { maxLength: 2 }),
    requests,
  }),
  { minLength: 6, maxLength: 16 },
);

/** In how many ticks something was so: what a fuzz must have met to say anything. */
type Met = Map<string, number>;

function meet(met: Met, what: string, isSo: boolean): void {
  if (isSo) met.set(what, (met.get(what) ?? 0) + 1);
}

/** What was at work when the frame came, and what the frame then said. */
function note<P extends ProcedureTypes>(met: Met, before: Unit<P>, { scene }: Spell): void {
  const working = actuatorsOf(before);
  const lamp = lampBurns(working);
  meet(met, 'pump on', working.pumpRatio > 0);
  meet(met, 'lamp on', lamp);
  meet(met, 'chamber closed', !working.ventOpen);
  meet(met, 'pump on as the board falls mute', working.pumpRatio > 0 && scene.mute === true);
  meet(met, 'lamp on as the board falls mute', lamp && scene.mute === true);
  meet(met, 'lamp on as the shield opens', lamp && scene.switches?.shieldClosed === false);
  const { overPressureTripped, emergencyStopPressed } = scene.switches ?? {};
  meet(met, 'closed as the switch opens', !working.ventOpen && overPressureTripped === true);
  meet(met, 'working as it is stopped', !isSafe(working) && emergencyStopPressed === true);
  meet(met, before.state.batch, true);
}

function runThrough<P extends ProcedureTypes>(start: Unit<P>, all: readonly Spell[], met: Met) {
  let unit = start;
  for (const spell of all) {
    for (let n = 0; n < spell.ticks && !unit.state.ended; n++) {
      // What is over is over: a second of it says all.
      if (ENDED.includes(unit.state.batch) && unit.state.batchForS > 1) return;
      const first = n === 0;
      const before = unit;
      note(met, before, spell);
      const scene = { ...spell.scene, pressed: first ? (spell.pressed ?? []) : [] };
      unit = tick(before, scene, first ? spell.requests : []);
      check(before, unit, scene);
    }
  }
}

function check<P extends ProcedureTypes>(before: Unit<P>, unit: Unit<P>, scene: Scene): void {
  const { step, state, procedure } = unit;
  if (step === null) throw new Error('no tick');
  const frame = {
    timeS: unit.boardS,
    link: scene.mute === true ? ('mute' as const) : ('up' as const),
    switches: { ...SOUND_SWITCHES, ...scene.switches },
  };
  const phase = procedure.holdsAs(state.procedure);
  checkOutputs({ frame, outputs: step.outputs, snapshot: step.snapshot, phase });
  const [was, is] = [before.state.batch, state.batch];
  const goesOn = ['holding', 'held'].includes(was) && ['restarting', 'running'].includes(is);
  if (goesOn && !scene.pressed?.includes('yes')) throw new Error('goes on with nobody');
  const over = [...ENDED, 'stopping', 'aborting'].includes(is);
  if (scene.pressed?.includes('hold') && (!isSafe(step.outputs) || !(HELD.includes(is) || over))) {
    throw new Error(`HOLD left it ${is}`);
  }
  if (ENDED.includes(was) && was !== is) throw new Error(`${was} is not the end, but ${is}`);
}
const SOUND_SWITCHES = {
  shieldClosed: true,
  overPressureTripped: false,
  emergencyStopPressed: false,
};
const ENDED = ['stopped', 'aborted', 'complete'];
const HELD = ['holding', 'held'];

/** Tried in every phase, whatever the seed: once all is at work, something that must stop it at once. */
const DANGERS: readonly Scene[] = [
  { mute: true },
  { switches: { shieldClosed: false } },
  { switches: { overPressureTripped: true } },
  { switches: { emergencyStopPressed: true } },
  { counts: { pressure: 0 } },
  { counts: { irradiance: 0 } },
  { counts: { heatSinkTemperature: 0 } },
];
const NOTHING = { pressed: [], requests: [] } as const;
const AT_WORK: Spell = { ...NOTHING, ticks: 20, scene: {} };
/** At its set-point a tight chamber needs no pump: off it for less than the unit takes for a fault. */
const PUMPING: Spell = { ...NOTHING, ticks: 2, scene: { pressurePa: 60_000 } };
const examples: [Spell[]][] = [
  [[PUMPING, { ...NOTHING, ticks: 10, scene: { mute: true } }]],
  ...DANGERS.map((scene): [Spell[]] => [[AT_WORK, { ...NOTHING, ticks: 10, scene }]]),
  [
    [
      AT_WORK,
      { ...AT_WORK, pressed: ['hold'] },
      { ...AT_WORK, ticks: 100 },
      // No leg grew and no resin shows: nothing that is asked stands in the way.
      { ...AT_WORK, ticks: 40, pressed: ['no'] },
      { ...AT_WORK, ticks: 40, pressed: ['no'] },
      { ...AT_WORK, ticks: 60, pressed: ['yes'] },
    ],
  ],
];
const RUNS = examples.length + 8;

const MUST_MEET = [
  'pump on',
  'lamp on',
  'chamber closed',
  'pump on as the board falls mute',
  'lamp on as the board falls mute',
  'lamp on as the shield opens',
  'closed as the switch opens',
  'working as it is stopped',
  'running',
  'held',
  'restarting',
  'aborting',
];

const drawn = drawnSeed();

describe.each([
  ['usual', 20_251_126],
  ['drawn', drawn],
])('whatever a board says and people press, by the %s seed', (name, seed) => {
  if (name === 'drawn') console.info(`fuzz of the controller: MENISCUS_SEED=${seed} repeats it`);
  const parameters = { seed, numRuns: RUNS, examples };

  test('a repair is sound and safe from each of its phases on', () => {
    const met: Met = new Map();
    for (const phase of PHASE_IDS) {
      const start = repairIn(phase);
      expect(start.state).toMatchObject({ batch: 'running', procedure: { phase } });
      fc.assert(
        fc.property(spells, (all) => runThrough(start, all, met)),
        parameters,
      );
    }
    for (const what of MUST_MEET) expect(met.get(what) ?? 0, what).toBeGreaterThan(0);
  });

  test('a guided procedure is sound and safe from each of its steps on', () => {
    const met: Met = new Map();
    for (const step of STEP_IDS) {
      const start = guidedIn(step);
      expect(start.state).toMatchObject({ batch: 'running', procedure: { step } });
      fc.assert(
        fc.property(spells, (all) => runThrough(start, all, met)),
        parameters,
      );
    }
    for (const what of MUST_MEET) expect(met.get(what) ?? 0, what).toBeGreaterThan(0);
  });
});
