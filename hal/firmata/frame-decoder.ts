/**
 * Decodes the unit's frame message into counts, switches, presses, trips and acting outputs. Pure.
 * Decoding needs the counters of the last frame: presses are counted, a gap shows in the sequence
 * numbers, and a restarted board resets them all. board-time.ts assigns the frame's time.
 */
import {
  BUTTONS,
  type Button,
  CHANNELS,
  type Channel,
  type Frame,
  FULL_SCALE_COUNTS,
  type LadderReading,
  perChannel,
  type Trip,
} from '../../src/core/frame.ts';
import {
  ACTING_BITS,
  decodeFields,
  type Fields,
  FRAME_LAYOUT,
  LADDER_STEPS,
  PRESS_SHIFT,
  SWITCH_BITS,
  TRIP_BITS,
} from './protocol.ts';

export type FrameFields = Fields<typeof FRAME_LAYOUT>;

/** What the board reports it is doing now, whatever was requested. */
export interface Acting {
  readonly selectorPressure: boolean;
  readonly ventOpen: boolean;
  readonly lampEnabled: boolean;
  readonly leased: boolean;
  readonly displayAnswers: boolean;
  /** The limits in force are those that a host has sent. */
  readonly hostLimits: boolean;
  /** 0 to 255. */
  readonly pumpDuty: number;
  readonly lampDuty: number;
}

export interface Sample {
  readonly boardMs: number;
  readonly counts: Readonly<Record<Channel, number>>;
  readonly switches: Frame['switches'];
  readonly pressed: readonly Button[];
  readonly ladder: LadderReading | null;
  readonly trips: readonly Trip[];
  readonly acting: Acting;
  /** The board has refused one of our messages since the last frame, by its own count. */
  readonly hostDamaged: boolean;
  /** Missing frames of the board, damaged ones included. */
  readonly missing: number;
}

/** The counters of the last frame; null before the first one and after a restart. */
export type Counters = Pick<FrameFields, 'sequence' | 'presses' | 'badMessages'> | null;

export interface DecodedFrame {
  readonly counters: Counters;
  readonly sample: Sample;
}

const SEQUENCES = 128 ** 2;
const PRESSES = 4;

/** The fields of a frame message; null when it is not one or a value is out of range. */
export function readFrame(body: readonly number[]): FrameFields | null {
  const fields = decodeFields(FRAME_LAYOUT, body);
  const inRange =
    fields !== null &&
    CHANNELS.every((channel) => fields[channel] <= FULL_SCALE_COUNTS) &&
    fields.ladder < LADDER_STEPS.length &&
    fields.timeMs < 2 ** 32;
  return inRange ? fields : null;
}

/**
 * `last` is null for the first frame of a connection and after a restart: there is nothing to
 * compare with.
 */
export function decodeFrame(last: Counters, fields: FrameFields): DecodedFrame {
  const { sequence, presses, badMessages } = fields;
  return {
    counters: { sequence, presses, badMessages },
    sample: {
      boardMs: fields.timeMs,
      counts: perChannel((channel) => fields[channel]),
      switches: {
        shieldClosed: has(fields.switches, SWITCH_BITS.shieldClosed),
        overPressureTripped: has(fields.switches, SWITCH_BITS.overPressureTripped),
        emergencyStopPressed: has(fields.switches, SWITCH_BITS.emergencyStopPressed),
      },
      pressed: last === null ? [] : pressedSince(last.presses, presses),
      ladder: LADDER_STEPS[fields.ladder] ?? null,
      trips: TRIP_BITS.filter((_, bit) => has(fields.trips, 2 ** bit)),
      acting: actingOf(fields),
      hostDamaged: last !== null && badMessages !== last.badMessages,
      missing: last === null ? 0 : (sequence - last.sequence - 1 + 2 * SEQUENCES) % SEQUENCES,
    },
  };
}

const has = (field: number, bit: number): boolean => (field & bit) !== 0;

/** Repeats each button by the advance of its counter; buttons in the vocabulary's order. */
function pressedSince(before: number, now: number): Button[] {
  return BUTTONS.flatMap((button) => {
    const shift = PRESS_SHIFT[button];
    const times = ((now >> shift) - (before >> shift) + PRESSES ** BUTTONS.length) % PRESSES;
    return Array.from({ length: times }, () => button);
  });
}

function actingOf({ acting, pump, lamp }: FrameFields): Acting {
  return {
    selectorPressure: has(acting, ACTING_BITS.selectorPressure),
    ventOpen: has(acting, ACTING_BITS.ventOpen),
    lampEnabled: has(acting, ACTING_BITS.lampEnabled),
    leased: has(acting, ACTING_BITS.leased),
    displayAnswers: has(acting, ACTING_BITS.displayAnswers),
    hostLimits: has(acting, ACTING_BITS.hostLimits),
    pumpDuty: pump,
    lampDuty: lamp,
  };
}

/** Pump off, vent open, lamp off: what the pins do, not what was requested. */
export const actsSafely = ({ pumpDuty, lampDuty, ...acting }: Acting): boolean =>
  pumpDuty === 0 && lampDuty === 0 && acting.ventOpen && !acting.lampEnabled;
