import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Actuators,
  BUTTONS,
  type Frame,
  FULL_SCALE_COUNTS,
  LADDER_READINGS,
  perChannel,
  type Request,
  SAFE,
  TRIPS,
} from '../../src/core/frame.ts';
import { COLUMNS, type Column } from '../../src/journal/columns.ts';
import { encodeTick, fieldNamer, plainTick, tickSchema } from '../../src/journal/tick-line.ts';
import { HEALTHY_FRAME } from '../frames.ts';

const parsed = (line: string, columns: readonly Column[] = COLUMNS) =>
  tickSchema.safeParse(fieldNamer(columns)(JSON.parse(line)));

/** Objects as the code makes them. */
const record = <T>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }): fc.Arbitrary<T> =>
  fc.record<T>(model, { noNullPrototype: true });
const count = fc.option(fc.nat(FULL_SCALE_COUNTS));
const anyDouble = fc.double();
const frames: fc.Arbitrary<Frame> = record({
  sequence: fc.nat(),
  timeS: anyDouble,
  hostTimeS: fc.option(anyDouble),
  sampledAtS: anyDouble,
  link: fc.constantFrom('up' as const, 'mute' as const),
  counts: record(perChannel(() => count)),
  switches: record({
    shieldClosed: fc.boolean(),
    overPressureTripped: fc.boolean(),
    emergencyStopPressed: fc.boolean(),
  }),
  pressed: fc.array(fc.constantFrom(...BUTTONS), { maxLength: 4 }),
  ladder: fc.option(fc.constantFrom(...LADDER_READINGS)),
  trips: fc.subarray([...TRIPS]),
  damaged: fc.boolean(),
  gap: fc.boolean(),
});
const requests: fc.Arbitrary<readonly Request[]> = fc.array(
  fc.oneof(
    record({ kind: fc.constant('button' as const), button: fc.constantFrom(...BUTTONS) }),
    record({ kind: fc.constant('hold' as const) }),
    record({
      kind: fc.constant('stop' as const),
      by: fc.constantFrom('person' as const, 'interrupt' as const),
      why: fc.string({ unit: 'binary' }),
    }),
  ),
  { maxLength: 3 },
);
const actuators: fc.Arbitrary<Actuators> = record({
  pumpRatio: anyDouble,
  selector: fc.constantFrom('vacuum' as const, 'pressure' as const),
  ventOpen: fc.boolean(),
  lampEnabled: fc.boolean(),
  lampRatio: anyDouble,
});

describe('the line of a tick', () => {
  test('gives back the identical frame, requests and actuators, whatever they are', () => {
    fc.assert(
      fc.property(frames, requests, actuators, (frame, asked, answer) => {
        const line = encodeTick(frame, asked, answer);
        // toStrictEqual tells NaN, infinities and minus zero apart, as a replay would.
        const tick = { frame, requests: asked, actuators: answer };
        expect(parsed(line).data).toStrictEqual(tick);
        // The quick way is taken for many, and then says the same.
        const quick = plainTick(fieldNamer(COLUMNS)(JSON.parse(line)));
        if (quick !== null) expect(quick).toStrictEqual(tick);
      }),
      { numRuns: 500 },
    );
  });

  test('keeps the sampling time of a mute board', () => {
    const frame: Frame = { ...HEALTHY_FRAME, timeS: 0.05 * 3, sampledAtS: 0.1, link: 'mute' };
    const { data } = parsed(encodeTick(frame, [], SAFE));
    expect(data?.frame.sampledAtS).toBe(0.1);
    expect(data?.frame.timeS).toBe(0.15000000000000002);
  });

  test('stays under 90 bytes for a tick without requests, with every number at its longest', () => {
    const timeS = 1799.1000000000001;
    const frame: Frame = {
      ...HEALTHY_FRAME,
      sequence: 35_982,
      timeS,
      sampledAtS: timeS,
      hostTimeS: timeS,
      counts: perChannel(() => 1023),
    };
    const line = encodeTick(frame, [], { ...SAFE, pumpRatio: 0.3333333333333333, lampRatio: 0.85 });
    expect(Buffer.byteLength(line)).toBeLessThan(90);
  });

  test('is one array, a value for each column that the header names', () => {
    const frame: Frame = { ...HEALTHY_FRAME, sequence: 7, timeS: 0.35, sampledAtS: 0.3 };
    const running = { ...SAFE, pumpRatio: 0.5, ventOpen: false };
    expect(encodeTick(frame, [], running)).toBe(
      '[7,0.35,0.3,308,102,512,512,639,1,0.5,0,0,"unknown"]',
    );
    const pressed = encodeTick(
      { ...frame, hostTimeS: 0.35, ladder: 'hold', pressed: ['hold', 'yes', 'more'] },
      [],
      running,
    );
    expect(pressed).toBe('[7,0.35,0.3,308,102,512,512,639,1,0.5,0,0,null,"h","hym"]');
    const signs = (['no', 'between', 'open', null] as const).map((ladder) =>
      encodeTick({ ...frame, hostTimeS: 0.35, ladder }, [], running).slice(-6),
    );
    expect(signs).toEqual(['l,"n"]', 'l,"?"]', 'l,"!"]', ',null]']);
    const asked = encodeTick(frame, [{ kind: 'hold' }], running);
    expect(asked).toContain(',"unknown","","",[{"kind":"hold"}]]');
  });

  test('is read by the names of its columns, in whatever order they stand', () => {
    const turned = [...[...COLUMNS.slice(0, -3)].reverse(), 'ladder' as const];
    const line = JSON.parse(encodeTick(HEALTHY_FRAME, [], SAFE)) as readonly unknown[];
    const tick = parsed(JSON.stringify([...line].reverse()), turned);
    expect(tick.data?.frame).toStrictEqual(HEALTHY_FRAME);
  });

  test('without a column for a channel says that no sample of it was ever taken', () => {
    const fewer = COLUMNS.filter((column) => column !== 'irradiance');
    const line = JSON.parse(encodeTick(HEALTHY_FRAME, [], SAFE)) as unknown[];
    line.splice(COLUMNS.indexOf('irradiance'), 1);
    const counts = { ...HEALTHY_FRAME.counts, irradiance: null };
    expect(parsed(JSON.stringify(line), fewer).data?.frame.counts).toStrictEqual(counts);
  });

  test('without a column for the ladder says that nobody knows what it read', () => {
    const fewer = COLUMNS.filter((column) => column !== 'ladder');
    const line = encodeTick(HEALTHY_FRAME, [], SAFE);
    expect(parsed(line, fewer).data?.frame.ladder).toBeNull();
    expect(plainTick(fieldNamer(fewer)(JSON.parse(line)))?.frame.ladder).toBeNull();
    expect(plainTick(fieldNamer(COLUMNS)(JSON.parse(line)))?.frame.ladder).toBe('released');
  });

  test.each([
    ['a field too few', '[0,0,null,1,2,3,4,5,1,0,2,0]', 'hostTimeS'],
    ['a field too many', '[0,0,null,1,2,3,4,5,1,0,2,0,null,"","",[],0]', ''],
    ['an unknown sign of the ladder', '[0,0,null,1,2,3,4,5,1,0,2,0,null,"x"]', 'ladder'],
    ['no count where one belongs', '[0,0,null,1]', 'irradiance'],
    ['bits that mean nothing', '[0,0,null,1,2,3,4,5,8388608,0,2,0,null]', 'frameBits'],
    ['an unknown button', '[0,0,null,1,2,3,4,5,1,0,2,0,null,"","x"]', 'buttons'],
    ['an unknown request', '[0,0,null,1,2,3,4,5,1,0,2,0,null,"","",[{"kind":"fly"}]]', 'requests'],
    ['a number in words that are none', '[0,"soon",null,1,2,3,4,5,1,0,2,0,null]', 'timeS'],
  ])('is refused with %s, and the column is named', (_, line, column) => {
    expect(plainTick(fieldNamer(COLUMNS)(JSON.parse(line)))).toBeNull();
    expect(parsed(line).error?.issues[0]?.path[0] ?? '').toBe(column);
  });
});
