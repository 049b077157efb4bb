/**
 * The fits of the seal test against an independent least-squares solver, and the normal quantile that
 * they use against Student's t.
 */
import { addReading, NO_RISE, type Rise, riseOf } from '../../../src/procedure/rise.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import reference from '../reference/seal-rise.json' with { type: 'json' };

interface Trace {
  readonly slopePaPerS: number;
  readonly heightPa: number;
  readonly tauS: number;
  readonly scatterPa: number;
}

function fitted({ slopePaPerS, heightPa, tauS, scatterPa }: Trace): Rise | null {
  let sums = NO_RISE;
  for (let i = 0; i <= 900; i++) {
    const t = 2 + 0.05 * i;
    const pa = 60_000 + slopePaPerS * t + heightPa * (1 - Math.exp(-t / tauS));
    sums = addReading(sums, t, pa + scatterPa * Math.sin(1000 * Math.sin(i + 1)));
  }
  return riseOf(sums);
}

const SOURCE = 'reference/seal-rise.md, numpy.linalg.lstsq and scipy.stats of the same trace';
/** Rounding of 301 sums of squares near 1e7 Pa2, carried through equations of condition 1e4. */
const ROUNDING_PA = 1e-6;

const row = (
  what: string,
  actual: () => number | undefined,
  expected: number,
  unit: string,
  tolerance = ROUNDING_PA,
): CheckRow => ({
  what,
  actual: () => actual() ?? Number.NaN,
  expected,
  tolerance,
  unit,
  source: SOURCE,
  obtained: 'independent solver',
});

function bentRows(name: string, trace: Trace, solved: typeof reference.water): CheckRow[] {
  const bent = () => {
    const rise = fitted(trace);
    return rise?.shape === 'bent' ? rise : null;
  };
  return [
    row(`height, ${name}`, () => bent()?.heightPa.best, solved.heightPa, 'Pa'),
    row(`slope, ${name}`, () => bent()?.slopePaPerS.best, solved.slopePaPerS, 'Pa/s'),
    row(`pressure at isolation, ${name}`, () => bent()?.startPa, solved.startPa, 'Pa'),
    row(`time constant, ${name}`, () => bent()?.tauS, solved.tauS, 's', 0),
  ];
}

const STRAIGHT: Trace = { slopePaPerS: 120, heightPa: 0, tauS: 1, scatterPa: 300 };
const halfRange = (): number | undefined => {
  const rise = fitted(STRAIGHT);
  return rise === null ? undefined : (rise.slopePaPerS.high - rise.slopePaPerS.low) / 2;
};

export const SEAL_RISE: CheckGroup = {
  title: 'rise of the seal test, fitted',
  rows: [
    row(
      'slope of a straight rise',
      () => fitted(STRAIGHT)?.slopePaPerS.best,
      reference.straight.slopePaPerS,
      'Pa/s',
    ),
    row(
      'half of its 95 % range, by the normal quantile instead of t',
      halfRange,
      reference.straight.halfRangePaPerS,
      'Pa/s',
      // t with 299 degrees of freedom is 1.968, the quantile used is 1.96.
      reference.straight.halfRangePaPerS * (1.968 / 1.96 - 1),
    ),
    ...bentRows(
      'water at 23 C',
      { slopePaPerS: 15, heightPa: 2_800, tauS: 9.3, scatterPa: 300 },
      reference.water,
    ),
    ...bentRows(
      'water between two time constants',
      { slopePaPerS: 15, heightPa: 2_800, tauS: 8, scatterPa: 300 },
      reference.between,
    ),
    ...bentRows(
      'outgassing',
      { slopePaPerS: 15, heightPa: 900, tauS: 7, scatterPa: 100 },
      reference.outgassing,
    ),
  ],
};
