/**
 * The vocabulary of one tick: what a board measured, what the controller made of it, and what the
 * board is told to do. Plain read-only data; this file decides nothing. Time is always the board's
 * own time in seconds, carried with the data.
 */

/** One analogue channel of the board, by the name that its pin has in the pin map. */
interface ChannelRow {
  /** The field of `Reading` that its counts become; its name says the unit. */
  readonly reading: string;
  /** The journal's version that first had a column for it. */
  readonly inJournalSince: number;
}

/**
 * The one table of channels. Its order is that of the frame message and of the journal's columns.
 * What a channel needs elsewhere stands in records over its name, so that none can be forgotten.
 */
export const CHANNEL_ROWS = {
  pressure: { reading: 'pressurePa', inJournalSince: 1 },
  irradiance: { reading: 'irradianceWPerM2', inJournalSince: 1 },
  glassTemperature: { reading: 'glassK', inJournalSince: 1 },
  heatSinkTemperature: { reading: 'heatSinkK', inJournalSince: 1 },
  supplyVoltage: { reading: 'supplyV', inJournalSince: 1 },
} as const satisfies Readonly<Record<string, ChannelRow>>;
export type Channel = keyof typeof CHANNEL_ROWS;
export type ReadingKey = (typeof CHANNEL_ROWS)[Channel]['reading'];

/** In the order of the table. */
export const CHANNELS = Object.keys(CHANNEL_ROWS) as unknown as readonly [Channel, ...Channel[]];

/** One value for each channel. A loop, because boards and controller do this in every tick. */
export function perChannel<T>(of: (channel: Channel) => T): Record<Channel, T> {
  const values = {} as Record<Channel, T>;
  for (const channel of CHANNELS) values[channel] = of(channel);
  return values;
}

/** Largest count of the 10-bit converter. */
export const FULL_SCALE_COUNTS = 1023;

export const BUTTONS = ['yes', 'no', 'more'] as const;
export type Button = (typeof BUTTONS)[number];

/** Switches as the board reports them; a broken wire reads as the unsafe position. */
export interface Switches {
  readonly shieldClosed: boolean;
  readonly overPressureTripped: boolean;
  readonly emergencyStopPressed: boolean;
}

/** Protection on the board itself that has tripped; it stays so until it is cleared. */
export const TRIPS = [
  'emergency-stop',
  'over-pressure-switch',
  'pressure-ceiling',
  'pressure-sensor',
  'shield',
  'heat-sink',
  'lamp-time',
  'watchdog',
  'settings',
] as const;
export type Trip = (typeof TRIPS)[number];

/** `mute`: the board is open but nothing new has come from it; `sampledAtS` shows since when. */
export type Link = 'up' | 'mute';

/** What a board measured in one tick: raw counts, 0 to 1023, or null where none was ever taken. */
export interface Frame {
  readonly sequence: number;
  /** Time of this tick. */
  readonly timeS: number;
  /**
   * The host's own monotonic time at which this frame arrived, handed in by the link, s; null where
   * nobody knows it, as in older journals.
   */
  readonly hostTimeS: number | null;
  /** When the counts and switches were sampled, all together; equals `timeS` while the link is up. */
  readonly sampledAtS: number;
  readonly link: Link;
  readonly counts: Readonly<Record<Channel, number | null>>;
  readonly switches: Switches;
  /** Buttons that went down since the last frame, in order. */
  readonly pressed: readonly Button[];
  readonly trips: readonly Trip[];
  /** A message was spoilt on its way, in either direction, since the last frame. */
  readonly damaged: boolean;
  /** Frames that the board sent since the last one never arrived, beyond those that were spoilt. */
  readonly gap: boolean;
}

/** The kind of a board with hardware, as records name it. A record of any other kind is of no real job. */
export const HARDWARE_BOARD = 'bench board';

/** A board that was never heard: nothing measured, switches as a broken wire. */
export const NEVER_HEARD: Pick<Frame, 'counts' | 'switches' | 'trips'> = {
  counts: perChannel(() => null),
  switches: { shieldClosed: false, overPressureTripped: true, emergencyStopPressed: true },
  trips: [],
};

export const CHANNEL_FAULTS = ['stale', 'out-of-range', 'implausible', 'missing'] as const;
export type ChannelFault = (typeof CHANNEL_FAULTS)[number];

/** A value with the time it was taken, or the reason why there is none. */
export type Measured =
  | { readonly ok: true; readonly value: number; readonly takenAtS: number }
  | { readonly ok: false; readonly fault: ChannelFault };

/** The value, or null where there is none to be believed. */
export const valueOrNull = (measured: Measured): number | null =>
  measured.ok ? measured.value : null;

/** What each channel measured, in engineering units (SI; pressure is absolute). */
export type Readings = Readonly<Record<ReadingKey, Measured>>;

/** One frame in engineering units. */
export interface Reading extends Readings {
  readonly sequence: number;
  readonly timeS: number;
  readonly hostTimeS: number | null;
  readonly link: Link;
  readonly switches: Switches;
  readonly pressed: readonly Button[];
  readonly trips: readonly Trip[];
  readonly damaged: boolean;
  readonly gap: boolean;
}

export type Selector = 'vacuum' | 'pressure';

/** Everything that can do harm. */
export interface Actuators {
  /** Pump drive, 0 (off) to 1 (full). */
  readonly pumpRatio: number;
  readonly selector: Selector;
  /** The vent is normally open: true is its unpowered position. */
  readonly ventOpen: boolean;
  readonly lampEnabled: boolean;
  /** Lamp drive, 0 (off) to 1 (full); without effect while the lamp is not enabled. */
  readonly lampRatio: number;
}

/** Whether the lamp gives light by what it is told. */
export const lampBurns = ({ lampEnabled, lampRatio }: Actuators): boolean =>
  lampEnabled && lampRatio > 0;

/** The one safe state: pump off, vent open, lamp off. */
export const SAFE: Actuators = {
  pumpRatio: 0,
  selector: 'vacuum',
  ventOpen: true,
  lampEnabled: false,
  lampRatio: 0,
};

/** Whether nothing moves or shines: the safe state, wherever the selector stands. */
export const isSafe = ({ pumpRatio, ventOpen, lampEnabled, lampRatio }: Actuators): boolean =>
  pumpRatio === 0 && ventOpen && !lampEnabled && lampRatio === 0;

/** Colours by meaning, as IEC 60073 assigns them: danger, abnormal, normal, person must act. */
export type StatusColour = 'off' | 'red' | 'yellow' | 'green' | 'blue';
export type Buzzer = 'off' | 'once' | 'repeating';

export const DISPLAY_COLUMNS = 20;
/** Four lines of exactly 20 characters. */
export type DisplayLines = readonly [string, string, string, string];

export interface Signals {
  readonly buzzer: Buzzer;
  readonly status: { readonly colour: StatusColour; readonly flashing: boolean };
  readonly display: DisplayLines;
}

/** The whole picture of every output, every tick, never a difference. */
export interface Outputs extends Actuators, Signals {
  /** Asks the board to clear what has tripped; it does so only where the cause is gone and all of
   * these outputs are safe. */
  readonly clearTrips: boolean;
}

/** What people and the console ask for besides the board's own buttons; drained once a tick. */
export type Request =
  | { readonly kind: 'button'; readonly button: Button }
  | { readonly kind: 'hold' }
  /** A number that was typed, as it was asked for, SI. */
  | { readonly kind: 'enter'; readonly valueSI: number }
  /** `interrupt`: the program itself is being ended, so nobody will read an end screen. */
  | { readonly kind: 'stop'; readonly by: 'person' | 'interrupt'; readonly why: string };
