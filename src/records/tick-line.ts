/**
 * The line of one tick: everything a replay needs of the frame, the requests drained in that tick,
 * and the actuators that the controller answered with. One flat array, because there are twenty a
 * second; numbers are written in full, so that a replay sees the identical doubles.
 *
 *   [sequence, timeS, sampledAtS | null (equals timeS),
 *    pressure, irradiance, glassTemperature, heatSinkTemperature, supplyVoltage (counts | null),
 *    frame bits, pumpRatio, actuator bits, lampRatio, buttons?, requests?]
 *
 *   frame bits: 1 shield closed, 2 over-pressure tripped, 4 emergency stop pressed, 8 link mute
 *   actuator bits: 1 selector at pressure, 2 vent open, 4 lamp enabled
 *   buttons: first letters in order (y, n, m); requests: as they are. Both left out where empty.
 */
import { z } from 'zod';
import { type Actuators, BUTTONS, CHANNELS, type Frame, type Request } from '../frame.ts';
import { choice, wholeNumber } from '../settings.ts';
import { encodeNumber, exactNumber } from './exact-number.ts';

export interface JournalTick {
  readonly frame: Frame;
  readonly requests: readonly Request[];
  readonly actuators: Actuators;
}

const FRAME_BITS = { shieldClosed: 1, overPressureTripped: 2, emergencyStopPressed: 4, mute: 8 };
const ACTUATOR_BITS = { atPressure: 1, ventOpen: 2, lampEnabled: 4 };

const bitsOf = <K extends string>(
  bits: Readonly<Record<K, number>>,
  set: Readonly<Record<K, boolean>>,
): number => (Object.keys(bits) as K[]).reduce((sum, key) => sum + (set[key] ? bits[key] : 0), 0);

export function encodeTick(
  frame: Frame,
  requests: readonly Request[],
  { pumpRatio, selector, ventOpen, lampEnabled, lampRatio }: Actuators,
): string {
  const count = (value: number | null) => (value === null ? null : encodeNumber(value));
  const fields: unknown[] = [
    encodeNumber(frame.sequence),
    encodeNumber(frame.timeS),
    Object.is(frame.sampledAtS, frame.timeS) ? null : encodeNumber(frame.sampledAtS),
    ...CHANNELS.map((channel) => count(frame.counts[channel])),
    bitsOf(FRAME_BITS, { ...frame.switches, mute: frame.link === 'mute' }),
    encodeNumber(pumpRatio),
    bitsOf(ACTUATOR_BITS, { atPressure: selector === 'pressure', ventOpen, lampEnabled }),
    encodeNumber(lampRatio),
  ];
  const buttons = frame.pressed.map((button) => button[0]).join('');
  if (buttons !== '' || requests.length > 0) fields.push(buttons);
  if (requests.length > 0) fields.push(requests);
  return JSON.stringify(fields);
}

const requestSchema: z.ZodType<Request> = z.discriminatedUnion(
  'kind',
  [
    z.strictObject({ kind: z.literal('button'), button: choice(BUTTONS) }),
    z.strictObject({ kind: z.literal('hold') }),
    z.strictObject({
      kind: z.literal('stop'),
      by: choice(['person', 'interrupt']),
      why: z.string(),
    }),
  ],
  { error: 'a request of kind button, hold or stop' },
);

const count = exactNumber.nullable();
const fieldsSchema = z.union(
  [
    z.tuple([
      exactNumber,
      exactNumber,
      exactNumber.nullable(),
      count,
      count,
      count,
      count,
      count,
      wholeNumber(0, 15, ''),
      exactNumber,
      wholeNumber(0, 7, ''),
      exactNumber,
      z
        .string()
        .regex(/^[ynm]*$/)
        .default(''),
      z.array(requestSchema).default([]),
    ]),
  ],
  { error: 'a tick: 12 to 14 fields as the format lists them' },
);

/** A decoded line of JSON to a tick; refuses what `encodeTick` would not have written. */
export const tickSchema = fieldsSchema.transform((fields): JournalTick => {
  const [sequence, timeS, sampledAtS, ...rest] = fields;
  const [pressure, irradiance, glassTemperature, heatSinkTemperature, supplyVoltage] = rest;
  const [, , , , , frameBits, pumpRatio, actuatorBits, lampRatio, letters, requests] = rest;
  const frameHas = (bit: number): boolean => (frameBits & bit) !== 0;
  const actuatorHas = (bit: number): boolean => (actuatorBits & bit) !== 0;
  return {
    frame: {
      sequence,
      timeS,
      sampledAtS: sampledAtS ?? timeS,
      link: frameHas(FRAME_BITS.mute) ? 'mute' : 'up',
      counts: { pressure, irradiance, glassTemperature, heatSinkTemperature, supplyVoltage },
      switches: {
        shieldClosed: frameHas(FRAME_BITS.shieldClosed),
        overPressureTripped: frameHas(FRAME_BITS.overPressureTripped),
        emergencyStopPressed: frameHas(FRAME_BITS.emergencyStopPressed),
      },
      pressed: [...letters].flatMap((letter) => BUTTONS.filter((name) => name[0] === letter)),
    },
    requests,
    actuators: {
      pumpRatio,
      selector: actuatorHas(ACTUATOR_BITS.atPressure) ? 'pressure' : 'vacuum',
      ventOpen: actuatorHas(ACTUATOR_BITS.ventOpen),
      lampEnabled: actuatorHas(ACTUATOR_BITS.lampEnabled),
      lampRatio,
    },
  };
});
