/**
 * The check of the board's messages: its register against the catalogue and against another
 * implementation, and the share of damaged messages that it misses. A message carries seven bits a
 * byte, so only those are flipped; the framing layer removes the eighth bit first.
 */
import {
  COMPILED_LIMITS,
  encodeFields,
  KINDS,
  LIMITS_LAYOUT,
  OUTPUTS_LAYOUT,
  openMessage,
} from '../../../hal/firmata/protocol.ts';
import type { CheckGroup, CheckRow } from '../check.ts';
import reference from '../reference/message-check.json' with { type: 'json' };

const GROUP_BITS = 7;
const CHECK_BYTES = 3;

const checkOf = (message: readonly number[]): number =>
  message.slice(-CHECK_BYTES).reduceRight((value, group) => value * 2 ** GROUP_BITS + group, 0);

/** The check of a text: its first letter goes as the kind, each further one as a field. */
function checkOfText(text: string): number {
  const [kind = 0, ...rest] = [...text].map((letter) => letter.charCodeAt(0));
  const layout = rest.map((_, i) => [`letter ${i}`, 1] as const);
  return checkOf(
    encodeFields(kind, layout, Object.fromEntries(rest.map((code, i) => [`letter ${i}`, code]))),
  );
}

const BUSY = { sequence: 300, flags: 5, pump: 128, lamp: 200 };
const busyMessage = encodeFields(KINDS.outputs, OUTPUTS_LAYOUT, BUSY);

const checkRow = (what: string, actual: () => number, rest: Partial<CheckRow> = {}): CheckRow => ({
  what,
  actual,
  expected: 0,
  tolerance: 0,
  unit: 'as a number',
  source: 'reference/message-check.md, binascii.crc_hqx of Python',
  obtained: 'independent solver',
  ...rest,
});

function flipped(message: readonly number[], bits: readonly number[]): number[] {
  const damaged = [...message];
  for (const bit of bits) {
    const at = Math.floor(bit / GROUP_BITS);
    damaged[at] = (damaged[at] ?? 0) ^ (1 << (bit % GROUP_BITS));
  }
  return damaged;
}

/** How many ways of flipping `count` bits of the busy outputs message are not noticed. */
function unnoticed(count: number, from = 0, chosen: readonly number[] = []): number {
  if (chosen.length === count) return openMessage(flipped(busyMessage, chosen)).ok ? 1 : 0;
  let sum = 0;
  for (let bit = from; bit < busyMessage.length * GROUP_BITS; bit++) {
    sum += unnoticed(count, bit + 1, [...chosen, bit]);
  }
  return sum;
}

const damageRow = (count: number): CheckRow => ({
  what: `ways to flip ${count} of the 77 bits of an outputs message and not be noticed`,
  actual: () => unnoticed(count),
  expected: 0,
  tolerance: 0,
  unit: 'of them',
  source: 'Koopman and Chakravarty, DSN 2004: 0x1021 has Hamming distance 4 up to 32 751 bits',
  obtained: 'from memory',
});

export const MESSAGE_CHECK: CheckGroup = {
  title: "check of the board's messages",
  rows: [
    checkRow('check value of 123456789', () => checkOfText('123456789'), {
      expected: 0x31c3,
      source:
        'catalogue of parametrised CRCs, CRC-16/XMODEM, check 0x31C3, as quoted in test suites',
      obtained: 'seen second-hand',
    }),
    checkRow('check of the letter A', () => checkOfText('A'), { expected: reference.letter }),
    checkRow(
      'check of the safe outputs',
      () =>
        checkOf(
          encodeFields(KINDS.outputs, OUTPUTS_LAYOUT, { sequence: 1, flags: 2, pump: 0, lamp: 0 }),
        ),
      { expected: reference.outputsSafe },
    ),
    checkRow('check of busy outputs', () => checkOf(busyMessage), {
      expected: reference.outputsBusy,
    }),
    checkRow(
      'check of the compiled limits',
      () => checkOf(encodeFields(KINDS.limits, LIMITS_LAYOUT, COMPILED_LIMITS)),
      { expected: reference.limits },
    ),
    damageRow(1),
    damageRow(2),
    damageRow(3),
  ],
};
