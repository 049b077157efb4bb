/**
 * The chamber's air: its pressure within the profile's limits, a seal that holds, and vacuum and
 * pressure held for their time.
 */
import { numberAt } from '../../core/fields.ts';
import { curedPortionsOf } from '../report-dose.ts';
import { clockWords, kPaAbs, leakWords, secondsWords } from '../words.ts';
import { type Finding, type Ground, notRecorded, objects, supports } from './claim.ts';
import { limitOf } from './claim-facts.ts';

const withinLimits: Ground = (facts) => {
  const row = limitOf(facts, 'chamber pressure');
  if (row === undefined || row.within === null) return [];
  const { lowestSeen, highestSeen, lowestAllowed, highestAllowed } = row;
  const words = `${spanWords(lowestSeen, highestSeen)} seen, ${spanWords(lowestAllowed, highestAllowed)} allowed`;
  return row.within ? [supports('pressure sensor', words)] : [objects('pressure-outside', words)];
};

const spanWords = (low: number | null, high: number | null): string =>
  [low, high].map((pa) => (pa === null ? 'no limit' : kPaAbs(pa))).join(' to ');

const pumpAgrees: Ground = () => [notRecorded('what the pump says of the pressure')];

const tightAtLast: Ground = ({ sealTests, measured, limits }) => {
  const last = sealTests.at(-1);
  const row = limits.find(({ what }) => what === 'seal leak');
  const seen = row?.highestSeen ?? null;
  const leak = seen === null ? '' : `, leak rate ${leakWords(seen)}`;
  const most = row?.highestAllowed ?? null;
  const words = `${leak}${most === null ? '' : `, at most ${leakWords(most)} allowed`}`;
  if (row?.within === false) return [objects('leaks', `last test of the seal${words}`)];
  if (last === undefined) {
    const found = measured.find(({ name }) => name === 'leakRatePaM3PerS');
    return found === undefined || row?.within !== true
      ? []
      : [supports('pressure sensor', `test at ${clockWords(found.atS)} min${words}`)];
  }
  const found = `test at ${clockWords(last.atS)} min: ${last.finding}${words}`;
  return last.finding === 'tight'
    ? [supports('pressure sensor', found)]
    : [objects(last.finding === 'leak' ? 'leaks' : 'outgassed', `${found}: ${last.why}`)];
};

const pumpIdle: Ground = () => [notRecorded('what the pump says of the seal in the dwells')];

/** The whole of each dwell that the profile asks for, in every cycle that was run. */
const dwells: Ground = (facts) => {
  const { cycles, inputs } = facts;
  if (cycles.length === 0) return [objects('held-too-short', 'no cycle was begun')];
  return cycles.flatMap((row): readonly Finding[] => [
    dwell(
      `cycle ${row.cycle}, vacuum`,
      row.vacuumHeldS,
      row.vacuumReachedPa,
      askedS(inputs.profile, 'vacuum'),
    ),
    dwell(
      `cycle ${row.cycle}, pressure`,
      row.pressureHeldS,
      row.pressureReachedPa,
      askedS(inputs.profile, 'pressure'),
    ),
  ]);
};

const askedS = (profile: unknown, part: 'vacuum' | 'pressure'): number | null =>
  numberAt(profile, part, 'dwellS');

/** A time is known to a tick; board and journal may round it the other way. */
const TICK_S = 0.05;

function dwell(
  what: string,
  heldS: number,
  reachedPa: number | null,
  leastS: number | null,
): Finding {
  const asked = leastS === null ? '' : `, ${secondsWords(leastS)} asked`;
  const words = `${what}: held for ${secondsWords(heldS)}${asked}`;
  if (reachedPa === null) return objects('held-too-short', `${words}; not held to its end`);
  return leastS !== null && heldS < leastS - TICK_S
    ? objects('held-too-short', words)
    : supports('board clock', words);
}

const lampTime: Ground = ({ limits, inputs }) =>
  curedPortionsOf(inputs.profile).flatMap((portion) => {
    const what = portion === 'fill and pit' ? 'lamp on' : (`lamp on, ${portion}` as const);
    const row = limits.find((one) => one.what === what);
    if (row === undefined || row.within === null) return [];
    const [seen, least, most] = [row.highestSeen, row.lowestAllowed, row.highestAllowed].map((s) =>
      s === null ? 'not stated' : secondsWords(s),
    );
    const words = `${what} for ${seen}, ${least} to ${most} allowed`;
    return [row.within ? supports('board clock', words) : objects('held-too-short', words)];
  });

export const PRESSURE_GROUNDS: readonly Ground[] = [withinLimits, pumpAgrees];
export const SEAL_GROUNDS: readonly Ground[] = [tightAtLast, pumpIdle];
export const HELD_GROUNDS: readonly Ground[] = [dwells, lampTime];
