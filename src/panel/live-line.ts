/**
 * The line of live values in a phase that runs by itself: pressure over the local atmosphere with
 * its sign, or dose, and the time left. Which phases have one is a table here; the rest show their
 * prompt's first line.
 */
import type { PhaseId, Snapshot } from '../events.ts';
import { celsiusFromK, kPaFromPa, mJPerCm2FromJPerM2 } from '../units.ts';
import { ends } from './text.ts';

/** Values that are on the display but not in the snapshot. */
export interface LiveValues {
  readonly phaseElapsedS: number;
  /** Seconds to the end of the dwell, watch or cure; null where the world decides. */
  readonly leftS: number | null;
  /** What the job is, in 20 characters, and how it ended up. */
  readonly jobLine: string;
  readonly resultLine: string;
}

type Writer = (live: LiveValues, snapshot: Snapshot) => string;

const pressureLine: Writer = ({ leftS }, { pressurePa, atmospherePa }) => {
  if (pressurePa === null || atmospherePa === null) return ends('pressure unknown', '');
  const gaugeKPa = kPaFromPa(pressurePa - atmospherePa);
  // Inside two steps of the converter a sign would only flicker.
  const sign = Math.abs(gaugeKPa) < 1 ? '' : gaugeKPa > 0 ? '+' : '-';
  return ends(`${sign}${Math.abs(gaugeKPa).toFixed(0)} kPa gauge`, left(leftS));
};

const doseLine: Writer = ({ leftS }, { doseJPerM2, targetJPerM2 }) => {
  const dose = mJPerCm2FromJPerM2(doseJPerM2) / 1000;
  const target = mJPerCm2FromJPerM2(targetJPerM2) / 1000;
  return ends(`${dose.toFixed(2)}/${target.toFixed(2)}J/cm2`, left(leftS));
};

const left = (s: number | null): string =>
  s === null ? '' : Number.isFinite(s) && s < 6000 ? `${Math.ceil(s)} s` : '-- s';

const LIVE: Readonly<Partial<Record<PhaseId, Writer>>> = {
  'job-sheet': ({ jobLine }) => jobLine,
  'seal-pull': pressureLine,
  'seal-watch': pressureLine,
  evacuate: pressureLine,
  'vacuum-dwell': pressureLine,
  release: pressureLine,
  pressurise: pressureLine,
  'pressure-dwell': pressureLine,
  vent: pressureLine,
  cure: doseLine,
  result: ({ resultLine }) => resultLine,
  'self-test': (_, { glassK }) =>
    ends('Hose off', glassK === null ? '' : `glass ${celsiusFromK(glassK).toFixed(0)} C`),
};

/** Null where the phase has no live line. */
export function liveLine(phase: PhaseId, live: LiveValues, snapshot: Snapshot): string | null {
  return LIVE[phase]?.(live, snapshot) ?? null;
}
