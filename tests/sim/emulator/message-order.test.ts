import { expect, test } from 'vitest';
import { createMessageOrder } from '../../../sim/emulator/message-order.ts';
import type { FaultKind } from '../../../sim/faults/fault-kinds.ts';

const END = 0xf7;
const MESSAGES = [1, 2, 3, 4].flatMap((n) => [0xf0, n, END]);
const numbers = (bytes: readonly number[]): readonly number[] =>
  bytes.filter((byte) => byte !== 0xf0 && byte !== END);

/** Byte by byte, as a line gives them. */
function passed(kind: FaultKind | null, bytes: readonly number[] = MESSAGES): readonly number[] {
  const order = createMessageOrder();
  const active = kind === null ? [] : [{ kind, from: { atS: 0 } }];
  return bytes.flatMap((byte) => order.pass([byte], active));
}

test('a sound cable passes bytes as they come', () => {
  expect(passed(null)).toEqual(MESSAGES);
  expect(passed(null, [1, 2])).toEqual([1, 2]);
});

test('every second message comes twice', () => {
  expect(numbers(passed('frames-repeated'))).toEqual([1, 2, 2, 3, 4, 4]);
});

test('every two messages change places', () => {
  expect(numbers(passed('frames-reordered'))).toEqual([2, 1, 4, 3]);
});

test('what a faulty cable held back goes on when it is sound again', () => {
  const order = createMessageOrder();
  const held = order.pass([0xf0, 1, END, 0xf0], [{ kind: 'frames-reordered', from: { atS: 0 } }]);
  expect(held).toEqual([]);
  expect(order.pass([2, END], [])).toEqual([0xf0, 1, END, 0xf0, 2, END]);
});
