/** The lease of the outputs, and limits that a host may tighten but never loosen. */
import { describe, expect, test } from 'vitest';
import {
  COMPILED_LIMITS,
  LIMITS_LAYOUT,
  LIMITS_VERDICTS,
  PRESSURE_LIVE,
  UNIT_SYSEX,
} from '../../../hal/firmata/protocol.ts';
import { PINS } from '../../../wiring/pin-map.ts';
import {
  BUSY,
  createBench,
  intervalMessage,
  type LimitFields,
  limitsMessage,
  PINS_BUSY,
  PINS_SAFE,
  sysex,
} from './bench.ts';

const SET_DIGITAL_PIN = 0xf5;
const isSafe = (bench: ReturnType<typeof createBench>) => () =>
  JSON.stringify(bench.pins()) === JSON.stringify(PINS_SAFE);

describe('the lease', () => {
  test('ends 500 ms after the last outputs message, with everything safe and the buzzer off', () => {
    const bench = createBench();
    bench.send([SET_DIGITAL_PIN, PINS.buzzer.firmataPin, 1]);
    bench.send([]);
    bench.want(BUSY);
    expect(bench.buzzes()).toBe(true);
    // The message took effect about half a millisecond into the 8 ms that it was given.
    const leftS = bench.timeUntil(isSafe(bench), 0.6);
    expect(leftS).toBeGreaterThan(0.492);
    expect(leftS).toBeLessThan(0.495);
    expect(bench.buzzes()).toBe(false);
    bench.chip.run(0.02);
    expect(bench.lastFrame()).toMatchObject({ acting: 2, pump: 0, lamp: 0, trips: 0 });
  });

  test('is renewed by an outputs message', () => {
    const bench = createBench();
    for (let i = 0; i < 5; i++) {
      bench.want(BUSY);
      bench.chip.run(0.45);
      expect(bench.pins()).toEqual(PINS_BUSY);
    }
  });

  test('is not renewed by text, questions, limits or a sampling interval', () => {
    const bench = createBench();
    bench.want(BUSY);
    const others = [intervalMessage(20), [0xf9], sysex([0x79]), sysex([0x6b]), limitsMessage({})];
    for (const message of others) {
      bench.chip.run(0.08);
      bench.send(message);
    }
    expect(bench.timeUntil(isSafe(bench), 0.2)).toBeLessThan(0.1);
  });

  test('starts anew with the next message', () => {
    const bench = createBench();
    bench.want(BUSY);
    bench.chip.run(0.6);
    expect(bench.pins()).toEqual(PINS_SAFE);
    bench.want(BUSY);
    expect(bench.pins()).toEqual(PINS_BUSY);
  });
});

const lastReport = (bench: ReturnType<typeof createBench>) => {
  const report = bench.limitsReports().at(-1)!;
  const { verdict, offender, taken: _, ...limits } = report;
  return {
    verdict: LIMITS_VERDICTS[verdict],
    offender: LIMITS_LAYOUT[offender]?.[0] ?? null,
    limits,
  };
};

describe('limits', () => {
  test('no tighter than compiled are accepted and reported as in force', () => {
    const bench = createBench();
    bench.send(limitsMessage({}), 0.02);
    expect(lastReport(bench)).toEqual({
      verdict: 'accepted',
      offender: null,
      limits: COMPILED_LIMITS,
    });
  });

  test('tightened ones act: pressure below the compiled ceiling trips', () => {
    const bench = createBench();
    bench.send(limitsMessage({ pressureCeiling: 500 }), 0.02);
    expect(lastReport(bench)).toMatchObject({
      verdict: 'accepted',
      limits: { ...COMPILED_LIMITS, pressureCeiling: 500 },
    });
    bench.setCounts('pressure', 501);
    expect(bench.trips()).toEqual(['pressure-ceiling']);
  });

  test('tightened ones act: a cooler heat sink puts the lamp off', () => {
    const bench = createBench();
    bench.send(limitsMessage({ heatSinkFloor: 501 }), 0.02);
    bench.want(BUSY);
    expect(bench.trips()).toEqual(['heat-sink']);
  });

  test('tightened ones act: cooler glass puts the lamp off', () => {
    const bench = createBench();
    bench.send(limitsMessage({ glassFloor: 511 }), 0.02);
    bench.want(BUSY);
    expect(bench.trips()).toEqual(['glass-hot']);
  });

  test('tightened ones act: a shorter lease ends earlier', () => {
    const bench = createBench();
    bench.send(limitsMessage({ leaseMs: 150 }), 0.02);
    bench.want(BUSY);
    const leftS = bench.timeUntil(isSafe(bench), 0.6);
    expect(leftS).toBeGreaterThan(0.142);
    expect(leftS).toBeLessThan(0.145);
  });

  const TOO_LOOSE: readonly Partial<LimitFields>[] = [
    { pressureCeiling: COMPILED_LIMITS.pressureCeiling + 1 },
    { heatSinkFloor: COMPILED_LIMITS.heatSinkFloor - 1 },
    { longestLampOnS: COMPILED_LIMITS.longestLampOnS + 1 },
    { leaseMs: COMPILED_LIMITS.leaseMs + 1 },
    { glassFloor: COMPILED_LIMITS.glassFloor - 1 },
  ];
  const ABSURD: readonly Partial<LimitFields>[] = [
    { leaseMs: 99 },
    { pressureCeiling: PRESSURE_LIVE.lowest - 1 },
  ];
  const TIGHT = {
    pressureCeiling: 400,
    heatSinkFloor: 300,
    longestLampOnS: 60,
    leaseMs: 200,
    glassFloor: 300,
  };
  test.each([
    ...TOO_LOOSE.map((fields) => [fields, 'would-loosen'] as const),
    ...ABSURD.map((fields) => [fields, 'malformed'] as const),
  ])('%o are refused, and none of the message counts', (fields, verdict) => {
    const bench = createBench();
    bench.send(limitsMessage({ ...TIGHT, ...fields }), 0.02);
    expect(lastReport(bench)).toEqual({
      verdict,
      offender: Object.keys(fields)[0],
      limits: COMPILED_LIMITS,
    });
  });

  test('the least that makes sense is accepted', () => {
    const bench = createBench();
    const least = {
      ...COMPILED_LIMITS,
      leaseMs: 100,
      longestLampOnS: 0,
      pressureCeiling: PRESSURE_LIVE.lowest,
    };
    bench.send(limitsMessage(least), 0.02);
    expect(lastReport(bench)).toMatchObject({ verdict: 'accepted', limits: least });
  });

  test('with a bad check or a wrong length are refused as such and change nothing', () => {
    const bench = createBench();
    const message = limitsMessage(TIGHT);
    bench.send(
      message.map((byte, i) => (i === 4 ? byte ^ 1 : byte)),
      0.02,
    );
    expect(lastReport(bench)).toMatchObject({ verdict: 'bad-checksum', limits: COMPILED_LIMITS });
    bench.send(sysex([UNIT_SYSEX, 0x12]), 0.02);
    expect(lastReport(bench)).toMatchObject({ verdict: 'malformed', limits: COMPILED_LIMITS });
    expect(bench.lastFrame().badMessages).toBe(2);
  });

  test('fall back to the compiled ones with a reset of the chip', () => {
    const bench = createBench();
    bench.send(limitsMessage(TIGHT), 0.02);
    bench.chip.powerCycle();
    bench.chip.run(0.08);
    bench.send(limitsMessage({ leaseMs: 501 }), 0.02);
    expect(lastReport(bench).limits).toEqual(COMPILED_LIMITS);
  });
});
