/**
 * The last word on every output. Whatever regulation or procedure asked for is made safe here when
 * the batch is not running, an alarm that holds or aborts is in force, an interlock is open, or a
 * value is invalid. This is the only place that forces safe outputs, so only one place needs
 * review. It passes outputs or stops them; it never starts anything.
 */

import type { BatchState } from '../core/events.ts';
import { type Actuators, type Reading, SAFE } from '../core/frame.ts';
import { CURE_PHASES, type PhaseId } from '../core/phases.ts';

export interface GuardContext {
  readonly batch: BatchState;
  readonly phase: PhaseId;
  readonly reading: Reading;
  /** True while any alarm whose action is hold or abort is in force. */
  readonly alarmStops: boolean;
  /** The shield was seen open before this cure, so that its contact is believed. */
  readonly shieldShown: boolean;
}

export function guard(wanted: Actuators, context: GuardContext): Actuators {
  const { batch, reading, alarmStops } = context;
  const { emergencyStopPressed, overPressureTripped } = reading.switches;
  const stop =
    batch !== 'running' ||
    alarmStops ||
    emergencyStopPressed ||
    overPressureTripped ||
    reading.link !== 'up' ||
    !isRatio(wanted.pumpRatio) ||
    !isRatio(wanted.lampRatio);
  if (stop) return SAFE;
  return guardLamp(guardAir(wanted, reading), context);
}

/** No closed chamber and no pump without a valid pressure. */
function guardAir(wanted: Actuators, { pressurePa }: Reading): Actuators {
  if (pressurePa.ok) return wanted;
  return { ...wanted, pumpRatio: SAFE.pumpRatio, ventOpen: SAFE.ventOpen };
}

/**
 * The lamp stays off while the shield is open or not shown to open, outside the cure, and without
 * its two sensors.
 */
function guardLamp(wanted: Actuators, { phase, reading, shieldShown }: GuardContext): Actuators {
  const permitted =
    CURE_PHASES.has(phase) &&
    reading.switches.shieldClosed &&
    shieldShown &&
    reading.heatSinkK.ok &&
    reading.irradianceWPerM2.ok;
  // For most of a job the lamp is not requested at all.
  return permitted || !(wanted.lampEnabled || wanted.lampRatio > 0)
    ? wanted
    : { ...wanted, lampEnabled: false, lampRatio: SAFE.lampRatio };
}

const isRatio = (value: number): boolean => value >= 0 && value <= 1;
