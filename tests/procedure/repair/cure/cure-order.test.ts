/** No way leads to a lamp but through the vent and a person's look at the break. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CURE_PHASES, PHASE_IDS, type PhaseId } from '../../../../src/core/phases.ts';
import {
  type PhaseContext,
  PROCEDURE_START,
  type ProcedureState,
} from '../../../../src/procedure/phase.ts';
import { ONE_PLACE } from '../../../../src/procedure/places.ts';
import type { Profile } from '../../../../src/procedure/profile.ts';
import { PHASE_TABLE } from '../../../../src/procedure/repair/phase-table.ts';
import { resume, stepProcedure } from '../../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_PROFILE } from '../../../configs.ts';
import { ATMOSPHERE_PA } from '../../../frames.ts';

const APART: Profile = {
  ...DEFAULT_PROFILE,
  curing: 'apart',
  pitCure: { targetAtResinJPerM2: 12_800, leastS: 60, longestS: 300 },
};
const PROFILES = [DEFAULT_PROFILE, APART];

const cure = fc.record({
  done: fc.boolean(),
  gapDue: fc.boolean(),
  doseJPerM2: fc.double({ min: 0, max: 1e5, noNaN: true }),
  doseUncertaintyJPerM2: fc.constant(100),
  doseCoverageFactor: fc.constant(1.645),
  shownDoseJPerM2: fc.double({ min: -1e5, max: 1e5, noNaN: true }),
  gapsPassed: fc.nat({ max: 20 }),
  gapsFailed: fc.nat({ max: 3 }),
  unconfirmedDoseJPerM2: fc.constant(0),
  lampOnS: fc.double({ min: 1, max: 600, noNaN: true }),
});

const context = (profile: Profile) =>
  fc.record<PhaseContext>({
    plan: fc.constant(ONE_PLACE),
    profile: fc.constant(profile),
    damageType: fc.constantFrom('bullseye', 'star-break'),
    volumeM3: fc.constant(30e-6),
    leakLimitPaM3PerS: fc.constant(0.005),
    greatestRatio: fc.constant(12.5),
    airLastJobPa: fc.constantFrom(null, 100_000, 75_000),
    pressurePa: fc.oneof(
      fc.constantFrom(null, ATMOSPHERE_PA, 25_000, 60_000, ATMOSPHERE_PA + 138_000),
      fc.double({ min: 0, max: 400_000, noNaN: true }),
    ),
    pumpAheadPa: fc.constantFrom(0, 5_000),
    glassK: fc.constantFrom(null, 296.15),
    findings: fc.constantFrom([], [{ say: 'strong-light' as const }]),
    answer: fc.constantFrom(null, 'yes', 'no'),
    lampLastKnownWPerM2: fc.constant(195),
    cure,
    light: fc.record({ dark: fc.boolean(), judged: fc.boolean() }),
    dtS: fc.constantFrom(0.05, 5, 60, 400),
  });

const state = fc.record({
  phase: fc.constantFrom(...PHASE_IDS),
  elapsedS: fc.double({ min: 0, max: 2000, noNaN: true }),
  cycle: fc.integer({ min: 0, max: 6 }),
  vacuumHeldS: fc.double({ min: 0, max: 400, noNaN: true }),
  darkLookS: fc.constantFrom(null, 0, 1),
  outcome: fc.constantFrom(null, 'clear', 'mark-remains'),
});

const stateOf = (change: Partial<ProcedureState>): ProcedureState => ({
  ...PROCEDURE_START,
  atmospherePa: ATMOSPHERE_PA,
  dwellForS: 60,
  ...change,
});

/** Where each phase was seen to lead, by its own steps and after a hold. */
function waysOf(profile: Profile): ReadonlyMap<PhaseId, ReadonlySet<PhaseId>> {
  const ways = new Map(PHASE_IDS.map((phase) => [phase, new Set<PhaseId>()]));
  const samples = fc.sample(fc.tuple(state, context(profile)), { numRuns: 30_000, seed: 5 });
  for (const [change, given] of samples) {
    const from = stateOf(change);
    ways.get(from.phase)?.add(stepProcedure(from, given).state.phase);
    ways.get(from.phase)?.add(resume(from).phase);
  }
  return ways;
}

/** What can be reached from a phase without ever entering the one that is barred. */
function reachable(
  ways: ReadonlyMap<PhaseId, ReadonlySet<PhaseId>>,
  from: PhaseId,
  barred: PhaseId,
): ReadonlySet<PhaseId> {
  const seen = new Set<PhaseId>([from]);
  for (const phase of seen) {
    for (const next of ways.get(phase) ?? []) if (next !== barred) seen.add(next);
  }
  return seen;
}

describe.each(PROFILES.map((profile) => [profile.curing, profile] as const))(
  'cured %s',
  (_, profile) => {
    const ways = waysOf(profile);
    const cures = profile.curing === 'apart' ? [...CURE_PHASES] : ['cure' as const];

    test('every cure can be reached from under pressure', () => {
      const seen = reachable(ways, 'pressure-dwell', 'self-test');
      for (const phase of cures) expect(seen).toContain(phase);
    });

    test.each(['vent', 'ask-clear'] as const)(
      'none can be reached from there, or from the start, without %s',
      (barred) => {
        for (const from of ['pressure-dwell', 'self-test', 'vacuum-dwell'] as const) {
          const seen = reachable(ways, from, barred);
          for (const phase of CURE_PHASES) expect(seen).not.toContain(phase);
        }
      },
    );

    test('the break is judged only with the vent open and the pressure let down', () => {
      for (const phase of ['vent', 'ask-clear', 'offer-cycle', 'accept-mark'] as const) {
        expect(PHASE_TABLE[phase].air(stateOf({ phase }), profile)).toEqual({ air: 'vented' });
      }
      const anyPa = fc.oneof(
        fc.double({ min: 0, max: 400_000, noNaN: true }),
        fc.integer({ min: ATMOSPHERE_PA - 3_000, max: ATMOSPHERE_PA + 3_000 }),
      );
      const vented = fc.tuple(anyPa, state);
      let asked = 0;
      fc.assert(
        fc.property(vented, context(profile), ([pressurePa, change], given) => {
          const from = stateOf({ ...change, phase: 'vent' });
          const to = stepProcedure(from, { ...given, pressurePa }).state.phase;
          if (to !== 'ask-clear') return;
          asked += 1;
          expect(Math.abs(pressurePa - ATMOSPHERE_PA)).toBeLessThan(2_500);
        }),
        { numRuns: 500 },
      );
      expect(asked).toBeGreaterThan(5);
    });

    test('the look after the cure stays: no record is closed without it', () => {
      for (const from of CURE_PHASES) {
        expect(reachable(ways, from, 'final-look')).not.toContain('result');
      }
    });
  },
);

describe('the order of the cures', () => {
  test('apart: film, lamp and light on the fill before there is any pit resin', () => {
    const order: PhaseId[] = ['injector-off'];
    let from = stateOf({ phase: 'injector-off', cycle: 2 });
    const given = fc.sample(context(APART), { numRuns: 1, seed: 1 })[0] as PhaseContext;
    while (from.phase !== 'scrape') {
      const done = { ...given.cure, done: true, gapDue: true };
      const light = { dark: true, judged: true };
      const context: PhaseContext = { ...given, answer: 'yes', cure: done, light, dtS: 0.1 };
      const { phase } = from;
      // A cure begins and ends with a look at the dark.
      for (let tick = 0; tick < 5 && from.phase === phase; tick++) {
        from = stepProcedure(from, context).state;
      }
      order.push(from.phase);
    }
    expect(order).toEqual([
      'injector-off',
      'cover-fill',
      'place-lamp-fill',
      'cure-fill',
      'uncover-fill',
      'fill-pit',
      'cover-film',
      'place-lamp',
      'cure',
      'scrape',
    ]);
  });

  test('together: no phase of the fill alone is ever entered', () => {
    const seen = reachable(waysOf(DEFAULT_PROFILE), 'self-test', 'cure-fill');
    for (const phase of ['cover-fill', 'place-lamp-fill', 'uncover-fill'] as const) {
      expect(seen).not.toContain(phase);
    }
  });

  test('a mark that was accepted is cured the same way', () => {
    for (const profile of PROFILES) {
      const given = fc.sample(context(profile), { numRuns: 1, seed: 1 })[0] as PhaseContext;
      const step = stepProcedure(stateOf({ phase: 'accept-mark', cycle: 4 }), {
        ...given,
        answer: 'yes',
      });
      expect(step.state).toMatchObject({ phase: 'injector-off', outcome: 'mark-remains' });
    }
  });
});
