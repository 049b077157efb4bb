import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FRESH_FILTER, stepFilter } from '../../../hal/firmata/message-filter.ts';
import { frameBytes } from './scripted-firmware.ts';

const passed = (...chunks: readonly (readonly number[])[]) => {
  let state = FRESH_FILTER;
  const messages: (readonly number[])[] = [];
  for (const chunk of chunks) {
    const filtered = stepFilter(state, chunk);
    state = filtered.state;
    messages.push(...filtered.messages);
  }
  return { messages, state };
};

test('passes version, levels, analogue values and known sysex on, whole', () => {
  const messages = [
    [0xf9, 2, 5],
    [0x91, 1, 0],
    [0xe3, 5, 7],
    [0xf0, 0x71, 65, 0, 0xf7],
    frameBytes(),
  ];
  expect(passed(messages.flat()).messages).toEqual(messages);
  expect(passed(messages.flat()).state.droppedRuns).toBe(0);
});

test('puts a message together however its bytes arrive', () => {
  const bytes = frameBytes();
  expect(passed(...bytes.map((byte) => [byte])).messages).toEqual([bytes]);
});

test.each([
  ['unknown sysex', [0xf0, 0x33, 1, 2, 3, 0xf7]],
  ['a sysex without content', [0xf0, 0xf7]],
  ['a frame cut short', frameBytes().slice(0, 9)],
  ['a frame without its start', frameBytes().slice(1)],
  ['eight-bit bytes inside', [0xf0, 0x0d, 1, 2, 0x80, 3, 4, 5, 0xf7]],
  ['half a version', [0xf9, 2]],
  ['a state of a pin without a pin', [0xf0, 0x6e, 0xf7]],
  ['bytes of nothing', [0, 1, 2, 3, 0xc0, 0xff]],
  ['a message of ours beyond its length', [0xf0, 0x0d, ...Array(80).fill(1), 0xf7]],
])('drops %s, counts it once, and passes what follows', (_, garbage) => {
  const { messages, state } = passed(garbage, frameBytes({ sequence: 5 }));
  expect(messages).toEqual([frameBytes({ sequence: 5 })]);
  expect(state.droppedRuns).toBe(1);
  expect(state.droppedBytes).toBe(garbage.length);
});

test('a flood without an end keeps no more bytes than the longest message', () => {
  for (const command of [0x0d, 0x6c, 0x71, 0x33]) {
    const { state } = passed([0xf0, command, ...Array(100_000).fill(1)]);
    expect(state.pending.length).toBeLessThanOrEqual(1024);
  }
});

test('whatever comes between two good frames, the second one after it is passed on', () => {
  const bytes = fc.array(
    fc.oneof(fc.integer({ min: 0, max: 255 }), fc.constantFrom(0xf0, 0xf7, 0xf9, 0x0d, 0xe0)),
    { maxLength: 200 },
  );
  fc.assert(
    fc.property(bytes, (garbage) => {
      const { messages } = passed(
        frameBytes({ sequence: 1 }),
        garbage,
        frameBytes({ sequence: 2 }),
        frameBytes({ sequence: 3 }),
      );
      expect(messages[0]).toEqual(frameBytes({ sequence: 1 }));
      expect(messages.at(-1)).toEqual(frameBytes({ sequence: 3 }));
    }),
    { numRuns: 500 },
  );
});

test('nothing that is passed on holds an eight-bit byte inside or lacks its end', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (noise) => {
      for (const [first, ...rest] of passed([...noise]).messages) {
        const inside = first === 0xf0 ? rest.slice(0, -1) : rest;
        expect(inside.every((byte) => byte < 0x80)).toBe(true);
        expect(first === 0xf0 ? rest.at(-1) : rest.length).toBe(first === 0xf0 ? 0xf7 : 2);
      }
    }),
  );
});
