import { describe, expect, test } from 'vitest';
import { type Actuators, type Frame, SAFE, valueOrNull } from '../../src/core/frame.ts';
import { INITIAL_SIGNAL_MEMORY, stepDecode } from '../../src/signal/decode.ts';
import { DEFAULT_UNIT } from '../configs.ts';
import { HEALTHY_FRAME } from '../frames.ts';

const CLOSED: Actuators = { ...SAFE, ventOpen: false };
const settings = DEFAULT_UNIT.channels;

function decodeAll(frames: readonly Frame[], commanded: Actuators = SAFE) {
  let memory = INITIAL_SIGNAL_MEMORY;
  const readings = frames.map((frame) => {
    const decoded = stepDecode(memory, frame, commanded, settings);
    memory = decoded.memory;
    return decoded.reading;
  });
  const last = readings.at(-1);
  if (last === undefined) throw new Error('no frames');
  return last;
}

const run = (n: number, change: (i: number) => Partial<Frame>): Frame[] =>
  Array.from({ length: n }, (_, i) => {
    const timeS = i * 0.05;
    return { ...HEALTHY_FRAME, sequence: i, timeS, sampledAtS: timeS, ...change(i) };
  });

const withPressure = (pressure: number | null): Partial<Frame> => ({
  counts: { ...HEALTHY_FRAME.counts, pressure },
});

describe('decoding', () => {
  test('reads a healthy frame in SI units', () => {
    const reading = decodeAll(run(3, () => ({})));
    // By hand from 308, 102, 512, 512 and 639 of 1023 counts.
    expect(valueOrNull(reading.pressurePa)).toBeCloseTo(100_538, -1);
    expect(valueOrNull(reading.irradianceWPerM2)).toBe(0);
    expect(valueOrNull(reading.glassK)).toBeCloseTo(298.1, 1);
    expect(valueOrNull(reading.heatSinkK)).toBeCloseTo(298.1, 1);
    expect(valueOrNull(reading.supplyV)).toBeCloseTo(12.49, 2);
  });

  test('one bad sample moves nothing', () => {
    const reading = decodeAll(run(7, (i) => (i === 6 ? withPressure(900) : {})));
    expect(valueOrNull(reading.pressurePa)).toBeCloseTo(100_538, -1);
  });

  test.each([
    [0, 'a broken wire'],
    [1023, 'a shorted wire'],
    [40, 'just below live zero'],
  ])('a pressure count of %i (%s) is out of range', (counts) => {
    const reading = decodeAll(run(3, () => withPressure(counts)));
    expect(reading.pressurePa).toEqual({ ok: false, fault: 'out-of-range' });
  });

  test('an open and a shorted thermistor are out of range', () => {
    for (const counts of [0, 5, 1015, 1023]) {
      const reading = decodeAll(
        run(3, () => ({ counts: { ...HEALTHY_FRAME.counts, glassTemperature: counts } })),
      );
      expect(reading.glassK).toEqual({ ok: false, fault: 'out-of-range' });
    }
  });

  test('a channel that was never sampled is missing', () => {
    const reading = decodeAll(run(3, () => withPressure(null)));
    expect(reading.pressurePa).toEqual({ ok: false, fault: 'missing' });
  });

  test('samples older than the limit are stale, younger ones are not', () => {
    const mute = (ageS: number) =>
      decodeAll([
        ...run(3, () => ({})),
        { ...HEALTHY_FRAME, sequence: 3, link: 'mute', timeS: 0.1 + ageS, sampledAtS: 0.1 },
      ]);
    expect(mute(0.24).pressurePa.ok).toBe(true);
    expect(mute(0.26).pressurePa).toEqual({ ok: false, fault: 'stale' });
  });

  test('a pressure frozen to the count while the chamber is closed is implausible', () => {
    const reading = decodeAll(
      run(20 * 9, () => ({})),
      CLOSED,
    );
    expect(reading.pressurePa).toEqual({ ok: false, fault: 'implausible' });
  });

  test('a channel found frozen stays implausible when the vent opens, until its count moves', () => {
    let memory = INITIAL_SIGNAL_MEMORY;
    const decode = (frame: Frame, commanded: Actuators) => {
      const decoded = stepDecode(memory, frame, commanded, settings);
      memory = decoded.memory;
      return decoded.reading.pressurePa;
    };
    const frames = run(20 * 12, (i) => (i >= 20 * 11 ? withPressure(309) : {}));
    const pressures = frames.map((frame, i) => decode(frame, i < 20 * 9 ? CLOSED : SAFE));
    expect(pressures[20 * 10]).toEqual({ ok: false, fault: 'implausible' });
    expect(pressures.at(-1)).toMatchObject({ ok: true });
  });

  test('a pressure that shows noise, or rests at atmosphere with the vent open, is believed', () => {
    const noisy = run(20 * 30, (i) => withPressure(308 + (i % 40 === 0 ? 1 : 0)));
    expect(decodeAll(noisy, CLOSED).pressurePa.ok).toBe(true);
    expect(
      decodeAll(
        run(20 * 30, () => ({})),
        SAFE,
      ).pressurePa.ok,
    ).toBe(true);
  });

  test('light is never read as negative', () => {
    const dark = run(3, () => ({ counts: { ...HEALTHY_FRAME.counts, irradiance: 99 } }));
    expect(decodeAll(dark).irradianceWPerM2).toMatchObject({ ok: true, value: 0 });
  });
});
