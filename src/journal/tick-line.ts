/**
 * The line of one tick: everything a replay needs of the frame, the requests drained in that tick,
 * and the actuators that the controller answered with. One flat array, because there are twenty a
 * second; numbers are written in full, so that a replay sees the identical doubles.
 *
 *   [sequence, timeS, sampledAtS | null (equals timeS),
 *    pressure, irradiance, glassTemperature, heatSinkTemperature, supplyVoltage (counts | null),
 *    frame bits, pumpRatio, actuator bits, lampRatio,
 *    hostTimeS | null (equals timeS), buttons?, requests?]
 *
 *   frame bits: 1 shield closed, 2 over-pressure tripped, 4 emergency stop pressed, 8 link mute,
 *               16 message spoilt, 32 frames missing, from 64 on the trips in the order of TRIPS
 *   actuator bits: 1 selector at pressure, 2 vent open, 4 lamp enabled
 *   buttons: first letters in order (y, n, m); requests: as they are. Both left out where empty.
 *   Older journals lack the host's time; there it is not known.
 */
import { z } from 'zod';
import { encodeNumber, exactNumber } from '../core/exact-number.ts';
import {
  type Actuators,
  BUTTONS,
  type Frame,
  type Request,
  TRIPS,
  type Trip,
} from '../core/frame.ts';
import { choice, wholeNumber } from '../core/settings.ts';

export interface JournalTick {
  readonly frame: Frame;
  readonly requests: readonly Request[];
  readonly actuators: Actuators;
}

const FRAME_BITS = {
  shieldClosed: 1,
  overPressureTripped: 2,
  emergencyStopPressed: 4,
  mute: 8,
  damaged: 16,
  gap: 32,
};
/** From here on one bit for each trip, in the order of TRIPS. */
const FIRST_TRIP_BIT = 64;
const ACTUATOR_BITS = { atPressure: 1, ventOpen: 2, lampEnabled: 4 };
const HIGHEST_FRAME_BITS = FIRST_TRIP_BIT * 2 ** TRIPS.length - 1;
const HIGHEST_ACTUATOR_BITS = 7;
/** Fields of a tick in which nobody pressed or asked for anything, without and with the host's time. */
const OLD_PLAIN_FIELDS = 12;
const PLAIN_FIELDS = 13;

const bit = (on: boolean, value: number): number => (on ? value : 0);

function frameBitsOf({ switches, link, damaged, gap, trips }: Frame): number {
  return (
    tripBitsOf(trips) +
    bit(damaged, FRAME_BITS.damaged) +
    bit(gap, FRAME_BITS.gap) +
    bit(switches.shieldClosed, FRAME_BITS.shieldClosed) +
    bit(switches.overPressureTripped, FRAME_BITS.overPressureTripped) +
    bit(switches.emergencyStopPressed, FRAME_BITS.emergencyStopPressed) +
    bit(link === 'mute', FRAME_BITS.mute)
  );
}

function tripBitsOf(trips: readonly Trip[]): number {
  return trips.reduce((bits, trip) => bits + FIRST_TRIP_BIT * 2 ** TRIPS.indexOf(trip), 0);
}

const NO_TRIPS: readonly Trip[] = [];

function tripsOf(frameBits: number): readonly Trip[] {
  if (frameBits < FIRST_TRIP_BIT) return NO_TRIPS;
  return TRIPS.filter((_, index) => (frameBits & (FIRST_TRIP_BIT * 2 ** index)) !== 0);
}

function actuatorBitsOf({ selector, ventOpen, lampEnabled }: Actuators): number {
  return (
    bit(selector === 'pressure', ACTUATOR_BITS.atPressure) +
    bit(ventOpen, ACTUATOR_BITS.ventOpen) +
    bit(lampEnabled, ACTUATOR_BITS.lampEnabled)
  );
}

/** A number as JSON has it, or one of the words for what JSON has no number for. */
const jsonOf = (value: number): string =>
  Number.isFinite(value) && !Object.is(value, -0) ? String(value) : `"${encodeNumber(value)}"`;
const jsonOfCount = (value: number | null): string => (value === null ? 'null' : jsonOf(value));

/** Left out where it is not known, so that an older line is written as it was read. */
function hostTimeField({ hostTimeS, timeS }: Frame): string {
  if (hostTimeS === null) return '';
  return `,${Object.is(hostTimeS, timeS) ? 'null' : jsonOf(hostTimeS)}`;
}

export function encodeTick(
  frame: Frame,
  requests: readonly Request[],
  actuators: Actuators,
): string {
  const { counts, sampledAtS, timeS } = frame;
  const plain =
    `${jsonOf(frame.sequence)},${jsonOf(timeS)},` +
    `${Object.is(sampledAtS, timeS) ? 'null' : jsonOf(sampledAtS)},` +
    `${jsonOfCount(counts.pressure)},${jsonOfCount(counts.irradiance)},` +
    `${jsonOfCount(counts.glassTemperature)},${jsonOfCount(counts.heatSinkTemperature)},` +
    `${jsonOfCount(counts.supplyVoltage)},${frameBitsOf(frame)},${jsonOf(actuators.pumpRatio)},` +
    `${actuatorBitsOf(actuators)},${jsonOf(actuators.lampRatio)}${hostTimeField(frame)}`;
  if (frame.pressed.length === 0 && requests.length === 0) return `[${plain}]`;
  const buttons = JSON.stringify(frame.pressed.map((button) => button[0]).join(''));
  return requests.length === 0
    ? `[${plain},${buttons}]`
    : `[${plain},${buttons},${JSON.stringify(requests)}]`;
}

const requestSchema: z.ZodType<Request> = z.discriminatedUnion(
  'kind',
  [
    z.strictObject({ kind: z.literal('button'), button: choice(BUTTONS) }),
    z.strictObject({ kind: z.literal('hold') }),
    z.strictObject({ kind: z.literal('enter'), valueSI: exactNumber }),
    z.strictObject({
      kind: z.literal('stop'),
      by: choice(['person', 'interrupt']),
      why: z.string(),
    }),
  ],
  { error: 'a request of kind button, hold, enter or stop' },
);

const count = exactNumber.nullable();
const plainFields = [
  exactNumber,
  exactNumber,
  exactNumber.nullable(),
  count,
  count,
  count,
  count,
  count,
  wholeNumber(0, HIGHEST_FRAME_BITS, ''),
  exactNumber,
  wholeNumber(0, HIGHEST_ACTUATOR_BITS, ''),
  exactNumber,
] as const;
const letters = z
  .string()
  .regex(/^[ynm]*$/)
  .default('');
const requests = z.array(requestSchema).default([]);
const NOT_KNOWN = undefined;

const fieldsSchema = z.union(
  [
    z.tuple([...plainFields, exactNumber.nullable(), letters, requests]),
    z.tuple([...plainFields, letters, requests]).transform((fields): Fields => {
      const plain = fields.slice(0, OLD_PLAIN_FIELDS) as OldPlainFields;
      return [...plain, NOT_KNOWN, fields[12], fields[13]];
    }),
  ],
  { error: 'a tick: 12 to 15 fields as the format lists them' },
);

/** A decoded line of JSON to a tick; refuses what `encodeTick` would not have written. */
export const tickSchema = fieldsSchema.transform(tickOf);

/**
 * The common tick, with plain numbers and nobody pressing anything, checked by hand: there are
 * twenty a second and the schema takes most of a reader's time. Null for every other line, which is
 * for the schema to take or refuse.
 */
export function plainTick(fields: readonly unknown[]): JournalTick | null {
  if (fields.length !== PLAIN_FIELDS && fields.length !== OLD_PLAIN_FIELDS) return null;
  for (const [index, field] of fields.entries()) {
    const mayBeNull = (index >= 2 && index <= 7) || index === OLD_PLAIN_FIELDS;
    if (!Number.isFinite(field) && !(mayBeNull && field === null)) return null;
  }
  const [frameBits, , actuatorBits] = fields.slice(8) as number[];
  const isSound =
    isBits(frameBits, HIGHEST_FRAME_BITS) && isBits(actuatorBits, HIGHEST_ACTUATOR_BITS);
  if (!isSound) return null;
  const plain = fields.slice(0, OLD_PLAIN_FIELDS) as OldPlainFields;
  const hostTimeS = fields[OLD_PLAIN_FIELDS] as number | null | undefined;
  return tickOf([...plain, hostTimeS, '', []]);
}

const isBits = (value: number | undefined, highest: number): boolean =>
  value !== undefined && Number.isInteger(value) && value >= 0 && value <= highest;

type OldPlainFields = [
  sequence: number,
  timeS: number,
  sampledAtS: number | null,
  pressure: number | null,
  irradiance: number | null,
  glassTemperature: number | null,
  heatSinkTemperature: number | null,
  supplyVoltage: number | null,
  frameBits: number,
  pumpRatio: number,
  actuatorBits: number,
  lampRatio: number,
];
/** The host's time is null where it equals the board's, and undefined where it is not known. */
type Fields = [...OldPlainFields, number | null | undefined, string, Request[]];

function tickOf(fields: Fields): JournalTick {
  const [sequence, timeS, sampledAtS, ...rest] = fields;
  const [pressure, irradiance, glassTemperature, heatSinkTemperature, supplyVoltage] = rest;
  const [, , , , , frameBits, pumpRatio, actuatorBits, lampRatio, hostTimeS, letters, requests] =
    rest;
  const frameHas = (bit: number): boolean => (frameBits & bit) !== 0;
  const actuatorHas = (bit: number): boolean => (actuatorBits & bit) !== 0;
  return {
    frame: {
      sequence,
      timeS,
      hostTimeS: hostTimeS === undefined ? null : (hostTimeS ?? timeS),
      sampledAtS: sampledAtS ?? timeS,
      link: frameHas(FRAME_BITS.mute) ? 'mute' : 'up',
      counts: { pressure, irradiance, glassTemperature, heatSinkTemperature, supplyVoltage },
      switches: {
        shieldClosed: frameHas(FRAME_BITS.shieldClosed),
        overPressureTripped: frameHas(FRAME_BITS.overPressureTripped),
        emergencyStopPressed: frameHas(FRAME_BITS.emergencyStopPressed),
      },
      pressed: [...letters].flatMap((letter) => BUTTONS.filter((name) => name[0] === letter)),
      trips: tripsOf(frameBits),
      damaged: frameHas(FRAME_BITS.damaged),
      gap: frameHas(FRAME_BITS.gap),
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
}
