/**
 * The line of live values in a phase that runs by itself: signed pressure relative to the local
 * atmosphere, or dose, and the remaining time. A table here lists the phases that have one; the
 * others show their prompt's first line. The words are the catalogue's.
 */

import type { Outcome, RechargeWhy, RemedyId, SealWhy, Snapshot } from '../core/events.ts';
import { CURE_PHASES, type PhaseId } from '../core/phases.ts';
import { filled } from '../core/phrases.ts';
import { celsiusFromK, kPaFromPa, mJPerCm2FromJPerM2, mWPerCm2FromWPerM2 } from '../core/units.ts';
import type { Catalogue } from './catalogue.ts';
import type { CycleCount } from './cycle-line.ts';
import { moveWords, type PlacesAlong } from './place-line.ts';
import { type SheetValues, sheetLine } from './sheet-line.ts';
import { ends } from './text.ts';

/** Values on the display that are not in the snapshot. */
export interface LiveValues extends SheetValues {
  readonly phaseElapsedS: number;
  /** Seconds to the end of the dwell, watch or cure; null where the end depends on the plant. */
  readonly leftS: number | null;
  /** Dose that is shown if the next interruption of the lamp passes. */
  readonly doseInHandJPerM2: number;
  /** Amount by which the dose must exceed its target to cover its uncertainty. */
  readonly doseMarginJPerM2: number;
  /**
   * Daylight so far as a share of the setting dose of exposed resin; null while it need not be
   * shown.
   */
  readonly daylightShare: number | null;
  /** What the last seal test saw. */
  readonly sealWhy: SealWhy | null;
  /** How far from the pit a leg may reach for this unit; null where that is not known. */
  readonly legLimitM: number | null;
  /** The remedy that is offered or carried out. */
  readonly remedy: RemedyId | null;
  /** Why the injector is charged again. */
  readonly rechargeWhy: RechargeWhy | null;
  /** The range of the profile; how fast the glass changes, null while that is not known. */
  readonly glass: {
    readonly lowestK: number;
    readonly highestK: number;
    readonly rateKPerS: number | null;
    /** The greatest rate that the alarms allow. */
    readonly allowedKPerS: number;
  };
  readonly vacuum: { readonly askedPa: number; readonly givenPa: number };
  readonly cycles: CycleCount;
  readonly places: PlacesAlong;
  readonly outcome: Outcome | null;
  /** The lamp's present or last output, and the daily exposure limits for bare eyes and skin. */
  readonly light: {
    readonly irradianceWPerM2: number;
    readonly eyeS: number;
    readonly skinS: number;
  } | null;
}

type Writer = (live: LiveValues, snapshot: Snapshot, catalogue: Catalogue) => string;

type Length = 'whole' | 'brief';

const pressureWriter =
  (length: Length): Writer =>
  ({ leftS }, { pressurePa, atmospherePa }, catalogue) => {
    const { live } = catalogue;
    if (pressurePa === null || atmospherePa === null) return live.pressureUnknown;
    const gaugeKPa = kPaFromPa(pressurePa - atmospherePa);
    // Within two steps of the converter a sign would only flicker.
    const sign = Math.abs(gaugeKPa) < 1 ? '' : gaugeKPa > 0 ? '+' : '-';
    const pressure = `${sign}${Math.abs(gaugeKPa).toFixed(0)}`;
    const words = length === 'whole' ? live.pressure : live.pressureBrief;
    return together(length, filled(words, { pressure }), left(leftS, catalogue));
  };

const doseWriter =
  (length: Length): Writer =>
  ({ leftS, doseInHandJPerM2 }, { targetJPerM2 }, catalogue) => {
    const { live } = catalogue;
    const dose = joulesPerCm2(doseInHandJPerM2).toFixed(2);
    const target = joulesPerCm2(targetJPerM2).toFixed(2);
    const words = length === 'whole' ? live.dose : live.doseBrief;
    return together(length, filled(words, { dose, target }), left(leftS, catalogue));
  };

/** The time at the end of a line of its own, or right behind on one that is shared. */
const together = (length: Length, value: string, time: string): string =>
  length === 'whole' ? ends(value, time) : `${value} ${time}`.trimEnd();

const pressureLine = pressureWriter('whole');
const doseLine = doseWriter('whole');
const BRIEF: ReadonlyMap<Writer | undefined, Writer> = new Map([
  [pressureLine, pressureWriter('brief')],
  [doseLine, doseWriter('brief')],
]);

/** Pressure or dose and the time left beside the number of the step; null where neither runs. */
export const briefLine = (
  phase: PhaseId,
  live: LiveValues,
  snapshot: Snapshot,
  catalogue: Catalogue,
): string | null => BRIEF.get(LIVE[phase])?.(live, snapshot, catalogue) ?? null;

/** Why the lamp is still on when the display already shows the target. */
export function marginLine(
  phase: PhaseId,
  { doseInHandJPerM2: doseJPerM2, doseMarginJPerM2 }: LiveValues,
  { targetJPerM2 }: Snapshot,
  { live }: Catalogue,
): string | null {
  if (!CURE_PHASES.has(phase) || doseJPerM2 < targetJPerM2) return null;
  if (doseJPerM2 >= targetJPerM2 + doseMarginJPerM2) return null;
  const margin = joulesPerCm2(doseMarginJPerM2);
  return filled(live.margin, { margin: margin.toFixed(margin < 10 ? 2 : 1) });
}

/** Daylight replaces a prompt's own words for this long, once per period. */
const DAYLIGHT_S = 2;
const DAYLIGHT_EVERY_S = 6;

/**
 * Effect of daylight on exposed resin; alternates with the prompt's line where that gives an
 * instruction.
 */
export function daylightLine(
  takesTurns: boolean,
  { daylightShare, phaseElapsedS }: Pick<LiveValues, 'daylightShare' | 'phaseElapsedS'>,
  { live }: Catalogue,
): string | null {
  if (daylightShare === null) return null;
  if (takesTurns && phaseElapsedS % DAYLIGHT_EVERY_S >= DAYLIGHT_S) return null;
  const share = Math.min(999, Math.floor(100 * daylightShare)).toFixed(0);
  return filled(live.daylight, { share });
}

const joulesPerCm2 = (jPerM2: number): number => mJPerCm2FromJPerM2(jPerM2) / 1000;

const vacuumLine: Writer = ({ vacuum: { askedPa, givenPa } }, { atmospherePa }, { live }) => {
  const whole = (pa: number): string => kPaFromPa(pa).toFixed(0);
  if (givenPa !== askedPa) {
    return filled(live.vacuumChanged, { asked: whole(askedPa), given: whole(givenPa) });
  }
  const share = atmospherePa === null ? '--' : ((100 * givenPa) / atmospherePa).toFixed(0);
  return filled(live.vacuumLeaves, { share });
};

function left(s: number | null, { live }: Catalogue): string {
  if (s === null) return '';
  const known = Number.isFinite(s) && s < 6000;
  return known ? filled(live.timeLeft, { seconds: String(Math.ceil(s)) }) : live.timeUnknown;
}

const glassLine: Writer = (_, { glassK }, { live }) => {
  const celsius = glassK === null ? null : celsiusFromK(glassK).toFixed(0);
  return ends(live.hoseOff, celsius === null ? '' : filled(live.glass, { celsius }));
};

/** Degrees and their change by the minute; a small one would only flicker. */
const glassNowLine: Writer = ({ glass: { rateKPerS } }, { glassK }, { live }) => {
  if (glassK === null) return live.glassUnknown;
  const perMinute = 60 * (rateKPerS ?? 0);
  const sign = perMinute < 0 ? '-' : '+';
  const rate = `${sign}${Math.abs(perMinute).toFixed(1)}`;
  return filled(live.glassNow, { celsius: celsiusFromK(glassK).toFixed(1), rate });
};

/** What to do with glass outside the profile's range. */
export function glassLineToDo(
  phase: PhaseId,
  { glass: { lowestK, highestK } }: LiveValues,
  { glassK }: Snapshot,
  { live }: Catalogue,
): string | null {
  if (phase !== 'glass-gate' || glassK === null) return null;
  const range = {
    low: celsiusFromK(lowestK).toFixed(0),
    high: celsiusFromK(highestK).toFixed(0),
  };
  if (glassK < lowestK) return filled(live.warmTo, range);
  return glassK > highestK ? filled(live.coolTo, range) : live.glassInside;
}

const jobLine: Writer = (live, _, catalogue) => sheetLine(live, live.phaseElapsedS, catalogue);

const LIVE: Readonly<Partial<Record<PhaseId, Writer>>> = {
  'job-sheet': jobLine,
  'vacuum-note': vacuumLine,
  'seal-pull': pressureLine,
  'seal-watch': pressureLine,
  'long-pull': pressureLine,
  'seal-open': pressureLine,
  'seal-press': pressureLine,
  'press-watch': pressureLine,
  'press-off': pressureLine,
  'test-again': ({ sealWhy }, _, { seal }) => (sealWhy === null ? '' : seal[sealWhy]),
  'measure-leg': ({ legLimitM }, _, { live }) =>
    legLimitM === null
      ? live.legLimitUnknown
      : filled(live.legLimit, { mm: Math.floor(1000 * legLimitM + 1e-6).toFixed(0) }),
  'offer-remedy': ({ remedy }, _, { remedies }) => (remedy === null ? '' : remedies[remedy].title),
  'try-remedy': ({ remedy }, _, { remedies }) => (remedy === null ? '' : remedies[remedy].lines[0]),
  recharge: ({ rechargeWhy }, _, { recharge }) =>
    rechargeWhy === null ? '' : recharge[rechargeWhy],
  'move-injector': ({ places }, _, catalogue) => moveWords(places.position, catalogue),
  'move-lamp': ({ places }, _, catalogue) => moveWords(places.field, catalogue),
  evacuate: pressureLine,
  'vacuum-dwell': pressureLine,
  release: pressureLine,
  pressurise: pressureLine,
  'pressure-dwell': pressureLine,
  vent: pressureLine,
  'cure-fill': doseLine,
  cure: doseLine,
  result: ({ outcome }, _, { live }) => (outcome === 'clear' ? live.clear : live.markRemains),
  'self-test': glassLine,
  'glass-gate': glassNowLine,
};

/** Null where the phase has no live line. */
export function liveLine(
  phase: PhaseId,
  live: LiveValues,
  snapshot: Snapshot,
  catalogue: Catalogue,
): string | null {
  return LIVE[phase]?.(live, snapshot, catalogue) ?? null;
}

/** A caution's words about the lamp's light. */
export function lightWords({ light }: Pick<LiveValues, 'light'>, { live }: Catalogue): string {
  if (light === null) return live.lightUnknown;
  return filled(live.lightKnown, {
    irradiance: mWPerCm2FromWPerM2(light.irradianceWPerM2).toFixed(0),
    eye: Math.floor(light.eyeS).toFixed(0),
    skin: Math.floor(light.skinS / 60).toFixed(0),
  });
}
