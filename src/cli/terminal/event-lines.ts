/**
 * One line of plain text for each event of a job, for terminals without a live panel and for logs.
 * A table here selects the events that a person needs; the journal keeps them all.
 */

import type { DoseSoFar } from '../../control/procedure.ts';
import type { Event, GapFailure } from '../../core/events.ts';
import type { MeasuredValue, Measurement } from '../../core/measurements.ts';
import { STEP_NUMBERS } from '../../core/phases.ts';
import { escapedValue } from '../../core/plain-text.ts';
import { inHgFromPa, kPaFromPa, mJPerCm2FromJPerM2, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import {
  HOLD_REASON_WORDS,
  joulesPerCm2,
  type PortionWords,
  portionWords,
  RECHARGE_WORDS,
  REMEDY_WORDS,
} from '../../report/words.ts';

/** `null` for events that would only clutter a terminal. */
export function eventLine(event: Event): string | null {
  const words = wordsOf(event);
  return words === null ? null : escapedValue(`${clock(event.timeS)}  ${words}`);
}

export const doseLine = ({ timeS, doseJPerM2, targetJPerM2 }: DoseSoFar): string =>
  `${clock(timeS)}        dose so far ${joules(doseJPerM2)} of ${joules(targetJPerM2)} J/cm2`;

function wordsOf(event: Event): string | null {
  switch (event.kind) {
    case 'batch':
      return `job ${event.from} -> ${event.to}: ${event.why}`;
    case 'phase':
      return `${STEP_NUMBERS[event.phase]} ${event.phase}${event.cycle > 0 ? `, cycle ${event.cycle}` : ''}`;
    case 'answer':
      return `      answered ${event.answer}`;
    case 'hold-reason':
      return `      HOLD because: ${HOLD_REASON_WORDS[event.reason]}`;
    case 'remedy':
      return `      remedy ${event.taken ? 'carried out' : 'declined'}: ${REMEDY_WORDS[event.remedy]}`;
    case 'recharge':
      return `      fresh resin before cycle ${event.cycle}: ${RECHARGE_WORDS[event.why]}`;
    case 'moved':
      return `      ${event.what} moved on: ${event.to} of ${event.of}`;
    case 'measured':
      return `      ${measuredLine(event)}`;
    case 'seal-finding':
      return `      seal test: ${event.finding}. ${event.why}`;
    case 'adapted':
      return `      ${event.what}: asked ${kPaFromPa(event.askedPa).toFixed(1)}, given ${kPaFromPa(event.givenPa).toFixed(1)} kPa abs: ${event.why}`;
    case 'gap-failed':
      return `      ${portionWords(event.portion).prefix}lamp check failed (${GAP_WORDS[event.why]}): ${joules(event.lostJPerM2)} J/cm2 do not count`;
    case 'alarm':
      return event.to === 'unacknowledged'
        ? `ALARM ${event.alarm} (${event.action}): ${event.cause}. ${event.remedy}`
        : `alarm ${event.alarm} is ${event.to}`;
    case 'refused':
      return `      refused ${event.request}: ${event.why}`;
    case 'end':
      return `end: ${event.reason}`;
    // Only guided procedures emit it; they have lines of their own.
    case 'step':
    case 'point':
      return null;
  }
}

const GAP_WORDS: Readonly<Record<GapFailure, string>> = {
  'not-dark': 'the reading did not fall to dark with the lamp',
  'not-back': 'the light did not come back with the lamp',
  unsteady: 'the reading left its level',
};

type Write = (value: number, words: PortionWords) => string;

const MEASURED: Readonly<Record<Measurement, Write>> = {
  atmospherePa: (pa) =>
    `local atmosphere ${kPaFromPa(pa).toFixed(1)} kPa abs, gauge zero of this job`,
  airLastJobPa: (pa) => `air was ${kPaFromPa(pa).toFixed(1)} kPa in the last job`,
  pumpStrengthRatio: (ratio) => `pump shows ${(100 * ratio).toFixed(0)} % of its data sheet`,
  lampLastKnownWPerM2: (w) => `lamp gave ${milliWatts(w)} mW/cm2 when last used`,
  airLeftRatio: (share) => `vacuum leaves ${percent(share)} % of this air`,
  furtherCures: (n) => `resin soft: further dose ${n.toFixed(0)}`,
  leakRatePaM3PerS: (q) => `leak rate ${(q * 1000).toFixed(2)} mPa m3/s`,
  leakRateUncertaintyPaM3PerS: (q) =>
    `  +- ${(q * 1000).toFixed(2)} mPa m3/s (95 %, sample scatter)`,
  risePlateauPa: (pa) => `pressure levels off ${kPaFromPa(pa).toFixed(2)} kPa above isolation`,
  vacuumReachedPa: (pa) =>
    `vacuum held at ${kPaFromPa(pa).toFixed(1)} kPa abs (${inHgFromPa(pa).toFixed(1)} inHg abs)`,
  pressureReachedPa: (pa) => `pressure held at ${kPaFromPa(pa).toFixed(1)} kPa abs`,
  irradianceMeanWPerM2: (w) => `mean irradiance ${milliWatts(w)} mW/cm2`,
  doseJPerM2: (j) => `dose ${joules(j)} J/cm2`,
  doseUncertaintyJPerM2: (j) => `standard uncertainty of the dose ${joules(j)} J/cm2`,
  shownDoseJPerM2: (j) => `dose shown to be at least ${joules(j)} J/cm2`,
  doseCoverageFactor: (k) => `coverage factor of the dose k = ${k.toFixed(3)}`,
  lampOnS: (s) => `lamp on for ${s.toFixed(0)} s`,
  gapsPassed: (n) => `lamp interrupted and seen to go dark: ${n} times`,
  gapsFailed: (n) => `interruptions that failed: ${n}`,
  unconfirmedDoseJPerM2: (j) => `not borne out by the lamp's known output: ${joules(j)} J/cm2`,
  targetAtResinJPerM2: (j) => `target of this job ${joules(j)} J/cm2 at the resin`,
  targetJPerM2: (j) => `  the sensor must read ${joules(j)} J/cm2 for it`,
  depthTargetJPerM2: (j, { place }) => `the depth of the ${place} requires ${joules(j)} J/cm2`,
  throughPitJPerM2: (j) =>
    `further ${joules(j)} J/cm2 through the pit resin, calculated, not judged`,
  allowedSpotOverPaneK: (k) => `spot above pane: limit ${k.toFixed(1)} K for this leg`,
  allowedHeatingKPerS: (k) => `heating rate: limit ${(k * 60).toFixed(1)} K/min for this leg`,
  greatestSpotOverPaneK: (k) => `spot above pane: highest ${k.toFixed(1)} K`,
  greatestHeatingKPerS: (k) => `heating or cooling rate: highest ${(k * 60).toFixed(1)} K/min`,
  glassOverAirK: (k) => `glass ${k.toFixed(1)} K above the air before the first light`,
  heatSinkOverAirK: (k) => `heat sink ${k.toFixed(1)} K above the air before the first light`,
  glassWarmedK: (k) => `the lamp warmed the glass by ${k.toFixed(1)} K`,
  glassUsuallyWarmedK: (k) => `  ${k.toFixed(1)} K are usual for its light`,
  heatSinkWarmedK: (k) => `the lamp warmed its heat sink by ${k.toFixed(1)} K`,
  heatSinkUsuallyWarmedK: (k) => `  ${k.toFixed(1)} K are usual for its power`,
  heatSinkCooledK: (k) => `heat sink cooled by ${k.toFixed(1)} K after the lamp`,
  positionsPlanned: (n) => `injector: ${n} positions along the crack`,
  fieldsPlanned: (n) => `lamp: ${n} fields along the crack`,
  clockOffAtMostRatio: (ratio) =>
    `board and host clocks differ by ${(100 * ratio).toFixed(2)} % at most`,
  clockLooks: (n) => `  ${n.toFixed(0)} comparisons`,
  clockComparedS: (s) => `  over ${s.toFixed(0)} s`,
  longestFrameGapS: (s) => `longest time without a frame ${s.toFixed(2)} s`,
  uncountedS: (s) => `counted for nothing between late frames ${s.toFixed(2)} s`,
  shieldSeenOpenS: (s) => `shield seen open at ${clock(s)}`,
  doseUncountedJPerM2: (j) => `light in that time ${joules(j)} J/cm2 at most`,
  lampOnUncountedS: (s) => `lamp on in that time ${s.toFixed(2)} s`,
  openResinDoseJPerM2: (j) => `daylight on open resin ${mJPerCm2FromJPerM2(j).toFixed(0)} mJ/cm2`,
  openResinUnseenJPerM2: (j) =>
    `daylight below threshold ${mJPerCm2FromJPerM2(j).toFixed(0)} mJ/cm2 at most`,
  openResinShareRatio: (share, { resin }) =>
    `  ${percent(share)} % of the setting dose of ${resin}`,
};

function measuredLine({ name, portion, value }: MeasuredValue): string {
  const words = portionWords(portion);
  const line = MEASURED[name](value, words);
  // What is indented belongs to the line above, which has said the portion.
  return line.startsWith(' ') ? line : `${words.prefix}${line}`;
}

const percent = (share: number): string => (100 * share).toFixed(0);
const milliWatts = (w: number): string => mWPerCm2FromWPerM2(w).toFixed(1);
const joules = (j: number): string => joulesPerCm2(j).toFixed(2);

function clock(timeS: number): string {
  const whole = Math.floor(timeS);
  const minutes = String(Math.floor(whole / 60)).padStart(2, '0');
  return `${minutes}:${String(whole % 60).padStart(2, '0')}`;
}
