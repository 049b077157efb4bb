/** A sample of the fault campaign: what finds a fault is typed here, from what it does to the unit. */
import { describe, expect, test } from 'vitest';
import { ACCEPTED, ACCEPTED_PAIRS } from './accepted.ts';
import { campaignOf } from './campaign.ts';
import { caseOf, pairCases } from './cases.ts';
import type { CaseResult } from './judge.ts';
import { ROWS } from './rows.ts';
import { isBroken, summaryOf } from './summary.ts';
import { runCase } from './try-case.ts';
import type { Answer } from './workers.ts';

describe('a fault is found by what sees its effect, and no limit of the plant is passed', () => {
  test.each([
    ['pressure-open@together.pressure-dwell.2', 'pressure-sensor', 2],
    ['hose-off@together.vacuum-dwell.2', 'set-point-lost', 5],
    ['vent-stuck-closed@together.pressure-dwell.3', 'vent-no-effect', 20],
    ['emergency-stop@together.evacuate.1', 'emergency-stop', 0.2],
    ['lamp-dead@together.cure.2', 'lamp-no-light', 10],
    ['link-dead@together.cure.1', 'link-lost', 2],
    ['board-reset-loop@together.pressurise.2', 'board-tripped', 1],
    ['shield-opened@apart.cure-fill.2', 'shield-open', 0.2],
    ['seal-leak@together.close-seal.1', 'seal test: leak', 60],
  ] as const)('%s by %s within %d s', (id, by, withinS) => {
    const { result } = runCase(caseOf(`1/${id}`));
    expect(result.foundBy).toBe(by);
    expect(result.foundAfterS).toBeLessThanOrEqual(withinS);
    expect(result.breaches).toEqual([]);
  });
});

describe('with one contact of the shield shorted and the shield lifted', () => {
  test.each([
    ['shield-read-shorted-opened', 'lamp-no-light'],
    ['shield-cut-shorted-opened', 'shield-open'],
  ] as const)('%s: no light is left, and %s says so', (row, by) => {
    const { result } = runCase(caseOf(`1/${row}@together.cure.1`));
    expect(result.breaches).toEqual([]);
    expect(result.foundBy).toBe(by);
    expect(result.shown).not.toContain('interlocks');
  });

  test('with both shorted there is light in the open, which is seen whatever is read', () => {
    const id = 'shield-read-shorted-opened@together.cure.1';
    const { parts } = caseOf(`1/${id}+shield-cut-shorted@together.self-test.1`);
    const { result } = runCase({ id, parts });
    expect(result.breaches.map(({ limit }) => limit)).toEqual(['lamp-with-shield-open']);
    expect(isBroken(result)).toBe(true);
  });
});

test('a pair is two rows in one job, the same for the same seed, and can be run by its id', () => {
  const [id = ''] = pairCases(1, 1);
  expect(pairCases(1, 1)).toEqual([id]);
  const { parts } = caseOf(id);
  expect(parts).toHaveLength(2);
  expect(parts[0]?.moment.jobId).toBe(parts[1]?.moment.jobId);
  expect(parts[0]?.moment.atS).toBeLessThanOrEqual(parts[1]?.moment.atS ?? 0);
});

test('in a pair, what is there from power-up is in the job from its first tick', () => {
  const early = ROWS.flatMap(({ id, faults }) =>
    faults.some(({ begins }) => begins === 'at-power-up') ? [id] : [],
  );
  const pairs = pairCases(2000, 1).map((id) => id.replace(/^[^/]*[/]/, '').split('+'));
  for (const [, second = ''] of pairs) {
    const [row = '', moment] = second.split('@');
    if (early.includes(row)) expect(moment).toBe('together.self-test.1');
  }
  const named = pairs.flat().map((part) => part.split('@')[0] ?? '');
  expect(early.filter((id) => named.includes(id)).length).toBeGreaterThan(3);
});

describe('a row comes to', () => {
  const [row] = ROWS;
  if (row === undefined) throw new Error('no row');
  const result = (change: Partial<CaseResult>): CaseResult => ({
    id: `1/${row.id}@together.evacuate.1`,
    rows: [row.id],
    foundBy: null,
    foundAfterS: null,
    end: 'completed',
    shown: [],
    breaches: [],
    falseClaims: [],
    ...change,
  });
  const found = result({ foundBy: 'pressure-sensor', foundAfterS: 1 });

  test.each([
    ['not found', [result({})]],
    ['found', [result({}), found]],
    ['broken', [found, result({ falseClaims: [{ claim: 'dose', portion: null, why: 'demo' }] })]],
    ['broken', [result({ breaches: [{ limit: 'pressure-floor', words: 'demo', atS: 1 }] })]],
  ] as const)('%s', (state, results) => {
    expect(summaryOf(row, results, {}).state).toBe(state);
  });

  test('accepted where its claim is not shown, and broken where it is, or where it is found', () => {
    const accepted = { [row.id]: { why: 'demo', withdraws: 'dose' } } as const;
    expect(summaryOf(row, [result({ shown: ['pressure'] })], accepted).state).toBe('accepted');
    expect(summaryOf(row, [result({ shown: ['dose'] })], accepted).state).toBe('broken');
    expect(summaryOf(row, [result({}), found], accepted).state).toBe('broken');
  });

  test('accepted where it passes only the limit that nothing can hold, and broken by any other', () => {
    const accepted = { [row.id]: { why: 'demo', withdraws: null, passes: ['glass-too-hot'] } };
    const passed = (limit: string) => result({ breaches: [{ limit, words: 'demo', atS: 1 }] });
    expect(summaryOf(row, [passed('glass-too-hot')], accepted).state).toBe('accepted');
    expect(summaryOf(row, [passed('pressure-floor')], accepted).state).toBe('broken');
    expect(summaryOf(row, [passed('glass-too-hot')], {}).state).toBe('broken');
  });

  test('a pair passes the limit that it hides, and each of its rows alone does not', () => {
    const passed = (rows: readonly string[], limit = 'glass-too-hot') =>
      isBroken(result({ rows, breaches: [{ limit, words: 'demo', atS: 1 }] }));
    expect(passed(['glass-offset-start', 'hot-pane'])).toBe(false);
    expect(passed(['hot-pane', 'glass-offset-start'])).toBe(false);
    expect(passed(['hot-pane', 'glass-offset-start'], 'pressure-floor')).toBe(true);
    expect(passed(['glass-offset-start'])).toBe(true);
    expect(passed(['hot-pane', 'pump-worn'])).toBe(true);
  });

  test('rows have names of their own, and only they are accepted', () => {
    const ids = ROWS.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of Object.keys(ACCEPTED)) expect(ids).toContain(id);
    for (const { one, other } of ACCEPTED_PAIRS) {
      for (const id of [...one, ...other]) expect(ids).toContain(id);
    }
  });
});

describe('a campaign', () => {
  const [row] = ROWS;
  if (row === undefined) throw new Error('no row');
  const sound: CaseResult = {
    id: `1/${row.id}@together.evacuate.1`,
    rows: [row.id],
    foundBy: 'pressure-sensor',
    foundAfterS: 1,
    end: 'alarm',
    shown: [],
    breaches: [],
    falseClaims: [],
  };
  const fails = (...answers: readonly Answer[]) =>
    campaignOf({ rows: [row], every: 1 }, answers, 1).failed;
  const of = (result: CaseResult): Answer => ({ kind: 'case', result });
  const job = (alarms: readonly string[], end: string): Answer => ({
    kind: 'healthy',
    result: { seed: 1, alarms, end, falseClaims: [] },
  });

  test('passes where all is found and sound jobs are quiet', () => {
    expect(fails(of(sound), job([], 'completed'))).toBe(false);
  });

  test.each([
    ['a row is not found', [of({ ...sound, foundBy: null })]],
    [
      'a pair shows what is false',
      [
        of(sound),
        of({
          ...sound,
          rows: ['a', 'b'],
          falseClaims: [{ claim: 'dose', portion: null, why: 'demo' }],
        }),
      ],
    ],
    ['a sound job has an alarm', [of(sound), job(['pump-no-effect'], 'completed')]],
    ['a sound job is cut short', [of(sound), job([], 'alarm')]],
  ] as const)('fails where %s', (_, answers) => {
    expect(fails(...answers)).toBe(true);
  });
});
