/**
 * The bench as text commands: each line is one thing that a person at the bench could do, for tests
 * and people that drive an emulator in another process. It parses and executes commands; the caller
 * handles lines and answers.
 */
import { BUTTONS, CHANNELS, FULL_SCALE_COUNTS } from '../../src/core/frame.ts';
import type { EmulatedBench } from './emulated-bench.ts';

export type CommandResult =
  | { readonly ok: true }
  | { readonly ok: false; readonly accepted: string };

interface CommandRow {
  readonly accepted: string;
  /** False where an argument is not accepted. */
  readonly run: (bench: EmulatedBench, words: readonly string[]) => boolean;
}

const DIRECTIONS = ['to-host', 'to-board'] as const;
const SWITCH: Readonly<Record<string, boolean>> = { on: true, off: false };

const oneOf = <T extends string>(values: readonly T[], word: string | undefined): T | null =>
  values.find((value) => value === word) ?? null;

const whole = (word: string | undefined, highest: number): number | null => {
  const value = Number(word);
  const isNumber = word !== undefined && /^\d+$/.test(word);
  return isNumber && value <= highest ? value : null;
};

/** Runs `act` with the parsed value; false where there was none. */
const when = <T>(value: T | null | undefined, act: (value: T) => void): boolean => {
  if (value === null || value === undefined) return false;
  act(value);
  return true;
};

const simple =
  (act: (bench: EmulatedBench) => void): CommandRow['run'] =>
  (bench, words) => {
    if (words.length > 0) return false;
    act(bench);
    return true;
  };

const MOST_BYTES = 10_000;

export const COMMANDS: Readonly<Record<string, CommandRow>> = {
  press: {
    accepted: `press ${BUTTONS.join('|')}`,
    run: (bench, [button]) => when(oneOf(BUTTONS, button), bench.press),
  },
  estop: { accepted: 'estop', run: simple((bench) => bench.toggleEmergencyStop()) },
  shield: { accepted: 'shield', run: simple((bench) => bench.toggleShield()) },
  hang: { accepted: 'hang', run: simple((bench) => bench.chip.hang()) },
  power: { accepted: 'power', run: simple((bench) => bench.powerCycle()) },
  cut: {
    accepted: 'cut on|off',
    run: (bench, [position = '']) => when(SWITCH[position], bench.cable.setCut),
  },
  display: {
    accepted: 'display on|off',
    run: (bench, [position = '']) => when(SWITCH[position], bench.setDisplayPlugged),
  },
  mute: {
    accepted: 'mute to-host|to-board on|off',
    run: (bench, [way, position = '']) => {
      const mute = SWITCH[position];
      return (
        mute !== undefined &&
        when(oneOf(DIRECTIONS, way), (direction) => bench.cable.setMute(direction, mute))
      );
    },
  },
  spoil: {
    accepted: `spoil to-host|to-board 0-${MOST_BYTES}`,
    run: (bench, [way, count]) => {
      const bytes = whole(count, MOST_BYTES);
      return (
        bytes !== null &&
        when(oneOf(DIRECTIONS, way), (direction) => bench.cable.spoil(direction, bytes))
      );
    },
  },
  inject: {
    accepted: 'inject to-host|to-board BYTES (hexadecimal)',
    run: (bench, [way, hex = '']) =>
      /^(?:[0-9a-f]{2})+$/i.test(hex) &&
      when(oneOf(DIRECTIONS, way), (direction) =>
        bench.cable.inject(direction, Buffer.from(hex, 'hex')),
      ),
  },
  hold: {
    accepted: `hold CHANNEL 0-${FULL_SCALE_COUNTS}|off`,
    run: (bench, [name, value]) => {
      const channel = oneOf(CHANNELS, name);
      const counts = value === 'off' ? null : whole(value, FULL_SCALE_COUNTS);
      if (channel === null || (counts === null && value !== 'off')) return false;
      bench.holdCounts(channel, counts);
      return true;
    },
  },
};

export function runCommand(bench: EmulatedBench, line: string): CommandResult {
  const [name = '', ...words] = line.trim().split(/\s+/);
  const row = COMMANDS[name];
  if (row === undefined) {
    return {
      ok: false,
      accepted: Object.values(COMMANDS)
        .map((r) => r.accepted)
        .join('; '),
    };
  }
  return row.run(bench, words) ? { ok: true } : { ok: false, accepted: row.accepted };
}
