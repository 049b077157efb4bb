import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Actuators,
  BUTTONS,
  type Frame,
  FULL_SCALE_COUNTS,
  type Request,
  SAFE,
  TRIPS,
} from '../../src/core/frame.ts';
import { encodeTick, tickSchema } from '../../src/journal/tick-line.ts';
import { HEALTHY_FRAME } from '../frames.ts';

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
  counts: record({
    pressure: count,
    irradiance: count,
    glassTemperature: count,
    heatSinkTemperature: count,
    supplyVoltage: count,
  }),
  switches: record({
    shieldClosed: fc.boolean(),
    overPressureTripped: fc.boolean(),
    emergencyStopPressed: fc.boolean(),
  }),
  pressed: fc.array(fc.constantFrom(...BUTTONS), { maxLength: 4 }),
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
        expect(tickSchema.parse(JSON.parse(line))).toStrictEqual({
          frame,
          requests: asked,
          actuators: answer,
        });
      }),
      { numRuns: 500 },
    );
  });

  test('keeps the sampling time of a mute board', () => {
    const frame: Frame = { ...HEALTHY_FRAME, timeS: 0.05 * 3, sampledAtS: 0.1, link: 'mute' };
    const tick = tickSchema.parse(JSON.parse(encodeTick(frame, [], SAFE)));
    expect(tick.frame.sampledAtS).toBe(0.1);
    expect(tick.frame.timeS).toBe(0.15000000000000002);
  });

  test('stays under 90 bytes for a tick without requests, with every number at its longest', () => {
    const timeS = 1799.1000000000001;
    const frame: Frame = {
      ...HEALTHY_FRAME,
      sequence: 35_982,
      timeS,
      sampledAtS: timeS,
      counts: {
        pressure: 1023,
        irradiance: 1023,
        glassTemperature: 1023,
        heatSinkTemperature: 1023,
        supplyVoltage: 1023,
      },
    };
    const line = encodeTick(frame, [], { ...SAFE, pumpRatio: 0.3333333333333333, lampRatio: 0.85 });
    expect(Buffer.byteLength(line)).toBeLessThan(90);
  });

  test.each([
    ['a field too few', '[0,0,null,1,2,3,4,5,1,0,2]'],
    ['a field too many', '[0,0,null,1,2,3,4,5,1,0,2,0,"",[],0]'],
    ['bits that mean nothing', '[0,0,null,1,2,3,4,5,32768,0,2,0]'],
    ['an unknown button', '[0,0,null,1,2,3,4,5,1,0,2,0,"x"]'],
    ['an unknown request', '[0,0,null,1,2,3,4,5,1,0,2,0,"",[{"kind":"fly"}]]'],
    ['a number in words that are none', '[0,"soon",null,1,2,3,4,5,1,0,2,0]'],
  ])('is refused with %s', (_, line) => {
    expect(tickSchema.safeParse(JSON.parse(line)).success).toBe(false);
  });
});
