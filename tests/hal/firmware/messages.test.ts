/** The board's response to malformed messages. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  encodeFields,
  KINDS,
  openMessage,
  REFUSALS,
  UNIT_SYSEX,
} from '../../../hal/firmata/protocol.ts';
import {
  BUSY,
  CLEAR,
  createBench,
  outputsMessage,
  PINS_BUSY,
  PINS_SAFE,
  SAFE_OUTPUTS,
  sysex,
  sysexesIn,
} from './bench.ts';

const SET_PIN_MODE = 0xf4;

/** The catalogue's test value of CRC-16/XMODEM (catalogue of parametrised CRCs, from memory). */
const CATALOGUE = { text: '123456789', crc: 0x31c3 };
const catalogueMessage = [
  ...Buffer.from(CATALOGUE.text),
  CATALOGUE.crc & 127,
  (CATALOGUE.crc >> 7) & 127,
  CATALOGUE.crc >> 14,
];

const refusals = (bench: ReturnType<typeof createBench>) =>
  bench.refusals().map(({ refusedKind, reason }) => [refusedKind, REFUSALS[reason]]);

describe('the check', () => {
  test('of the host takes the catalogue value', () => {
    expect(openMessage(catalogueMessage).ok).toBe(true);
    expect(openMessage(catalogueMessage.with(-3, catalogueMessage.at(-3)! ^ 1)).ok).toBe(false);
  });

  test('of the board takes the catalogue value: only the kind is unknown', () => {
    const bench = createBench();
    bench.send(sysex([UNIT_SYSEX, ...catalogueMessage]), 0.02);
    expect(refusals(bench)).toEqual([[0x31, 'unknown-kind']]);
  });

  test('of the board refuses any other value', () => {
    const bench = createBench();
    bench.send(sysex([UNIT_SYSEX, ...catalogueMessage.with(-3, 0)]), 0.02);
    expect(refusals(bench)).toEqual([[0x31, 'bad-checksum']]);
  });
});

describe('an outputs message', () => {
  const altered = outputsMessage(BUSY).map((byte, i) => (i === 4 ? byte ^ 1 : byte));
  const tooLong = sysex([
    UNIT_SYSEX,
    ...encodeFields(
      KINDS.outputs,
      [
        ['flags', 1],
        ['pump', 2],
        ['lamp', 2],
        ['more', 1],
      ],
      { ...BUSY, more: 0 },
    ),
  ]);
  test.each([
    ['with a bad check', altered, 'bad-checksum'],
    ['of a wrong length', tooLong, 'malformed'],
  ])('%s is ignored, counted and refused', (_, message, reason) => {
    const bench = createBench();
    bench.want(SAFE_OUTPUTS);
    bench.send(message, 0.02);
    expect(bench.pins()).toEqual(PINS_SAFE);
    expect(refusals(bench)).toEqual([[KINDS.outputs, reason]]);
    expect(bench.lastFrame().badMessages).toBe(1);
  });

  test('with a bad check does not renew the lease', () => {
    const bench = createBench();
    bench.want(BUSY);
    for (let i = 0; i < 5; i++) bench.send(altered, 0.1);
    expect(bench.pins()).toEqual(PINS_SAFE);
  });

  test.each([
    ['pump over full', { ...BUSY, pump: 256 }],
    ['lamp over full', { ...BUSY, lamp: 256 }],
    ['an unknown flag', { ...BUSY, flags: BUSY.flags | 16 }],
  ])('with %s makes safe at once, ends the lease and is refused', (_, fields) => {
    const bench = createBench();
    bench.want(BUSY);
    expect(bench.pins()).toEqual(PINS_BUSY);
    bench.want(fields);
    expect(bench.pins()).toEqual(PINS_SAFE);
    bench.chip.run(0.03);
    expect(refusals(bench)).toEqual([[KINDS.outputs, 'out-of-range']]);
    expect(bench.lastFrame()).toMatchObject({ acting: 2, badMessages: 1, trips: 0 });
    bench.want(BUSY);
    expect(bench.pins()).toEqual(PINS_BUSY);
  });

  test.each([
    [0, 0],
    [1, 254],
    [254, 1],
    [255, 255],
  ])('drives pump %i and lamp %i to exactly these duties', (pump, lamp) => {
    const bench = createBench();
    bench.want({ ...BUSY, pump, lamp });
    expect(bench.pins()).toMatchObject({ pump, lamp });
  });
});

test('bad messages are counted modulo 128', () => {
  const bench = createBench();
  for (let i = 0; i < 130; i++) bench.send(sysex([UNIT_SYSEX, 1, 2, 3, 4]), 0);
  bench.chip.run(0.1);
  expect(bench.lastFrame().badMessages).toBe(2);
});

test('a half message followed by a whole one costs only the half one', () => {
  const bench = createBench();
  for (let cut = 1; cut < outputsMessage(BUSY).length; cut++) {
    bench.want(SAFE_OUTPUTS);
    const whole = outputsMessage(BUSY);
    bench.send([...whole.slice(0, cut), ...whole]);
    expect(bench.pins()).toEqual(PINS_BUSY);
  }
});

test('a sysex longer than the buffer is dropped whole and counted', () => {
  const bench = createBench();
  // A question that is answered at any length that fits.
  const question = (surplus: number) => sysex([0x79, ...new Array<number>(surplus).fill(0)]);
  const answers = () => sysexesIn(bench.sent).filter(([command]) => command === 0x79).length;
  bench.sent.length = 0;
  bench.send(question(63), 0.03);
  expect(answers()).toBe(1);
  bench.send(question(64), 0.03);
  bench.send(question(200), 0.03);
  expect(answers()).toBe(1);
  bench.send(question(63), 0.03);
  expect(answers()).toBe(2);
  expect(bench.lastFrame().badMessages).toBe(2);
});

/** Noise and broken pieces of outputs messages; never a mode that would make plain writes count. */
const noise = fc
  .array(
    fc.oneof(
      fc.array(fc.integer({ min: 0, max: 255 }), { maxLength: 40 }),
      fc.integer({ min: 1, max: 8 }).map((cut) => outputsMessage(BUSY).slice(0, cut)),
      fc
        .tuple(fc.integer({ min: 2, max: 10 }), fc.integer({ min: 1, max: 127 }))
        .map(([at, flip]) =>
          outputsMessage(BUSY).map((byte, i) => (i === at ? byte ^ flip : byte)),
        ),
      fc
        .array(fc.integer({ min: 0, max: 127 }), { maxLength: 90 })
        .map((bytes) => sysex([UNIT_SYSEX, ...bytes])),
    ),
    { maxLength: 12 },
  )
  .map((pieces) => pieces.flat().filter((byte) => byte !== SET_PIN_MODE));

test('any bytes whatever: outputs stay as they were asked for, and a valid message still works', () => {
  const bench = createBench();
  const resets = bench.chip.resets();
  fc.assert(
    fc.property(noise, (bytes) => {
      bench.want(SAFE_OUTPUTS);
      bench.chip.receive(bytes);
      for (let leftS = bytes.length * 0.000176; leftS > 0; leftS -= 0.002) {
        bench.chip.run(0.002);
        expect(bench.pins()).toEqual(PINS_SAFE);
      }
      bench.want(BUSY);
      expect(bench.pins()).toEqual(PINS_BUSY);
      bench.sent.length = 0;
    }),
    { seed: 328, numRuns: 150 },
  );
  expect(bench.chip.resets()).toBe(resets);
});

test('under a flood of questions frames go on, with no number missing', () => {
  const bench = createBench();
  bench.sent.length = 0;
  for (let i = 0; i < 300; i++) bench.chip.receive([0xf9, ...sysex([0x6b]), ...sysex([0x79])]);
  bench.chip.run(0.35);
  const sequences = bench.frames().map(({ sequence }) => sequence);
  expect(sequences.length).toBeGreaterThan(28);
  expect(sequences).toEqual(sequences.map((_, i) => sequences[0]! + i));
});

test('a repeated or reordered outputs message is refused, and renews no lease', () => {
  const bench = createBench();
  const older = outputsMessage(BUSY);
  const newer = outputsMessage(BUSY);
  bench.send(newer);
  expect(bench.pins()).toEqual(PINS_BUSY);
  bench.chip.run(0.3);
  for (const message of [newer, older]) bench.send(message);
  expect(bench.refusals().map(({ reason }) => REFUSALS[reason])).toEqual(['repeated', 'repeated']);
  bench.chip.run(0.2);
  expect(bench.pins()).toEqual(PINS_SAFE);
  bench.send(newer);
  expect(bench.pins()).toEqual(PINS_SAFE);
});

test('a repeated request for the safe state makes safe, and one to clear trips clears none', () => {
  const bench = createBench();
  const safe = outputsMessage(SAFE_OUTPUTS);
  const clear = outputsMessage(CLEAR);
  bench.send(safe);
  bench.send(clear);
  bench.want(BUSY);
  bench.send(safe);
  expect(bench.pins()).toEqual(PINS_SAFE);
  bench.setSwitch('emergencyStop', true);
  expect(bench.trips()).toEqual(['emergency-stop']);
  bench.setSwitch('emergencyStop', false);
  bench.chip.run(0.01);
  bench.send(clear);
  expect(bench.trips()).toEqual(['emergency-stop']);
});
