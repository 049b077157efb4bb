/**
 * What a record states of a dose and of the times held, with its uncertainty, against the plant's
 * truth. A stated figure is false where the truth lies outside what the record allows for it.
 */
import type { CountedDose } from '../../src/report/report-dose.ts';
import type { CycleRow, MeasuredRow } from '../../src/report/timeline.ts';
import type { Truth } from './truth.ts';

/** The parts of a report that state them. */
export interface StatedFigures {
  readonly doses: readonly CountedDose[];
  readonly cycles: readonly CycleRow[];
  readonly measured: readonly MeasuredRow[];
}

/**
 * A shown dose lies between what is shown at least and the count with its expanded uncertainty and
 * with the light that late frames left out. Judged at the sensor's place: the way from there to the
 * resin is in the target.
 */
export function doseMisstated(
  { doses, measured }: StatedFigures,
  { atSensor }: Truth,
  portion: string | null,
): string | null {
  const dose = doses.find((one) => one.portion === portion);
  if (dose === undefined) return 'no such dose is stated';
  if (dose.uncertainty === null) return 'its uncertainty is not stated';
  const { shownJPerM2, expandedJPerM2 } = dose.uncertainty;
  const leftOut = measured
    .filter(({ name }) => name === 'doseUncountedJPerM2')
    .reduce((sum, { value }) => sum + value, 0);
  const trueJPerM2 = truthOf(portion, atSensor);
  const mostJPerM2 = dose.doseJPerM2 + expandedJPerM2 + leftOut;
  if (trueJPerM2 >= shownJPerM2 && trueJPerM2 <= mostJPerM2) return null;
  const span = `${mJ(shownJPerM2)} to ${mJ(mostJPerM2)}`;
  return `${mJ(trueJPerM2)} mJ/cm2 came to the sensor, ${span} stated`;
}

function truthOf(portion: string | null, { fillJPerM2, pitJPerM2 }: Truth['atSensor']): number {
  if (portion === 'fill') return fillJPerM2;
  return portion === 'pit' ? pitJPerM2 : fillJPerM2 + pitJPerM2;
}

/** In a mJ/cm2 are 10 J/m2. */
const mJ = (jPerM2: number): string => (jPerM2 / 10).toFixed(0);

/** A stretch is known to a tick at each of its ends. */
const ENDS_S = 2 * 0.05;

/** Which phases a stated time is of; a vacuum is held while a person looks for bubbles. */
const HELD = [
  ['vacuum', 'vacuumHeldS', ['vacuum-dwell', 'ask-bubbles']],
  ['pressure', 'pressureHeldS', ['pressure-dwell']],
] as const;

/** The clocks of board and host agree to the ratio that the record states. */
export function timesMisstated(
  { cycles, measured }: StatedFigures,
  { stretches }: Truth,
): string | null {
  const ratio = measured.findLast(({ name }) => name === 'clockOffAtMostRatio')?.value;
  if (ratio === undefined) return 'how far the clock is right is not stated';
  for (const row of cycles) {
    for (const [what, name, phases] of HELD) {
      const own = stretches.filter(
        ({ cycle, phase }) => cycle === row.cycle && phases.some((one) => one === phase),
      );
      const trueS = own.reduce((sum, stretch) => sum + stretch.trueS, 0);
      const withinS = ratio * row[name] + ENDS_S * Math.max(1, own.length);
      if (Math.abs(trueS - row[name]) <= withinS) continue;
      const times = `${row[name].toFixed(2)} s stated, ${trueS.toFixed(2)} s in truth`;
      return `${what} of cycle ${row.cycle}: ${times}, within ${withinS.toFixed(2)} s`;
    }
  }
  return null;
}
