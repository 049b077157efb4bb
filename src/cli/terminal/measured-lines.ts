/** A measured value on the terminal: its number as the trade reads it, in the words of the job. */
import type { JobWords } from '../../app/prepare/terminal-words.ts';
import type { MeasuredValue, Measurement } from '../../core/measurements.ts';
import { filled } from '../../core/phrases.ts';
import { inHgFromPa, kPaFromPa, mJPerCm2FromJPerM2, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import { joulesPerCm2 } from '../../report/words.ts';

export function measuredLine(
  { name, portion, value }: MeasuredValue,
  { terminal, record, tongue }: JobWords,
): string {
  const of = portion ?? 'fill';
  const line = filled(terminal.measured[name], {
    value: tongue.figure(WRITE[name](value)),
    inHg: tongue.figure(inHgFromPa(value).toFixed(1)),
    place: record.places[of],
    resin: record.resins[of],
  });
  // What is indented belongs to the line above, which has said the portion.
  return line.startsWith(' ') || portion === null ? line : `${terminal.portions[portion]}${line}`;
}

export function clockText(timeS: number): string {
  const whole = Math.floor(timeS);
  const minutes = String(Math.floor(whole / 60)).padStart(2, '0');
  return `${minutes}:${String(whole % 60).padStart(2, '0')}`;
}

type Write = (value: number) => string;

const with0: Write = (value) => value.toFixed(0);
const with1: Write = (value) => value.toFixed(1);
const with2: Write = (value) => value.toFixed(2);
const kPa: Write = (pa) => with1(kPaFromPa(pa));
const percent: Write = (ratio) => with0(100 * ratio);
const milliWatts: Write = (w) => with1(mWPerCm2FromWPerM2(w));
const joules: Write = (j) => with2(joulesPerCm2(j));
const milliJoules: Write = (j) => with0(mJPerCm2FromJPerM2(j));
const milliLeak: Write = (q) => with2(q * 1000);
const perMinute: Write = (perS) => with1(perS * 60);

const WRITE: Readonly<Record<Measurement, Write>> = {
  atmospherePa: kPa,
  airLastJobPa: kPa,
  pumpStrengthRatio: percent,
  lampLastKnownWPerM2: milliWatts,
  airLeftRatio: percent,
  furtherCures: with0,
  positionsPlanned: with0,
  fieldsPlanned: with0,
  leakRatePaM3PerS: milliLeak,
  leakRateUncertaintyPaM3PerS: milliLeak,
  risePlateauPa: (pa) => with2(kPaFromPa(pa)),
  vacuumReachedPa: kPa,
  pressureReachedPa: kPa,
  irradianceMeanWPerM2: milliWatts,
  doseJPerM2: joules,
  doseUncertaintyJPerM2: joules,
  shownDoseJPerM2: joules,
  doseCoverageFactor: (k) => k.toFixed(3),
  lampOnS: with0,
  gapsPassed: String,
  gapsFailed: String,
  unconfirmedDoseJPerM2: joules,
  targetAtResinJPerM2: joules,
  targetJPerM2: joules,
  depthTargetJPerM2: joules,
  throughPitJPerM2: joules,
  allowedSpotOverPaneK: with1,
  allowedHeatingKPerS: perMinute,
  greatestSpotOverPaneK: with1,
  greatestHeatingKPerS: perMinute,
  glassOverAirK: with1,
  heatSinkOverAirK: with1,
  glassWarmedK: with1,
  glassUsuallyWarmedK: with1,
  heatSinkWarmedK: with1,
  heatSinkUsuallyWarmedK: with1,
  heatSinkCooledK: with1,
  clockOffAtMostRatio: (ratio) => with2(100 * ratio),
  clockLooks: with0,
  clockComparedS: with0,
  longestFrameGapS: with2,
  uncountedS: with2,
  shieldSeenOpenS: clockText,
  doseUncountedJPerM2: joules,
  lampOnUncountedS: with2,
  openResinDoseJPerM2: milliJoules,
  openResinUnseenJPerM2: milliJoules,
  openResinShareRatio: percent,
};
