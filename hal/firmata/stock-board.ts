/**
 * A board with a stock Firmata firmware, for wiring tests and nothing else: it shows what arrives
 * on each wire and lights lamps, by johnny-five's own classes. Such a board has no protection and
 * keeps its outputs when the host dies, so everything that can do harm is locked until somebody
 * says in so many words that they know.
 */
import five from 'johnny-five';
import { firstValueFrom, type SchedulerLike, Subject } from 'rxjs';
import { CHANNELS } from '../../src/core/frame.ts';
import { DISPLAY_ADDRESS, PINS } from '../../wiring/pin-map.ts';
import { nowS } from './clock.ts';
import { type Connection, connect, type FirmwareSeen } from './connection.ts';
import { type Problem, problemIn, problemOf } from './errors.ts';
import type { OpenLine } from './line.ts';
import { createLineSource } from './line-source.ts';
import { FULL_DUTY, TEXT_COLUMNS, TEXT_ROWS } from './protocol.ts';

/** What stock Firmata firmware speaks at. */
export const STOCK_BAUD = 57_600;
export const UNLOCK_WORDS = 'drive pump and lamp without protection';

const ANALOGUE = [...CHANNELS, 'buttons'] as const;
const SWITCHES = ['emergencyStop', 'overPressureSwitch', 'shieldSwitch'] as const;
const SIGNALS = ['statusRed', 'statusGreen', 'statusBlue', 'buzzer'] as const;
const DUTIES = ['pumpDrive', 'lampDrive'] as const;
const LEVELS = ['ventClose', 'selectorPressure', 'lampEnable'] as const;

export type StockAnalogue = (typeof ANALOGUE)[number];
export type StockSwitch = (typeof SWITCHES)[number];
export type StockSignal = (typeof SIGNALS)[number];

/** What can do harm. */
export interface StockDrives {
  readonly duty: (pin: (typeof DUTIES)[number], ratio: number) => void;
  readonly level: (pin: (typeof LEVELS)[number], high: boolean) => void;
}

export interface StockBoard {
  readonly firmware: FirmwareSeen;
  /** The latest counts; null where the board has no such pin or nothing came for a second. */
  readonly counts: () => Readonly<Record<StockAnalogue, number | null>>;
  /** `unknown` until the board has told. */
  readonly switches: () => Readonly<Record<StockSwitch, 'closed' | 'open' | 'unknown'>>;
  readonly signal: (name: StockSignal, on: boolean) => void;
  readonly print: (row: number, text: string) => void;
  readonly unlock: (
    words: string,
  ) =>
    | { readonly ok: true; readonly drives: StockDrives }
    | { readonly ok: false; readonly why: string };
  /** Drives what was unlocked low, then lets the board go. */
  readonly close: () => Promise<void>;
}

export interface StockBoardOptions {
  readonly openLine: OpenLine;
  readonly scheduler: SchedulerLike;
  readonly onNotice?: (words: string) => void;
}

const SAMPLING_MS = 50;
const FRESH_S = 1;
const LOCKED =
  'Pump, valves and lamp stay locked: the firmware on this board has no protection and keeps its ' +
  `outputs when the host dies. To go on all the same, say "${UNLOCK_WORDS}".`;

export async function openStockBoard(
  options: StockBoardOptions,
): Promise<
  | { readonly ok: true; readonly board: StockBoard }
  | { readonly ok: false; readonly problem: Problem }
> {
  const { openLine, scheduler, onNotice = () => {} } = options;
  const { line$, released } = createLineSource(openLine, scheduler);
  const wanted = { line$, scheduler, samplingIntervalMs: SAMPLING_MS, judge: () => null, onNotice };
  const connection$ = new Subject<Connection>();
  const held = connect(wanted).subscribe(connection$);
  const release = (): Promise<void> => {
    held.unsubscribe();
    return released();
  };
  try {
    const connection = await firstValueFrom(connection$);
    connection.lost$.subscribe({
      error: (error) => onNotice(`The link to the board is lost. ${problemIn(error).words}`),
    });
    return { ok: true, board: stockBoardOf(connection, scheduler, release) };
  } catch (error) {
    await release();
    const problem = problemIn(error);
    const silent = problem.code === 'no-answer';
    return { ok: false, problem: silent ? problemOf('not-firmata', problem.words) : problem };
  }
}

function stockBoardOf(
  connection: Connection,
  scheduler: SchedulerLike,
  release: () => Promise<void>,
): StockBoard {
  const { board } = connection;
  const analogue = mapOf(ANALOGUE, (name) => readAnalogue(connection, scheduler, name));
  const switches = mapOf(SWITCHES, (name) => {
    // Contacts close to ground against the chip's pull-up, which johnny-five calls normally open.
    return new five.Switch({ pin: PINS[name].firmataPin, type: 'NO', board });
  });
  const leds = mapOf(SIGNALS, (name) => new five.Led({ pin: PINS[name].firmataPin, board }));
  let drives: StockDrives | null = null;
  let lcd: five.LCD | null = null;
  return {
    firmware: connection.firmware,
    counts: () => mapOf(ANALOGUE, (name) => analogue[name].counts()),
    switches: () =>
      mapOf(SWITCHES, (name) => {
        const { isClosed, isOpen } = switches[name] as unknown as SwitchState;
        return isClosed ? 'closed' : isOpen ? 'open' : 'unknown';
      }),
    signal: (name, on) => (on ? leds[name].on() : leds[name].off()),
    print: (row, text) => {
      lcd ??= createDisplay(board);
      lcd.cursor(row, 0).print(text.slice(0, TEXT_COLUMNS).padEnd(TEXT_COLUMNS));
    },
    unlock: (words) => {
      if (words !== UNLOCK_WORDS) return { ok: false, why: LOCKED };
      drives ??= createDrives(board);
      return { ok: true, drives };
    },
    close: async () => {
      for (const name of ANALOGUE) analogue[name].stop();
      if (drives !== null) allLow(drives);
      await release();
    },
  };
}

/** What the types of johnny-five do not tell. */
interface SwitchState {
  readonly isClosed: boolean;
  readonly isOpen: boolean;
}

interface AnalogueInput {
  readonly counts: () => number | null;
  readonly stop: () => void;
}

/** johnny-five goes on telling its last value when nothing comes, so the age is taken below it. */
function readAnalogue(
  { board, io }: Connection,
  scheduler: SchedulerLike,
  name: StockAnalogue,
): AnalogueInput {
  const channel = PINS[name].adcChannel;
  if (channel === null || channel >= io.analogPins.length) {
    return { counts: () => null, stop: () => {} };
  }
  let takenAtS = Number.NEGATIVE_INFINITY;
  let counts = 0;
  const sensor = new five.Sensor({ pin: `A${channel}`, board, freq: SAMPLING_MS });
  io.on(`analog-read-${channel}`, (value: number) => {
    takenAtS = nowS(scheduler);
    counts = value;
  });
  return {
    counts: () => (nowS(scheduler) - takenAtS > FRESH_S ? null : counts),
    stop: () => (sensor as unknown as { readonly disable: () => void }).disable(),
  };
}

/** Takes johnny-five some milliseconds in which nothing else runs. */
function createDisplay(board: five.Board): five.LCD {
  const options = {
    controller: 'PCF8574',
    address: DISPLAY_ADDRESS,
    rows: TEXT_ROWS,
    cols: TEXT_COLUMNS,
    board,
  };
  return new five.LCD(options);
}

function createDrives(board: five.Board): StockDrives {
  const levels = mapOf(LEVELS, (name) => new five.Pin({ pin: PINS[name].firmataPin, board }));
  for (const name of DUTIES) board.pinMode(PINS[name].firmataPin, five.Pin.PWM);
  const drives: StockDrives = {
    duty: (name, ratio) => {
      const sound = ratio >= 0 && ratio <= 1 ? ratio : 0;
      board.analogWrite(PINS[name].firmataPin, Math.round(sound * FULL_DUTY));
    },
    level: (name, high) => (high ? levels[name].high() : levels[name].low()),
  };
  allLow(drives);
  return drives;
}

function allLow({ duty, level }: StockDrives): void {
  for (const name of DUTIES) duty(name, 0);
  for (const name of LEVELS) level(name, false);
}

function mapOf<K extends string, V>(names: readonly K[], make: (name: K) => V): Record<K, V> {
  return Object.fromEntries(names.map((name) => [name, make(name)])) as Record<K, V>;
}
