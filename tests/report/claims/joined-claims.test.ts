import { describe, expect, test } from 'vitest';
import {
  type AttemptFacts,
  attemptIn,
  type EarlierAttempt,
} from '../../../src/report/claims/attempt-facts.ts';
import { CLAIM_ROWS, type Claim, type ClaimId } from '../../../src/report/claims/claim-table.ts';
import {
  joinedClaims,
  joinedCycles,
  joinedDoses,
} from '../../../src/report/claims/joined-claims.ts';
import { ENGLISH_CLAIMS, say } from '../../../src/report/language.ts';
import type { CountedDose } from '../../../src/report/report-dose.ts';

const shown = (portion: 'fill and pit' | null = null): readonly Claim[] =>
  CLAIM_ROWS.map(({ id, kind }) => ({
    id,
    ...ENGLISH_CLAIMS.claims[id],
    kind,
    portion: id === 'dose' ? (portion ?? 'fill and pit') : null,
    state: 'shown',
    support: [{ by: 'program', line: 'seen', said: say('lines.given', { text: 'seen' }) }],
    objections: [],
  }));

const dose = (doseJPerM2: number): CountedDose => ({
  portion: 'fill and pit',
  verdict: 'not met',
  doseJPerM2,
  targetJPerM2: 60_000,
  atResin: null,
  targetSetBy: null,
  uncertainty: null,
  lampOnS: null,
  irradianceMeanWPerM2: null,
  throughPitJPerM2: null,
});

const cycle = (number: number, pressureHeldS: number) => ({
  cycle: number,
  vacuumHeldS: 60,
  vacuumReachedPa: 25_000,
  lowestPa: 25_000,
  pressureHeldS,
  pressureReachedPa: null,
  highestPa: null,
});

const FIRST: EarlierAttempt = {
  record: 'job-7',
  number: 1,
  journalSha256: 'demo',
  startedAt: '2026-03-01T16:00:00.000Z',
  endedAt: '2026-03-01T16:20:00.000Z',
  end: { reason: 'alarm', why: 'The emergency stop is pressed.' },
  phase: 'cure',
  claims: [],
  doses: [dose(40_000)],
  cycles: [cycle(1, 150), cycle(2, 20)],
};

const against = (
  id: ClaimId,
  objection: string,
  state: 'not shown' | 'not met',
): EarlierAttempt => ({
  ...FIRST,
  claims: [
    { id, portion: null, state, objections: [{ id: objection, lines: ['as it was seen'] }] },
  ],
});

const ATTEMPT: AttemptFacts = {
  job: 'job-7',
  number: 2,
  how: 'go-on',
  entry: {
    at: 'cover-film',
    cycle: 2,
    position: 1,
    cyclesBefore: 0,
    loadRatio: 1,
    pressureRatio: 1,
    tried: [],
    outcome: null,
    legGrew: false,
  },
  apartS: 14 * 3600,
  resinStood: true,
  earlier: [FIRST],
};

function claimOf(id: ClaimId, change: Partial<AttemptFacts> = {}): Claim {
  const found = joinedClaims(shown(), { ...ATTEMPT, ...change }).find((one) => one.id === id);
  if (found === undefined) throw new Error(`no claim ${id}`);
  return found;
}

describe('a job of two attempts', () => {
  test('is not shown to be uninterrupted, and says what lay between', () => {
    const { state, objections } = claimOf('uninterrupted');
    expect(state).toBe('not shown');
    expect(objections[0]?.lines[0]).toContain('attempt 1 was ended by an alarm at cure');
    expect(objections[0]?.lines[0]).toContain('14 h 0 min to this one');
  });

  test('says that the resin stood, where it did', () => {
    expect(claimOf('resin').objections.map(({ id }) => id)).toEqual(['resin-stood']);
    expect(claimOf('resin', { resinStood: false }).state).toBe('shown');
  });

  test('counts no light of the first, and says how much there was', () => {
    const { support } = claimOf('dose');
    expect(support.map(({ line }) => line).join()).toMatch(/attempt 1 gave 4\.00.* not counted/);
    expect(joinedDoses([dose(61_000)], ATTEMPT)).toEqual([dose(61_000)]);
  });

  test.each([
    ['pressure', 'pressure-outside', 'not met'],
    ['clock', 'clock-in-doubt', 'not shown'],
    ['set-aside', 'resin-set-aside', 'not met'],
    ['record', 'record-cut', 'not shown'],
  ] as const)('is no better in %s than the worse of them', (id, objection, state) => {
    const claim = claimOf(id, { earlier: [against(id, objection, state)] });
    expect(claim.state).toBe(state);
    expect(claim.objections[0]?.lines).toEqual(['attempt 1: as it was seen']);
  });

  test('takes what only the first could show from the first', () => {
    const earlier = [against('seal', 'leaks', 'not met')];
    expect(claimOf('seal', { earlier }).state).toBe('not met');
    // Nobody showed it: an attempt that works no air cannot.
    expect(claimOf('seal').state).toBe('not shown');
  });

  test('that had nothing in the break holds only harm against the next', () => {
    const anew = { how: 'anew', entry: null, resinStood: false } as const;
    const lacks = against('clock', 'clock-in-doubt', 'not shown');
    expect(claimOf('clock', { ...anew, earlier: [lacks] }).state).toBe('shown');
    const harm = against('pressure', 'pressure-outside', 'not met');
    expect(claimOf('pressure', { ...anew, earlier: [harm] }).state).toBe('not met');
  });

  test('is judged by every cycle, and by the later run of one that was begun again', () => {
    const again = { ...ATTEMPT, entry: { ...ATTEMPT.entry, at: 'set-bridge' } } as AttemptFacts;
    const rows = joinedCycles([cycle(2, 150)], again);
    expect(rows.map((row) => [row.cycle, row.pressureHeldS])).toEqual([
      [1, 150],
      [2, 150],
    ]);
  });
});

test('a first attempt is left as it is', () => {
  const claims = shown();
  expect(joinedClaims(claims, null)).toBe(claims);
});

test('an attempt from before remedies were carried on began with the whole pressure and none tried', () => {
  const entry = {
    at: 'cover-film',
    cycle: 2,
    position: 1,
    cyclesBefore: 0,
    loadRatio: 1,
    outcome: null,
  };
  const facts = { job: 'demo-1', number: 2, how: 'go-on', entry, apartS: 60, resinStood: true };
  const earlier = {
    record: 'demo-1',
    number: 1,
    journalSha256: '0',
    startedAt: '2026-03-01T09:00:00.000Z',
    endedAt: '2026-03-01T09:10:00.000Z',
    end: { reason: 'interrupted', why: 'demo' },
    phase: 'place-lamp',
    claims: [],
    doses: [],
    cycles: [],
  };
  const about = { attempt: { ...facts, earlier: [earlier] } };
  expect(attemptIn(about)?.entry).toEqual({
    ...entry,
    pressureRatio: 1,
    tried: [],
    legGrew: false,
  });
});
