/**
 * The vocabulary of one tick: what a board measured, what the controller made of it, and what the
 * board is told to do. Plain read-only data; this file decides nothing. Time is always the board's
 * own time in seconds, carried with the data.
 */

/** Analogue channels, in the order in which journals and messages list them. */
export const CHANNELS = [
  'pressure',
  'irradiance',
  'glassTemperature',
  'heatSinkTemperature',
  'supplyVoltage',
] as const;
export type Channel = (typeof CHANNELS)[number];

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

/** A board that was never heard: nothing measured, switches as a broken wire. */
export const NEVER_HEARD: Pick<Frame, 'counts' | 'switches' | 'trips'> = {
  counts: {
    pressure: null,
    irradiance: null,
    glassTemperature: null,
    heatSinkTemperature: null,
    supplyVoltage: null,
  },
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

/** One frame in engineering units (SI; pressure is absolute). */
export interface Reading {
  readonly sequence: number;
  readonly timeS: number;
  readonly hostTimeS: number | null;
  readonly link: Link;
  readonly pressurePa: Measured;
  readonly irradianceWPerM2: Measured;
  readonly glassK: Measured;
  readonly heatSinkK: Measured;
  readonly supplyV: Measured;
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
