import { describe, expect, test } from 'vitest';
import type { UnstampedEvent } from '../../../../src/core/events.ts';
import { waterSaturationPa } from '../../../../src/core/water.ts';
import {
  type PhaseContext,
  PROCEDURE_START,
  type ProcedureState,
} from '../../../../src/procedure/phase.ts';
import { PHASE_TABLE } from '../../../../src/procedure/repair/phase-table.ts';
import { resume, stepProcedure } from '../../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_PROFILE } from '../../../configs.ts';
import { ATMOSPHERE_PA } from '../../../frames.ts';
import { CONTEXT as VENTED } from '../phase-context.ts';

const GLASS_K = 296.15;
const WATER_PA = waterSaturationPa(GLASS_K);
const TICK_S = 0.05;
const CONTEXT: PhaseContext = { ...VENTED, pressurePa: 60_000, glassK: GLASS_K, dtS: TICK_S };
const at = (phase: ProcedureState['phase'], change: Partial<ProcedureState> = {}) => ({
  ...PROCEDURE_START,
  atmospherePa: ATMOSPHERE_PA,
  phase,
  ...change,
});

interface Run {
  readonly state: ProcedureState;
  readonly events: readonly UnstampedEvent[];
  readonly lastsS: number;
}

/** From the pull through the watch, with this pressure by time since the chamber was closed. */
function watch(
  pressurePa: (timeS: number) => number | null,
  change: Partial<ProcedureState> = {},
  context: Partial<PhaseContext> = {},
): Run {
  const events: UnstampedEvent[] = [];
  const closed = stepProcedure(at('seal-pull', change), { ...CONTEXT, ...context });
  let { state } = closed;
  let lastsS = 0;
  while (state.phase === 'seal-watch' && lastsS < 100) {
    lastsS += TICK_S;
    const step = stepProcedure(state, { ...CONTEXT, ...context, pressurePa: pressurePa(lastsS) });
    events.push(...step.events);
    state = step.state;
  }
  return { state, events, lastsS };
}

const line = (paPerS: number) => (t: number) => 60_000 + paPerS * t;
const level = (heightPa: number) => (t: number) => 60_000 + heightPa * (1 - Math.exp(-t / 7));
const LIMIT = DEFAULT_PROFILE.sealCheck.leakLimitPaM3PerS / 30e-6;

describe('the finding leads on', () => {
  test('a seal that holds to the test under pressure, and resin to the first cycle', () => {
    const { state, events, lastsS } = watch(line(0.99 * LIMIT));
    expect(state).toMatchObject({ phase: 'seal-open', cycle: 0 });
    const charging = { ...state, phase: 'charge-injector' } as const;
    const charged = stepProcedure(charging, {
      ...CONTEXT,
      pressurePa: ATMOSPHERE_PA,
      answer: 'yes',
    });
    expect(charged.state).toMatchObject({ phase: 'evacuate', cycle: 1 });
    expect(lastsS).toBeCloseTo(47, 0);
    expect(events.map(({ kind }) => kind)).toEqual([
      'measured',
      'measured',
      'seal-finding',
      'phase',
    ]);
    expect(events).toContainEqual({
      kind: 'seal-finding',
      finding: 'tight',
      why: 'The vacuum stays',
    });
  });

  test('a leak to reseating, with its rate for the alarm', () => {
    const { state } = watch(line(1.01 * LIMIT));
    expect(state.phase).toBe('reseat');
    expect(state.leakRatePaM3PerS! / 0.005).toBeCloseTo(1.01, 6);
  });

  test('water to drying, with the height of the plateau', () => {
    const { state, events } = watch(level(WATER_PA), { longPulls: 2 });
    expect(state).toMatchObject({ phase: 'dry-again', longPulls: 0 });
    const plateau = events.find((e) => e.kind === 'measured' && e.name === 'risePlateauPa');
    expect(plateau?.kind === 'measured' && plateau.value).toBeCloseTo(WATER_PA, 0);
  });

  test('outgassing to a longer pull, twice, and then on with a note', () => {
    const first = watch(level(0.3 * WATER_PA));
    expect(first.state).toMatchObject({ phase: 'long-pull', longPulls: 1 });
    expect(watch(level(0.3 * WATER_PA), { longPulls: 1 }).state).toMatchObject({
      phase: 'long-pull',
      longPulls: 2,
    });
    const last = watch(level(0.3 * WATER_PA), { longPulls: 2 });
    expect(last.state).toMatchObject({ phase: 'seal-open', cycle: 0 });
    expect(last.events).toContainEqual({
      kind: 'seal-finding',
      finding: 'outgassing',
      why: 'Levels below water, also after 2 longer pulls: the job goes on',
    });
  });

  test('what cannot be told to another test by a person, who reads why', () => {
    const unknown = watch(level(WATER_PA), {}, { glassK: null });
    expect(unknown.state).toMatchObject({ phase: 'test-again', sealWhy: 'glass-unknown' });
  });

  test('what is water or outgassing to a longer pull first, and to a person after two', () => {
    // A scatter of 800 Pa leaves both.
    const noisy = (t: number) => level(0.6 * WATER_PA)(t) + 800 * Math.sin(1000 * Math.sin(20 * t));
    expect(watch(noisy).state).toMatchObject({
      phase: 'long-pull',
      sealWhy: 'water-or-outgassing',
    });
    expect(watch(noisy, { longPulls: 2 }).state.phase).toBe('test-again');
  });

  test('a watch without readings to another test, with nothing stated', () => {
    const { state, events } = watch(() => null);
    expect(state).toMatchObject({ phase: 'test-again', leakRatePaM3PerS: null });
    expect(events.filter(({ kind }) => kind === 'measured')).toEqual([]);
  });
});

describe('the chamber', () => {
  test('is closed once the pull is reached within a kilopascal, and remembers its pressure', () => {
    const pulled = (pressurePa: number | null) =>
      stepProcedure(at('seal-pull'), { ...CONTEXT, pressurePa }).state;
    expect(pulled(61_001).phase).toBe('seal-pull');
    expect(pulled(null).phase).toBe('seal-pull');
    expect(pulled(61_000)).toMatchObject({ phase: 'seal-watch', isolatedPa: 61_000 });
  });

  test('is pulled to what this air allows', () => {
    const state = at('seal-pull', { sealPullPa: 49_000 });
    expect(PHASE_TABLE['seal-pull'].air(state, DEFAULT_PROFILE)).toEqual({
      air: 'vacuum',
      setPointPa: 49_000,
    });
    expect(stepProcedure(state, { ...CONTEXT, pressurePa: 51_000 }).state.phase).toBe('seal-pull');
    expect(stepProcedure(state, { ...CONTEXT, pressurePa: 50_000 }).state.phase).toBe('seal-watch');
  });

  test('is not judged while it settles: what happens in the first two seconds is no rise', () => {
    const settling = (t: number): number => 60_000 + (t < 2 ? 2_500 * (2 - t) : 0);
    expect(watch(settling).state.phase).toBe('seal-open');
  });

  test('is pulled for a minute when longer, then closed; held, it starts anew', () => {
    const pulling = (elapsedS: number, pressurePa: number) =>
      stepProcedure(at('long-pull', { elapsedS }), { ...CONTEXT, pressurePa }).state.phase;
    expect(pulling(59, 60_000)).toBe('long-pull');
    expect(pulling(60, 60_000)).toBe('seal-watch');
    expect(pulling(60, 61_100)).toBe('long-pull');
    expect(resume(at('long-pull')).phase).toBe('seal-pull');
    expect(PHASE_TABLE['long-pull'].reachWithinS(DEFAULT_PROFILE)).toBe(75);
  });

  test.each(['reseat', 'dry-again', 'test-again'] as const)('after %s is tested again', (phase) => {
    expect(PHASE_TABLE[phase].air(at(phase), DEFAULT_PROFILE)).toEqual({ air: 'vented' });
    const done = stepProcedure(at(phase), { ...CONTEXT, answer: 'yes' });
    expect(done.state.phase).toBe('seal-pull');
  });
});

describe('the self-test sets the vacuum of the job', () => {
  const ended = (airPa: number, greatestRatio = 12.5) =>
    stepProcedure(at('self-test', { air: { n: 39, sumPa: 39 * airPa, goodS: 1.95 } }), {
      ...CONTEXT,
      pressurePa: airPa,
      greatestRatio,
    });

  test('to what the profile asks for where that can be had, and says nothing', () => {
    const { state, events } = ended(101_000);
    expect(state).toMatchObject({ phase: 'job-sheet', vacuumPa: 25_000, sealPullPa: 60_000 });
    expect(events).toContainEqual({
      kind: 'measured',
      name: 'airLeftRatio',
      portion: null,
      value: expect.closeTo(25 / 101, 6),
    });
  });

  test('to what the pump reaches where that is less, and tells the person', () => {
    const { state, events } = ended(101_000, 3);
    expect(state.phase).toBe('vacuum-note');
    expect(state.vacuumPa).toBeCloseTo(40_400, 6);
    expect(events.filter(({ kind }) => kind === 'adapted')).toHaveLength(1);
    expect(PHASE_TABLE.evacuate.air(state, DEFAULT_PROFILE)).toEqual({
      air: 'vacuum',
      setPointPa: state.vacuumPa,
    });
    const seen = stepProcedure(state, { ...CONTEXT, answer: 'yes' }).state;
    expect(seen.phase).toBe('job-sheet');
    const reached = (pressurePa: number) =>
      stepProcedure({ ...seen, phase: 'evacuate' }, { ...CONTEXT, pressurePa }).state.phase;
    expect(reached(41_500)).toBe('evacuate');
    expect(reached(41_390)).toBe('vacuum-dwell');
  });
});
