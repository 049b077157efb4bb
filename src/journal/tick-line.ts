/**
 * The line of one tick: everything a replay needs of the frame, the requests drained in that tick,
 * and the actuators with which the controller answered. It is one flat array, because there are
 * twenty a second. Numbers are written in full, so that a replay sees identical doubles. The header
 * names the columns:
 *
 *   sequence, timeS
 *   sampledAtS     null when equal to timeS
 *   one a channel  counts, or null when none was ever taken
 *   frameBits      1 shield closed, 2 over-pressure tripped, 4 emergency stop pressed, 8 link mute,
 *                  16 message damaged, 32 frames missing, from 64 on one bit a trip, as in TRIPS
 *   pumpRatio
 *   actuatorBits   1 selector at pressure, 2 vent open, 4 lamp enabled
 *   lampRatio
 *   hostTimeS      null when equal to timeS, "unknown" when it is not known
 *   ladder         first letter of the button that is down; empty for none, ? for a reading between
 *                  two, ! for an open wire, null when it is not known
 *   buttons        first letters in order (h, y, n, m) of those that went down
 *   requests       unchanged; trailing empty ones of these three columns are left out
 */
import { z } from 'zod';
import { encodeNumber, exactNumber } from '../core/exact-number.ts';
import {
  type Actuators,
  BUTTONS,
  CHANNELS,
  type Frame,
  LADDER_READINGS,
  type LadderReading,
  perChannel,
  type Request,
  TRIPS,
  type Trip,
} from '../core/frame.ts';
import { choice, wholeNumber } from '../core/settings.ts';
import { COLUMNS, type Column } from './columns.ts';

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
/** From this bit on, one bit for each trip in the order of TRIPS. */
const FIRST_TRIP_BIT = 64;
const ACTUATOR_BITS = { atPressure: 1, ventOpen: 2, lampEnabled: 4 };
const HIGHEST_FRAME_BITS = FIRST_TRIP_BIT * 2 ** TRIPS.length - 1;
const HIGHEST_ACTUATOR_BITS = 7;
/** Stands for the host's time when it is not known. */
export const UNKNOWN_TIME = 'unknown';
/** Pattern of the buttons column. */
export const LETTERS = /^[hynm]*$/;
const LADDER_SIGNS: Readonly<Record<LadderReading, string>> = {
  released: '',
  hold: 'h',
  yes: 'y',
  no: 'n',
  more: 'm',
  between: '?',
  open: '!',
};

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

/** A number in JSON, or the word for one that JSON cannot express. */
const jsonOf = (value: number): string =>
  Number.isFinite(value) && !Object.is(value, -0) ? String(value) : `"${encodeNumber(value)}"`;
const jsonOfCount = (value: number | null): string => (value === null ? 'null' : jsonOf(value));

function jsonOfHostTime({ hostTimeS, timeS }: Frame): string {
  if (hostTimeS === null) return `"${UNKNOWN_TIME}"`;
  return Object.is(hostTimeS, timeS) ? 'null' : jsonOf(hostTimeS);
}

/** Writes the columns in the order of COLUMNS. */
export function encodeTick(
  frame: Frame,
  requests: readonly Request[],
  actuators: Actuators,
): string {
  const { counts, sampledAtS, timeS } = frame;
  const plain =
    `${jsonOf(frame.sequence)},${jsonOf(timeS)},` +
    `${Object.is(sampledAtS, timeS) ? 'null' : jsonOf(sampledAtS)},` +
    `${CHANNELS.map((channel) => jsonOfCount(counts[channel])).join(',')},` +
    `${frameBitsOf(frame)},${jsonOf(actuators.pumpRatio)},${actuatorBitsOf(actuators)},` +
    `${jsonOf(actuators.lampRatio)},${jsonOfHostTime(frame)}`;
  if (frame.ladder === 'released' && frame.pressed.length === 0 && requests.length === 0) {
    return `[${plain}]`;
  }
  const ladder = JSON.stringify(frame.ladder === null ? null : LADDER_SIGNS[frame.ladder]);
  if (frame.pressed.length === 0 && requests.length === 0) return `[${plain},${ladder}]`;
  const buttons = JSON.stringify(frame.pressed.map((button) => button[0]).join(''));
  return requests.length === 0
    ? `[${plain},${ladder},${buttons}]`
    : `[${plain},${ladder},${buttons},${JSON.stringify(requests)}]`;
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

const fields = {
  sequence: exactNumber,
  timeS: exactNumber,
  sampledAtS: exactNumber.nullable(),
  ...perChannel(() => exactNumber.nullable()),
  frameBits: wholeNumber(0, HIGHEST_FRAME_BITS, ''),
  pumpRatio: exactNumber,
  actuatorBits: wholeNumber(0, HIGHEST_ACTUATOR_BITS, ''),
  lampRatio: exactNumber,
  hostTimeS: z.union([exactNumber, z.null(), z.literal(UNKNOWN_TIME)], {
    error: `a number, null or "${UNKNOWN_TIME}"`,
  }),
  ladder: z
    .enum(Object.values(LADDER_SIGNS), { error: 'h, y, n, m, ?, !, nothing or null' })
    .nullable()
    .default(''),
  buttons: z.string().regex(LETTERS, { error: 'letters of h, y, n and m' }).default(''),
  requests: z.array(requestSchema).default([]),
} satisfies Readonly<Record<Column, z.ZodType>>;
const fieldsSchema = z.strictObject(fields);
type Fields = z.infer<typeof fieldsSchema>;

/** Converts a tick's fields to the tick; refuses what `encodeTick` would not have written. */
export const tickSchema = fieldsSchema.transform(tickOf);

export type NamedFields = Record<string, unknown>;

/**
 * A line's values by column name. A channel without a column did not exist yet, so it has no
 * samples. Values past the last column are named by their number.
 */
export function fieldNamer(
  columns: readonly Column[],
): (values: readonly unknown[]) => NamedFields {
  const notThereYet = CHANNELS.filter((channel) => !columns.includes(channel));
  const tellsOfLadder = columns.includes('ladder');
  return (values) => {
    const named: NamedFields = {};
    for (let index = 0; index < values.length; index++) {
      named[columns[index] ?? index] = values[index];
    }
    for (const channel of notThereYet) named[channel] = null;
    if (!tellsOfLadder) named['ladder'] = null;
    return named;
  };
}

const NUMBERS = ['sequence', 'timeS', 'pumpRatio', 'lampRatio'] as const;
const NUMBERS_OR_NULL = ['sampledAtS', ...CHANNELS] as const;

/**
 * The common tick, with plain numbers and no button pressed, checked by hand: there are twenty a
 * second, and the schema takes most of a reader's time. Null for every other line, which the schema
 * accepts or refuses.
 */
export function plainTick(named: NamedFields): JournalTick | null {
  const { frameBits, actuatorBits, hostTimeS, ladder, buttons, requests } = named;
  const leftOut = ladder === undefined ? 3 : 2;
  const isPlain =
    (ladder === undefined || ladder === null) &&
    buttons === undefined &&
    requests === undefined &&
    Object.keys(named).length === COLUMNS.length - leftOut &&
    NUMBERS.every((name) => Number.isFinite(named[name])) &&
    NUMBERS_OR_NULL.every((name) => named[name] === null || Number.isFinite(named[name])) &&
    (hostTimeS === null || hostTimeS === UNKNOWN_TIME || Number.isFinite(hostTimeS)) &&
    isBits(frameBits, HIGHEST_FRAME_BITS) &&
    isBits(actuatorBits, HIGHEST_ACTUATOR_BITS);
  if (!isPlain) return null;
  if (ladder === undefined) named['ladder'] = '';
  named['buttons'] = '';
  named['requests'] = [];
  return tickOf(named as Fields);
}

const ladderOf = (sign: string | null): LadderReading | null =>
  LADDER_READINGS.find((reading) => LADDER_SIGNS[reading] === sign) ?? null;

const isBits = (value: unknown, highest: number): boolean =>
  typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= highest;

function tickOf(fields: Fields): JournalTick {
  const { sequence, timeS, frameBits, pumpRatio, actuatorBits, lampRatio, requests } = fields;
  const frameHas = (bit: number): boolean => (frameBits & bit) !== 0;
  const actuatorHas = (bit: number): boolean => (actuatorBits & bit) !== 0;
  return {
    frame: {
      sequence,
      timeS,
      hostTimeS: fields.hostTimeS === UNKNOWN_TIME ? null : (fields.hostTimeS ?? timeS),
      sampledAtS: fields.sampledAtS ?? timeS,
      link: frameHas(FRAME_BITS.mute) ? 'mute' : 'up',
      counts: perChannel((channel) => fields[channel]),
      switches: {
        shieldClosed: frameHas(FRAME_BITS.shieldClosed),
        overPressureTripped: frameHas(FRAME_BITS.overPressureTripped),
        emergencyStopPressed: frameHas(FRAME_BITS.emergencyStopPressed),
      },
      pressed: [...fields.buttons].flatMap((letter) =>
        BUTTONS.filter((name) => name[0] === letter),
      ),
      ladder: ladderOf(fields.ladder),
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
