/** Remedies for a break that is not clear: which is offered, what it changes, and where it ends. */
import { describe, expect, test } from 'vitest';
import type { Answer, RemedyId } from '../../../src/core/events.ts';
import { DAMAGE_TYPES } from '../../../src/intake/sheet/job-sheet.ts';
import { PROCEDURE_START, type ProcedureState } from '../../../src/procedure/phase.ts';
import { pressureGaugePaOf } from '../../../src/procedure/repair/loads.ts';
import table from '../../../src/procedure/repair/remedies.json' with { type: 'json' };
import { nextRemedy, remediesSchema } from '../../../src/procedure/repair/remedies.ts';
import { stepProcedure } from '../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { ATMOSPHERE_PA } from '../../frames.ts';
import { CONTEXT } from './phase-context.ts';

/** From the requirement: nothing about legs is offered where there are none. */
const OFFERED: Readonly<Record<(typeof DAMAGE_TYPES)[number], readonly RemedyId[]>> = {
  bullseye: ['longer-vacuum', 'warmth', 'lower-pressure', 'open-pit'],
  'half-moon': ['longer-vacuum', 'warmth', 'lower-pressure', 'open-pit'],
  'star-break': [
    'longer-vacuum',
    'probe-and-flex',
    'warmth',
    'thinner-resin',
    'open-pit',
    'leave-and-return',
  ],
  'combination-break': [
    'longer-vacuum',
    'probe-and-flex',
    'warmth',
    'thinner-resin',
    'lower-pressure',
    'open-pit',
    'leave-and-return',
  ],
  crack: ['longer-vacuum', 'probe-and-flex', 'warmth', 'thinner-resin', 'leave-and-return'],
};

/** The second of two planned cycles has not cleared the break; two more may follow. */
const LOOKED: ProcedureState = {
  ...PROCEDURE_START,
  atmospherePa: ATMOSPHERE_PA,
  phase: 'ask-clear',
  cycle: 2,
  resinIn: true,
  chargedAtCycle: 1,
};

const answer = (state: ProcedureState, given: Answer, damageType = 'star-break') =>
  stepProcedure(state, { ...CONTEXT, damageType, answer: given });

/** Declines all that is offered; returns it in order, and the last state. */
function declineAll(damageType: string) {
  let { state } = answer(LOOKED, 'no', damageType);
  const offered: (RemedyId | null)[] = [];
  while (state.phase === 'offer-remedy') {
    offered.push(state.remedy);
    state = answer(state, 'no', damageType).state;
  }
  return { offered, state };
}

describe.each(DAMAGE_TYPES)('a %s that is not clear', (damageType) => {
  const { offered, state } = declineAll(damageType);

  test('is offered every remedy that suits it once, NO being the next', () => {
    expect([...offered].sort()).toEqual([...OFFERED[damageType]].sort());
  });

  test('is offered a plain cycle once all are declined, and then the mark', () => {
    expect(state.phase).toBe('offer-cycle');
    expect(answer(state, 'no', damageType).state.phase).toBe('accept-mark');
  });
});

test('what follows another remedy is not offered before it', () => {
  const { offered } = declineAll('combination-break');
  const place = (id: RemedyId) => offered.indexOf(id);
  expect(place('thinner-resin')).toBeGreaterThan(place('warmth'));
  expect(place('open-pit')).toBeGreaterThan(place('longer-vacuum'));
  expect(place('leave-and-return')).toBeGreaterThan(place('longer-vacuum'));
});

test('what was tried is not offered again, what was declined is, at the next look', () => {
  const offered = { tried: ['longer-vacuum'] as const, passedOver: [] };
  expect(nextRemedy(offered, DEFAULT_PROFILE, 'star-break')).toBe('probe-and-flex');
  const declined = answer(answer(LOOKED, 'no').state, 'no').state;
  expect(declined).toMatchObject({ remedy: 'probe-and-flex', passedOver: ['longer-vacuum'] });
  const again = answer({ ...declined, phase: 'ask-clear', cycle: 3 }, 'no').state;
  expect(again.remedy).toBe('longer-vacuum');
});

test('the profile says which may be offered, and whether warmth comes first', () => {
  const state = { tried: [], passedOver: [] };
  const allowing = (remedies: readonly RemedyId[]) =>
    nextRemedy(state, { ...DEFAULT_PROFILE, remedies: [...remedies] }, 'crack');
  expect(allowing(['thinner-resin'])).toBe('thinner-resin');
  expect(allowing([])).toBeNull();
  const warm = { ...DEFAULT_PROFILE, notClearAdvice: 'warm-the-pane' as const };
  expect(nextRemedy(state, warm, 'crack')).toBe('warmth');
});

test('no remedy is offered before the planned cycles are over, nor after the last', () => {
  expect(answer({ ...LOOKED, cycle: 1, chargedAtCycle: 0 }, 'no').state.phase).toBe('ask-resin');
  expect(answer({ ...LOOKED, cycle: 4 }, 'no').state.phase).toBe('accept-mark');
});

describe('a remedy that was carried out', () => {
  const doing = (remedy: RemedyId, change: Partial<ProcedureState> = {}) =>
    answer({ ...LOOKED, phase: 'try-remedy', remedy, ...change }, 'yes');

  test('is offered, done by hand, and then on record; declined, it is on record as that', () => {
    const offered = answer(LOOKED, 'no').state;
    expect(answer(offered, 'yes').state).toMatchObject({
      phase: 'try-remedy',
      remedy: 'longer-vacuum',
    });
    const done = doing('longer-vacuum');
    const event = { kind: 'remedy', cycle: 2, remedy: 'longer-vacuum' };
    expect(done.events).toContainEqual({ ...event, taken: true });
    expect(done.state.tried).toEqual(['longer-vacuum']);
    expect(answer(offered, 'no').events).toContainEqual({ ...event, taken: false });
  });

  test('longer vacuum: 90 s in place of 60 s, in one cycle, and never past the longest', () => {
    const next = answer(doing('longer-vacuum').state, 'yes').state;
    expect(next).toMatchObject({ phase: 'evacuate', cycle: 3, dwellForS: 90, dwellTimes: 1 });
    const vacuum = { ...DEFAULT_PROFILE.vacuum, longestDwellS: 75 };
    const context = { ...CONTEXT, profile: { ...DEFAULT_PROFILE, vacuum }, answer: 'yes' as const };
    const capped = stepProcedure({ ...LOOKED, phase: 'ask-resin', dwellTimes: 1.5 }, context).state;
    expect(capped.dwellForS).toBe(75);
  });

  test('lower pressure: 0.7 of the profile’s 138 kPa for the rest of the job, on top of a leg that grew', () => {
    const { state } = doing('lower-pressure');
    expect(pressureGaugePaOf(state, DEFAULT_PROFILE)).toBeCloseTo(96_600, 6);
    const grown = doing('lower-pressure', { loadRatio: 0.5 }).state;
    expect(pressureGaugePaOf(grown, DEFAULT_PROFILE)).toBeCloseTo(48_300, 6);
  });

  test('thinner resin: filled in at once, and its reason is on record', () => {
    const { state } = doing('thinner-resin');
    expect(state).toMatchObject({ phase: 'recharge', rechargeWhy: 'thinner-resin' });
    const charged = answer(state, 'yes');
    expect(charged.events).toContainEqual({ kind: 'recharge', cycle: 3, why: 'thinner-resin' });
  });

  test('an opened pit: the foot was off, so the seal is tested again, and fresh resin is due', () => {
    expect(doing('open-pit').state).toMatchObject({ phase: 'seal-pull', reseated: true });
  });

  test('others lead by way of the look into the injector', () => {
    for (const id of ['probe-and-flex', 'warmth', 'leave-and-return'] as const) {
      expect(doing(id).state.phase, id).toBe('ask-resin');
    }
  });
});

describe('the table', () => {
  const problemOf = (change: (rows: (typeof table)['remedies']) => unknown) =>
    remediesSchema.safeParse({ ...table, remedies: change(table.remedies) }).success;

  test('has each remedy once, and is refused otherwise', () => {
    expect(problemOf((rows) => rows)).toBe(true);
    expect(problemOf((rows) => rows.slice(1))).toBe(false);
    expect(problemOf((rows) => [...rows, rows[0]])).toBe(false);
  });

  test('never raises a pressure', () => {
    const raised = (rows: (typeof table)['remedies']) =>
      rows.map((row) => ({ ...row, changes: { pressureTimes: 1.1 } }));
    expect(problemOf(raised)).toBe(false);
  });
});
