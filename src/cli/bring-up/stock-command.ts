/**
 * `meniscus bench --stock`: a board with stock Firmata firmware, for wiring tests only. It shows
 * the state of each wire twice a second and switches lamps by key. Dangerous drives stay locked
 * until they are unlocked with an explicit phrase, and then run gently for two seconds per key.
 */
import { interval, Subscription, timer } from 'rxjs';
import { REAL_TIME } from '../../../hal/firmata/clock.ts';
import { portNamed } from '../../../hal/firmata/ports.ts';
import { openSerialLine } from '../../../hal/firmata/serial-line.ts';
import {
  openStockBoard,
  STOCK_BAUD,
  type StockBoard,
  type StockDrives,
  type StockSignal,
} from '../../../hal/firmata/stock-board.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { SIGNALS } from '../terminal/interrupts.ts';
import { INTERRUPT_KEY, listenToKeyNames } from '../terminal/keys.ts';
import { print, printError } from '../terminal/print.ts';
import { refuse } from '../terminal/refuse.ts';

const SHOW_EVERY_MS = 500;
const DRIVE_MS = 2000;
const GENTLE_RATIO = 0.3;
const DIM_RATIO = 0.1;

const SIGNAL_KEYS: Readonly<Record<string, StockSignal>> = {
  r: 'statusRed',
  g: 'statusGreen',
  b: 'statusBlue',
  z: 'buzzer',
};

interface Drive {
  readonly on: (drives: StockDrives) => void;
  readonly off: (drives: StockDrives) => void;
}

const DRIVE_KEYS: Readonly<Record<string, Drive>> = {
  p: {
    on: (d) => d.duty('pumpDrive', GENTLE_RATIO),
    off: (d) => d.duty('pumpDrive', 0),
  },
  v: { on: (d) => d.level('ventClose', true), off: (d) => d.level('ventClose', false) },
  s: {
    on: (d) => d.level('selectorPressure', true),
    off: (d) => d.level('selectorPressure', false),
  },
  l: {
    on: (d) => {
      d.level('lampEnable', true);
      d.duty('lampDrive', DIM_RATIO);
    },
    off: (d) => {
      d.duty('lampDrive', 0);
      d.level('lampEnable', false);
    },
  },
};

export async function stockCommand(wanted: string, words: string | undefined): Promise<number> {
  const port = await portNamed(wanted);
  if (!port.ok) return refuse([port.problem.words, port.problem.advice]);
  const opened = await openStockBoard({
    openLine: () => openSerialLine(port.value, STOCK_BAUD),
    scheduler: REAL_TIME,
    onNotice: (notice) => printError(`board: ${notice}\n`),
  });
  if (!opened.ok) return refuse([opened.problem.words, opened.problem.advice]);
  const { board } = opened;
  const unlocked = board.unlock(words ?? '');
  print(
    `Stock board at ${port.value}, for wiring tests only.\n` +
      `${unlocked.ok ? 'p pump, v vent, s selector, l lamp: two seconds each. Wear UV glasses.' : unlocked.why}\n` +
      'r g b status lamp, z buzzer, d display, q quit\n',
  );
  await show(board, unlocked.ok ? unlocked.drives : null);
  await board.close();
  return EXIT.completed;
}

/** Until the person quits. */
async function show(board: StockBoard, drives: StockDrives | null): Promise<void> {
  const { stdin } = process;
  const lit = new Set<StockSignal>();
  const showing = interval(SHOW_EVERY_MS, REAL_TIME).subscribe(() => {
    const counts = Object.entries(board.counts()).map(([name, value]) => `${name} ${value ?? '-'}`);
    const switches = Object.entries(board.switches()).map(([name, state]) => `${name} ${state}`);
    print(`${[...counts, ...switches].join('  ')}\n`);
  });
  const driving = new Subscription();
  let stopListening = (): void => undefined;
  await new Promise<void>((resolve) => {
    stopListening = listenToKeyNames(stdin, (name) => {
      if (name === 'q' || name === INTERRUPT_KEY) resolve();
      const signal = SIGNAL_KEYS[name];
      if (signal !== undefined) {
        board.signal(signal, !lit.has(signal));
        if (!lit.delete(signal)) lit.add(signal);
      }
      if (name === 'd') board.print(0, 'Meniscus wiring test');
      const drive = DRIVE_KEYS[name];
      if (drive === undefined || drives === null) return;
      drive.on(drives);
      driving.add(timer(DRIVE_MS, REAL_TIME).subscribe(() => drive.off(drives)));
    });
    stdin.once('end', resolve);
    for (const signal of SIGNALS) process.once(signal, () => resolve());
  });
  stopListening();
  // Closing the board drives every output low.
  driving.unsubscribe();
  showing.unsubscribe();
}
