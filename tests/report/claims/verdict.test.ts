import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { certificate } from '../../../src/document/certificate/certificate.ts';
import { ENGLISH_PAPERS } from '../../../src/document/paper-words.ts';
import { CANNOT_SHOW } from '../../../src/report/claims/cannot-show.ts';
import { CLAIM_STATES, type ClaimState } from '../../../src/report/claims/claim.ts';
import { CLAIM_ROWS, type Claim } from '../../../src/report/claims/claim-table.ts';
import { OBJECTION_IDS, OBJECTIONS } from '../../../src/report/claims/objections.ts';
import { ENGLISH_CLAIMS } from '../../../src/report/language.ts';
import { type Verdict, verdictOf } from '../../../src/report/verdict.ts';
import { factsOf } from '../../document/document-data.ts';

const claimsWith = (states: Readonly<Partial<Record<string, ClaimState>>>): readonly Claim[] =>
  CLAIM_ROWS.map(({ id, kind, unsupported }) => {
    const state = states[id] ?? 'shown';
    const objections =
      state === 'shown' ? [] : [{ id: unsupported, headline: 'demo', lines: ['demo'], said: [] }];
    return { id, title: '', short: '', kind, portion: null, state, support: [], objections };
  });

const IDS = CLAIM_ROWS.map(({ id }) => id);
const PROCESS = ['dose', 'pressure', 'temperature', 'seal', 'held', 'clock', 'interlocks'];
const BESIDE = ['set-aside', 'rules', 'resin', 'as-stated', 'filled', 'calibrations', 'care'];

describe('the verdict', () => {
  test('is good where every claim is shown', () => {
    expect(verdictOf(claimsWith({}))).toEqual({
      process: 'process within its limits',
      grade: 'good',
    });
  });

  test('is good for no list that lacks a claim', () => {
    for (const id of IDS) {
      const most = claimsWith({}).filter((claim) => claim.id !== id);
      expect(verdictOf(most).grade, id).not.toBe('good');
    }
  });

  test.each([
    ...BESIDE.flatMap((id) => [
      [id, 'not shown', 'process within its limits, with reservations', 'caution'] as const,
      [id, 'not met', 'process within its limits, with reservations', 'caution'] as const,
    ]),
    ...PROCESS.map((id) => [id, 'not met', 'process outside its limits', 'bad'] as const),
    ...PROCESS.filter((id) => id !== 'dose').map(
      (id) => [id, 'not shown', 'process not shown to be within its limits', 'caution'] as const,
    ),
    ['dose', 'not shown', 'dose not shown to be met', 'bad'],
    ['uninterrupted', 'not met', 'process within its limits, with interruptions', 'caution'],
    ['completed', 'not met', 'process not completed', 'bad'],
    ['record', 'not shown', 'record incomplete, process not judged', 'bad'],
    ['record', 'not met', 'record changed, process not judged', 'bad'],
  ] as const)('with only the claim %s %s is "%s"', (id, state, process, grade) => {
    expect(verdictOf(claimsWith({ [id]: state }))).toEqual({ process, grade });
  });

  test('is never better than the worst claim, whatever the others are', () => {
    const rank = (grade: Verdict['grade']): number => ['good', 'caution', 'bad'].indexOf(grade);
    const state = fc.constantFrom(...CLAIM_STATES);
    const states = fc.record(Object.fromEntries(IDS.map((id) => [id, state])));
    fc.assert(
      fc.property(states, (all) => {
        const whole = rank(verdictOf(claimsWith(all)).grade);
        const worst = Math.max(
          ...IDS.map((id) => rank(verdictOf(claimsWith({ [id]: all[id] ?? 'shown' })).grade)),
        );
        expect(whole).toBeGreaterThanOrEqual(worst);
      }),
    );
  });
});

describe('the table of claims', () => {
  test('needs two witnesses for everything that the unit measures', () => {
    for (const { id, kind, needs } of CLAIM_ROWS) {
      const least = kind === 'process' || id === 'filled' ? 2 : 1;
      expect(new Set(needs).size, id).toBeGreaterThanOrEqual(least);
    }
  });

  test('names each claim, objection and limit of the record once, in words for a customer', () => {
    expect(new Set(IDS).size).toBe(IDS.length);
    const { claims, objections, cannotShow } = ENGLISH_CLAIMS;
    const words = [
      ...IDS.map((id) => claims[id].short),
      ...OBJECTION_IDS.map((id) => objections[id]),
      ...CANNOT_SHOW.map((id) => cannotShow[id].short),
    ];
    for (const word of words) expect(word).toMatch(/^[a-z][^.]+[^.]$/);
    expect(new Set(words).size).toBe(words.length);
    for (const { unsupported } of CLAIM_ROWS) {
      // A claim without support is not shown; nothing is known to be wrong.
      if (unsupported !== 'ended-early') expect(OBJECTIONS[unsupported].leaves).toBe('not shown');
    }
  });

  test('is printed with what the record cannot show, on the customer’s page', () => {
    const text = JSON.stringify(certificate(factsOf(), ENGLISH_PAPERS));
    for (const id of CANNOT_SHOW) expect(text).toContain(ENGLISH_CLAIMS.cannotShow[id].short);
  });
});
