/**
 * The vocabulary of the alarm rows: settings, groups of phases, and what a row may observe. It
 * decides nothing by itself.
 */

import { type Measured, valueOrNull } from '../core/frame.ts';
import { CURE_PHASES, type PhaseId } from '../core/phases.ts';
import type { Phrase } from '../core/phrases.ts';
import type { AlarmContext, Setting } from './alarm-row.ts';
import { amountOf, type Quantity } from './scales.ts';

export const fixed = (value: number): Setting => ({ default: value, min: value, max: value });
export const setting = (value: number, min: number, max: number): Setting => ({
  default: value,
  min,
  max,
});
export const atOnce = setting(0, 0, 0.2);
/** For switches and faults: 0 is normal, 1 is not. */
export const TRUTH = {
  quantity: 'state',
  trips: 'above',
  limit: fixed(0.5),
  deadband: fixed(0),
} as const;

export const always = (): boolean => true;
export const running = ({ batch }: AlarmContext): boolean => batch === 'running';
export const inPhase = (phase: PhaseId) => (c: AlarmContext) => running(c) && c.phase === phase;
export const curing = (c: AlarmContext): boolean => running(c) && CURE_PHASES.has(c.phase);
export const linkUp = ({ reading }: AlarmContext): boolean => reading.link === 'up';
export const truth = (bad: boolean): number => (bad ? 1 : 0);
export const faulty = (measured: Measured): number => truth(!measured.ok);
export const faultText = (measured: Measured): Phrase => ({
  say: measured.ok ? 'a-value' : measured.fault,
});

export function gaugePa({ reading, atmospherePa }: AlarmContext): number | null {
  const pressurePa = valueOrNull(reading.pressurePa);
  return pressurePa === null || atmospherePa === null ? null : pressurePa - atmospherePa;
}

/**
 * The remaining distance from the present pressure to the set-point; negative when it was passed.
 */
export function shortOfSetPointPa(context: AlarmContext): number | null {
  const { reading, setPointPa, atmospherePa } = context;
  const pressurePa = valueOrNull(reading.pressurePa);
  if (pressurePa === null || setPointPa === null || atmospherePa === null) return null;
  return setPointPa < atmospherePa ? pressurePa - setPointPa : setPointPa - pressurePa;
}

export const amountOrNone = (valueSI: number | null, quantity: Quantity): Phrase =>
  valueSI === null ? { say: 'no-reading' } : amountOf(valueSI, quantity);

export const absoluteText = (pa: number | null): Phrase => amountOrNone(pa, 'absolutePressure');

export const pressureText = ({ reading }: AlarmContext): Phrase =>
  absoluteText(valueOrNull(reading.pressurePa));

export const setPointInTime = ({ setPointPa, profile }: AlarmContext): Phrase => ({
  say: 'pressure-in-time',
  with: { pressure: absoluteText(setPointPa), seconds: String(profile.reachWithinS ?? 0) },
});

/** A pressure that must be reached within the phase's own time; the shown value is the pressure. */
export const PRESSURE_IN_TIME = {
  quantity: 'time',
  trips: 'above',
  deadband: fixed(0),
  delayS: atOnce,
  seen: ({ phaseElapsedS }: AlarmContext): number => phaseElapsedS,
  limitSI: ({ profile }: AlarmContext, settingSI: number): number =>
    Math.min(settingSI, profile.reachWithinS ?? settingSI),
  seenText: pressureText,
} as const;
