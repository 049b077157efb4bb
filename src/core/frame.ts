/**
 * The vocabulary of one tick: the board's measurements, the controller's readings, and the outputs
 * sent to the board. Plain read-only data; this file decides nothing. Time is always the board's
 * own time in seconds, carried with the data.
 */

/** One analogue channel of the board, named as in the pin map. */
interface ChannelRow {
  /** The field of `Reading` for its converted counts; the name states the unit. */
  readonly reading: string;
  /** The first journal version with a column for it. */
  readonly inJournalSince: number;
}

/**
 * The only table of channels. Its order is that of the frame message and of the journal's columns.
 * Further data on channels are in records keyed by these names, so that none can be forgotten.
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

/** One value for each channel. A loop, because boards and controller call this every tick. */
export function perChannel<T>(of: (channel: Channel) => T): Record<Channel, T> {
  const values = {} as Record<Channel, T>;
  for (const channel of CHANNELS) values[channel] = of(channel);
  return values;
}

/** Largest count of the 10-bit converter. */
export const FULL_SCALE_COUNTS = 1023;

/** HOLD comes first: of presses in one frame it is heeded before all others. */
export const BUTTONS = ['hold', 'yes', 'no', 'more'] as const;
export type Button = (typeof BUTTONS)[number];

/**
 * What the ladder of the buttons reads: nothing down, one button, a value that belongs to no button
 * (two at once, or a part that has drifted), or a wire that is cut off.
 */
export const LADDER_READINGS = ['released', ...BUTTONS, 'between', 'open'] as const;
export type LadderReading = (typeof LADDER_READINGS)[number];

/** Switches as the board reports them; a broken wire reads as the unsafe position. */
export interface Switches {
  readonly shieldClosed: boolean;
  readonly overPressureTripped: boolean;
  readonly emergencyStopPressed: boolean;
}

/** Tripped protection on the board itself; it stays tripped until it is cleared. */
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
  'glass-hot',
  'memory',
  'program',
  'output-pins',
  'converter',
  'registers',
  'restart-unknown',
  'restart-loop',
] as const;
export type Trip = (typeof TRIPS)[number];
/** The switches that no repair moves: a person opens them on purpose for their proof. */
export type ProvedSwitch = Extract<Trip, 'emergency-stop' | 'over-pressure-switch'>;

/** `mute`: the board is open but sends nothing new; `sampledAtS` is the time of its last sample. */
export type Link = 'up' | 'mute';

/** A board's measurements in one tick: raw counts, 0 to 1023, or null when none was ever taken. */
export interface Frame {
  readonly sequence: number;
  /** Time of this tick. */
  readonly timeS: number;
  /**
   * The host's own monotonic time at which this frame arrived, provided by the link, s; null when
   * unknown, as in older journals.
   */
  readonly hostTimeS: number | null;
  /** When counts and switches were sampled, all together; equals `timeS` while the link is up. */
  readonly sampledAtS: number;
  readonly link: Link;
  readonly counts: Readonly<Record<Channel, number | null>>;
  readonly switches: Switches;
  /** Buttons that went down since the last frame, in order. */
  readonly pressed: readonly Button[];
  /** As of the sample; null when it is not known, as in older journals. */
  readonly ladder: LadderReading | null;
  readonly trips: readonly Trip[];
  /** A message in either direction was damaged since the last frame. */
  readonly damaged: boolean;
  /** Frames since the last one are missing, beyond those that arrived damaged. */
  readonly gap: boolean;
}

/** The kind of a board with hardware, as records name it. A record of any other kind is of no real job. */
export const HARDWARE_BOARD = 'bench board';

/** A board never heard from: nothing measured, switches as with a broken wire. */
export const NEVER_HEARD: Pick<Frame, 'counts' | 'switches' | 'ladder' | 'trips'> = {
  counts: perChannel(() => null),
  ladder: null,
  switches: { shieldClosed: false, overPressureTripped: true, emergencyStopPressed: true },
  trips: [],
};

export const CHANNEL_FAULTS = ['stale', 'out-of-range', 'implausible', 'missing'] as const;
export type ChannelFault = (typeof CHANNEL_FAULTS)[number];

/** A value with its sampling time, or the reason why there is none. */
export type Measured =
  | { readonly ok: true; readonly value: number; readonly takenAtS: number }
  | { readonly ok: false; readonly fault: ChannelFault };

/** The value, or null when there is no credible one. */
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
  readonly ladder: LadderReading | null;
  readonly trips: readonly Trip[];
  readonly damaged: boolean;
  readonly gap: boolean;
}

export type Selector = 'vacuum' | 'pressure';

/** All outputs that can do harm. */
export interface Actuators {
  /** Pump drive, 0 (off) to 1 (full). */
  readonly pumpRatio: number;
  readonly selector: Selector;
  /** The vent is normally open: true is its unpowered position. */
  readonly ventOpen: boolean;
  readonly lampEnabled: boolean;
  /** Lamp drive, 0 (off) to 1 (full); ineffective while the lamp is not enabled. */
  readonly lampRatio: number;
}

/** Whether these outputs make the lamp give light. */
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

/** Whether nothing moves or shines: the safe state, with the selector in either position. */
export const isSafe = ({ pumpRatio, ventOpen, lampEnabled, lampRatio }: Actuators): boolean =>
  pumpRatio === 0 && ventOpen && !lampEnabled && lampRatio === 0;

/** Colours by their meaning in IEC 60073: danger, abnormal, normal, person must act. */
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

/** The complete set of outputs, sent every tick and never as a difference. */
export interface Outputs extends Actuators, Signals {
  /**
   * Asks the board to clear its trips. It clears one only when the cause is gone and all of these
   * outputs are safe.
   */
  readonly clearTrips: boolean;
}

/** Requests from people and the console besides the board's own buttons; drained once a tick. */
export type Request =
  | { readonly kind: 'button'; readonly button: Button }
  /** Of a console that had no HOLD button, in journals before version 3. */
  | { readonly kind: 'hold' }
  /** A typed number, as the answer to its prompt, SI. */
  | { readonly kind: 'enter'; readonly valueSI: number }
  /** `interrupt`: the program itself is ending, so an end screen would have no reader. */
  | { readonly kind: 'stop'; readonly by: 'person' | 'interrupt'; readonly why: string };
