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
  /** How far the dose must be over its target for its uncertainty. */
  readonly doseMarginJPerM2: number;
  /** What the last test of the seal saw, in 20 characters. */
  readonly sealLine: string;
  readonly vacuum: { readonly askedPa: number; readonly givenPa: number };
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

/** Why the lamp still burns when the display already shows the target. */
export function marginLine(
  phase: PhaseId,
  { doseMarginJPerM2 }: LiveValues,
  { doseJPerM2, targetJPerM2 }: Snapshot,
): string | null {
  if (phase !== 'cure' || doseJPerM2 < targetJPerM2) return null;
  if (doseJPerM2 >= targetJPerM2 + doseMarginJPerM2) return null;
  const margin = mJPerCm2FromJPerM2(doseMarginJPerM2) / 1000;
  return `+${margin.toFixed(margin < 10 ? 2 : 1)}J/cm2 for doubt`;
}

const vacuumLine: Writer = ({ vacuum: { askedPa, givenPa } }, { atmospherePa }) => {
  const [asked, given] = [askedPa, givenPa].map((pa) => kPaFromPa(pa).toFixed(0));
  if (givenPa !== askedPa) return `Asked ${asked}, get ${given} kPa`;
  const share = atmospherePa === null ? '--' : ((100 * givenPa) / atmospherePa).toFixed(0);
  return `Leaves ${share} % of air`;
};

const left = (s: number | null): string =>
  s === null ? '' : Number.isFinite(s) && s < 6000 ? `${Math.ceil(s)} s` : '-- s';

const LIVE: Readonly<Partial<Record<PhaseId, Writer>>> = {
  'job-sheet': ({ jobLine }) => jobLine,
  'vacuum-note': vacuumLine,
  'seal-pull': pressureLine,
  'seal-watch': pressureLine,
  'long-pull': pressureLine,
  'test-again': ({ sealLine }) => sealLine,
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
