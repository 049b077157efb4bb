/**
 * Outside checks as data: the expected value, its tolerance as far as the source determines it, its
 * source and how it was obtained; and curves of the model beside the reference. The same groups run
 * as tests and are printed as the evidence report.
 */

export interface CheckRow {
  readonly what: string;
  readonly actual: () => number;
  readonly expected: number;
  /** From the source's own precision, never from what makes the row pass. */
  readonly tolerance: number;
  readonly unit: string;
  readonly source: string;
  /** How the expected value was obtained. `common practice`: of the trade, with no source. */
  readonly obtained:
    | 'seen'
    | 'seen second-hand'
    | 'computed'
    | 'independent solver'
    | 'from memory'
    | 'common practice';
  /** Why the tolerance is wide; said wherever it is over a fifth of what is expected. */
  readonly why?: string;
  /** Where the model is known to miss the source: by how much and why. Such a row must miss. */
  readonly misses?: string;
}

/**
 * What a row proves, never added up: a published figure that somebody looked up, against code that
 * the job uses; numerics against another solution of the same equations; a value tuned to common
 * practice. A figure that is only remembered proves nothing until its source is opened.
 */
export const KINDS = ['published', 'numerics', 'tuned', 'remembered'] as const;
export type Kind = (typeof KINDS)[number];

export const KIND_OF: Readonly<Record<CheckRow['obtained'], Kind>> = {
  seen: 'published',
  'seen second-hand': 'published',
  computed: 'numerics',
  'independent solver': 'numerics',
  'common practice': 'tuned',
  'from memory': 'remembered',
};

/** Digits of a number, wherever its decimal point stands: a source that is used in two units says one thing. */
const digitsOf = (value: number): string =>
  value.toExponential().replace(/e.*$/, '').replaceAll(/[.-]/g, '');

/** How many different things rows say: one figure of one source counts once, in whatever unit. */
export const distinctFacts = (rows: readonly CheckRow[]): number =>
  new Set(
    rows.map(({ source, expected, what }) => {
      const digits = digitsOf(expected);
      const said = source.replaceAll('°', '').replaceAll(/\s+/g, ' ');
      // Of one or two digits many are alike: what they belong to tells them apart.
      return digits.length > 2 ? `${said} ${digits}` : `${said} ${what}`;
    }),
  ).size;

export interface Curve {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** The model as a line, the reference as points. */
export interface Plot {
  readonly title: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly scale?: 'linear' | 'log y' | 'log both';
  readonly lines: readonly (Curve & { readonly label: string })[];
  readonly points: readonly (Curve & { readonly label: string })[];
}

export interface CheckGroup {
  readonly title: string;
  readonly rows: readonly CheckRow[];
  /** Made when asked for: some run the plant. */
  readonly plots?: () => readonly Plot[];
}

export const holds = ({ expected, tolerance }: CheckRow, actual: number): boolean =>
  Math.abs(actual - expected) <= tolerance;

/** A row against a closed form that is worked out in the check itself; alike but for rounding. */
export const closedForm = (
  what: string,
  actual: () => number,
  expected: number,
  unit: string,
  source: string,
  relative = 1e-9,
): CheckRow => ({
  what,
  actual,
  expected,
  tolerance: relative * Math.abs(expected),
  unit,
  source,
  obtained: 'computed',
});
