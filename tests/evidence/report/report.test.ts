import { stripVTControlCharacters } from 'node:util';
import { describe, expect, test } from 'vitest';
import { type CheckRow, distinctFacts, KIND_OF, KINDS, type Plot } from '../check.ts';
import { axisOf } from './axis.ts';
import { figuresOf } from './figures.ts';
import { type GroupOutcome, ofKind, outcomeOf, outcomesOf, summaryOf } from './outcome.ts';
import { renderEvidencePage } from './page.tsx';
import { terminalReport } from './terminal.ts';

const row = (change: Partial<CheckRow> = {}): CheckRow => ({
  what: 'time to fall',
  actual: () => 2.7631,
  expected: 2.76311,
  tolerance: 5e-5,
  unit: 's',
  source: 'a handbook',
  obtained: 'computed',
  ...change,
});

const WAVE: Plot = {
  title: 'A <wave>',
  xLabel: 'time, s',
  yLabel: 'height, m',
  lines: [{ label: 'model', x: [0, 1, 2], y: [0, 1, 0] }],
  points: [{ label: 'reference', x: [0, 1], y: [0, 1.01] }],
};

const groupOf = (rows: readonly CheckRow[], plots: readonly Plot[] = []): GroupOutcome =>
  outcomesOf({ title: 'a & b', rows, plots: () => plots });

describe('what comes of a row', () => {
  test('a value within its tolerance is ok, one outside fails', () => {
    expect(outcomeOf(row()).result).toBe('ok');
    expect(outcomeOf(row({ actual: () => 2.76305 })).result).toBe('FAILS');
    expect(outcomeOf(row({ actual: () => Number.NaN })).result).toBe('FAILS');
  });

  test('a stated miss misses, and fails once the model agrees', () => {
    const misses = 'the model is coarse';
    expect(outcomeOf(row({ misses, actual: () => 3 }))).toMatchObject({
      result: 'misses',
      remark: misses,
    });
    expect(outcomeOf(row({ misses })).result).toBe('FAILS');
  });

  test('a row that throws fails and leaves the others standing', () => {
    const throws = row({
      actual: () => {
        throw new RangeError('no such height');
      },
    });
    const { outcomes } = groupOf([throws, row()]);
    expect(outcomes.map(({ result }) => result)).toEqual(['FAILS', 'ok']);
    expect(outcomes[0]?.remark).toContain('no such height');
  });

  test('the summary counts rows by result and by how they were obtained', () => {
    const summary = summaryOf([
      groupOf([row(), row({ obtained: 'seen' })]),
      groupOf([row({ actual: () => 3 })]),
    ]);
    const none = { ok: 0, misses: 0, FAILS: 0 };
    expect(summary).toEqual({
      groups: 2,
      kinds: {
        published: { rows: 1, facts: 1, results: { ...none, ok: 1 } },
        numerics: { rows: 2, facts: 1, results: { ...none, ok: 1, FAILS: 1 } },
        tuned: { rows: 0, facts: 0, results: none },
        remembered: { rows: 0, facts: 0, results: none },
      },
      obtained: [
        ['computed', 2],
        ['seen', 1],
      ],
      results: { ok: 2, misses: 0, FAILS: 1 },
    });
  });
});

describe('the kinds of evidence', () => {
  const facts = (...rows: readonly Partial<CheckRow>[]) => distinctFacts(rows.map(row));

  test('only a figure that somebody read is a published one', () => {
    expect(KIND_OF).toEqual({
      seen: 'published',
      'seen second-hand': 'published',
      computed: 'numerics',
      'independent solver': 'numerics',
      'common practice': 'tuned',
      'from memory': 'remembered',
    });
  });

  test('one figure of one source is one fact, in whatever unit it is used', () => {
    expect(facts({ expected: 168.875 }, { expected: 0.00168875, what: 'again' })).toBe(1);
    expect(facts({ expected: 168.875 }, { expected: 168.875, source: 'another' })).toBe(2);
    expect(facts({ expected: 168.875 }, { expected: 168.876 })).toBe(2);
  });

  test('short figures are told apart by what they are of', () => {
    expect(facts({ expected: 2, what: 'cups' }, { expected: 2, what: 'plates' })).toBe(2);
  });

  test('each row stands under its own kind, and a group’s curves once', () => {
    const groups = [groupOf([row(), row({ obtained: 'seen' })], [WAVE])];
    const own = KINDS.map((kind) => ofKind(groups, kind));
    expect(own.map((of) => of.flatMap(({ outcomes }) => outcomes).length)).toEqual([1, 1, 0, 0]);
    expect(own.flat().map(({ plots }) => plots.length)).toEqual([1, 0]);
  });
});

describe('figures', () => {
  test('expected and model have the same decimals, down to the tolerance', () => {
    expect(figuresOf(outcomeOf(row()))).toEqual({
      expected: '2.76311',
      actual: '2.76310',
      difference: '−1.0e−5',
      tolerance: '5.0e−5',
    });
  });

  test('a small amount is printed by powers of ten, an exact one as it is', () => {
    const small = row({ expected: 1.667e-6, actual: () => 1.668e-6, tolerance: 5e-9 });
    expect(figuresOf(outcomeOf(small)).expected).toBe('1.667e−6');
    const exact = row({ expected: -64, actual: () => -64, tolerance: 0 });
    expect(figuresOf(outcomeOf(exact))).toMatchObject({ expected: '−64', difference: '0' });
  });
});

describe('the terminal', () => {
  test('no line is longer than 110 signs, however long a word is', () => {
    const text = terminalReport([
      groupOf([row({ what: 'ж'.repeat(300), source: 'щ'.repeat(300), unit: 'ю'.repeat(40) })]),
    ]);
    const lengths = text.split('\n').map((line) => [...stripVTControlCharacters(line)].length);
    expect(Math.max(...lengths)).toBeLessThanOrEqual(110);
    expect(stripVTControlCharacters(text).replaceAll(/[^жщю]/g, '')).toHaveLength(640);
  });

  test('a failure is said in words', () => {
    const text = terminalReport([groupOf([row({ actual: () => 3 })])]);
    expect(text).toContain('FAILS');
    expect(text).toContain(
      'Numerics verified: 1 rows, 1 different facts: 0 hold, 0 miss as stated, 1 fail.',
    );
  });
});

describe('the page', () => {
  test('text is escaped and nothing is loaded or run', () => {
    const page = renderEvidencePage([groupOf([row({ what: '<b>&' })], [WAVE])]);
    expect(page).toContain('&lt;b>&amp;');
    expect(page).toContain('A &lt;wave>');
    expect(page).not.toMatch(/<script|<link|src=|url\(/);
  });

  test('a plot has a path a line, a mark a point, and both labels', () => {
    const page = renderEvidencePage([groupOf([row()], [WAVE])]);
    expect(page.match(/<path d="M[\d.]+,[\d.]+L/g)).toHaveLength(1);
    // Two points and one in the legend.
    expect(page.match(/<circle/g)).toHaveLength(3);
    expect(page).toContain('time, s');
    expect(page).toContain('height, m');
  });

  test('the same results give the same bytes', () => {
    const make = () => renderEvidencePage([groupOf([row()], [WAVE])]);
    expect(make()).toBe(make());
  });
});

describe('axes', () => {
  test('a logarithmic axis has decades and no place for nought', () => {
    const axis = axisOf([0, 0.001, 100], 'log', [0, 500], 6);
    expect(axis.ticks.map(({ label }) => label)).toEqual([
      '0.001',
      '0.01',
      '0.1',
      '1',
      '10',
      '100',
    ]);
    expect(axis.ticks.map(({ at }) => Math.round(at))).toEqual([0, 100, 200, 300, 400, 500]);
    expect(axis.place(0)).toBeNull();
    expect(axis.place(1)).toBeCloseTo(300, 9);
  });

  test('a logarithmic axis of less than a decade still has ticks', () => {
    expect(axisOf([3.1, 3.9], 'log', [0, 500], 6).ticks.length).toBeGreaterThanOrEqual(2);
  });

  test('an axis of many decades leaves some out', () => {
    const { ticks } = axisOf([1e-9, 1e9], 'log', [0, 500], 6);
    expect(ticks.length).toBeLessThanOrEqual(8);
    expect(ticks[0]?.label).toBe('10⁻⁹');
  });

  test('a level line is given a scale', () => {
    const axis = axisOf([5, 5], 'linear', [300, 0], 6);
    expect(axis.place(5)).toBeGreaterThan(0);
    expect(axis.place(5)).toBeLessThan(300);
    expect(axis.ticks.length).toBeGreaterThan(2);
  });

  test('large numbers have spaces and negative ones a true minus', () => {
    const { ticks } = axisOf([-20_000, 20_000], 'linear', [0, 500], 4);
    expect(ticks.map(({ label }) => label)).toContain('−20\u202f000');
  });
});
