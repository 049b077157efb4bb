import { describe, expect, test } from 'vitest';
import { drawTolerance, sensorRatios } from '../../../sim/board/sensors.ts';
import { createChance } from '../../../sim/random.ts';
import { FULL_SCALE_COUNTS } from '../../../src/core/frame.ts';
import type { GuidedResult } from '../../../src/procedure/guided/guided-result.ts';
import { pressurePaOf } from '../../../src/signal/channels.ts';
import { HEALTHY_TRUTH } from '../../frames.ts';
import { DEMO_UNIT, type GuidedRun, runGuided } from './guided-bench.ts';

type Of<C extends GuidedResult['channel']> = Extract<GuidedResult, { channel: C }>;

function resultOf<C extends GuidedResult['channel']>({ result }: GuidedRun, channel: C): Of<C> {
  if (result?.channel !== channel) throw new Error(`no result of ${channel}`);
  return result as Of<C>;
}

/** What a unit of this seed reads of a true pressure, without noise, by these ends of its line. */
function readPa(seed: number, pressurePa: number, line: { zeroPa: number; fullPa: number }) {
  const tolerance = drawTolerance(createChance(seed, 'tolerance'));
  const truth = { ...HEALTHY_TRUTH, pressurePa, sensorK: 295.15, sinceZeroS: 60 };
  const counts = sensorRatios(truth, tolerance).pressure * FULL_SCALE_COUNTS;
  const read = pressurePaOf(counts, { ...DEMO_UNIT.channels, pressure: line });
  if (read === null) throw new Error('out of range');
  return read;
}

describe('pressure', () => {
  test('finds each unit’s own error within what it says of it, and nothing on the whole', () => {
    const normalised: number[] = [];
    for (let seed = 1; seed <= 6; seed++) {
      const { after, uncertainty, passed } = resultOf(
        runGuided({ procedure: 'pressure', seed }),
        'pressure',
      );
      expect(passed).toBe(true);
      const u = uncertainty?.standard ?? Number.NaN;
      for (const pa of [40_000, 100_000]) normalised.push((readPa(seed, pa, after) - pa) / u);
    }
    for (const deviation of normalised) expect(Math.abs(deviation)).toBeLessThan(3);
    const mean = normalised.reduce((sum, value) => sum + value, 0) / normalised.length;
    // The reference errs both points of a unit alike, so that only units count as independent.
    expect(Math.abs(mean)).toBeLessThan(3 / Math.sqrt(normalised.length / 2));
  });

  test('a sensor that has shifted reads right again with the figures that come out', () => {
    const shift = {
      kind: 'sensor-offset',
      channel: 'pressure',
      amount: 6,
      from: { atS: 0 },
    } as const;
    const found = resultOf(runGuided({ procedure: 'pressure', faults: [shift] }), 'pressure');
    // Six counts of 0.49 kPa.
    expect(found.corrections[0]).toBeLessThan(-2_500);
    expect(found.passed).toBe(true);
    const unit = { ...DEMO_UNIT, channels: { ...DEMO_UNIT.channels, pressure: found.after } };
    const again = resultOf(runGuided({ procedure: 'pressure', faults: [shift], unit }), 'pressure');
    const u = found.uncertainty?.standard ?? Number.NaN;
    expect(again.corrections.length).toBeGreaterThan(0);
    for (const correction of again.corrections) expect(Math.abs(correction)).toBeLessThan(3 * u);
  });

  test('a shift that no drift explains is not put into force, and is told what to look for', () => {
    const shift = {
      kind: 'sensor-offset',
      channel: 'pressure',
      amount: 20,
      from: { atS: 0 },
    } as const;
    const run = runGuided({ procedure: 'pressure', faults: [shift] });
    const { passed, after, before, refusals } = resultOf(run, 'pressure');
    expect(passed).toBe(false);
    expect(after).toEqual(before);
    expect(refusals.join(' ')).toContain('Look for');
    expect(run.last.state.why?.shown).toEqual({ say: 'keptNotPassed' });
  });
});

describe('light and temperature', () => {
  test('light: the factor is the sensor’s own, within what is said of it', () => {
    const { points, uncertainty } = resultOf(runGuided({ procedure: 'uv', seed: 4 }), 'irradiance');
    expect(points).toHaveLength(3);
    const t = drawTolerance(createChance(4, 'tolerance'));
    const gain = t.irradianceGain * t.irradianceCosine * t.irradianceSpectralRatio;
    const [factor = 0] = points.map(({ reference, reading }) => reference / reading);
    expect(Math.abs(factor * gain - 1)).toBeLessThan(3 * (uncertainty?.standard ?? 0));
  });

  test('temperature: leads, series resistor and self-heating are found at both points', () => {
    const result = resultOf(runGuided({ procedure: 'temperature', seed: 2 }), 'temperature');
    const u = result.uncertainty?.standard ?? Number.NaN;
    // Half a milliwatt over 8 mW/K warms the sensor, and its leads make it seem a little colder.
    for (const correction of result.corrections) {
      expect(correction).toBeGreaterThan(-0.08 - 3 * u);
      expect(correction).toBeLessThan(3 * u);
    }
    expect(result.passed).toBe(true);
  });
});

describe('seal and pump', () => {
  test('a sound unit passes, with the leak, time and depth of its plant', () => {
    const run = runGuided({ procedure: 'health' });
    const result = resultOf(run, 'health');
    expect(result.passed).toBe(true);
    // From the plant itself: the demo foot lets 16.5 Pa/s into the closed chamber.
    expect(Math.abs(result.sealLeakPaPerS - 16.5)).toBeLessThan(3 * result.sealLeakStandardPaPerS);
    // The demo pump leaves 8.0 % of the air; the sensor is within 0.2 % of 400 kPa.
    expect(Math.abs(result.ultimatePa - 8_060)).toBeLessThan(800);
    expect(result.pumpDownS).toBeGreaterThan(1);
    expect(result.pumpDownS).toBeLessThan(2.5);
  });

  test.each([
    ['stop-read-shorted', { emergencyStop: false, overPressureSwitch: true }],
    ['over-pressure-shorted', { emergencyStop: true, overPressureSwitch: false }],
  ] as const)('a unit with %s does not pass: its contact never moved', (kind, interlocks) => {
    const run = runGuided({ procedure: 'health', faults: [{ kind, from: { atS: 0 } }] });
    const result = resultOf(run, 'health');
    expect(result.interlocks).toEqual(interlocks);
    expect(result.passed).toBe(false);
  });

  test('the stop is pressed on purpose without an alarm, and nothing is driven meanwhile', () => {
    let sawBoth = 0;
    const run = runGuided({
      procedure: 'health',
      watch: ({ reading, outputs }) => {
        const { emergencyStopPressed, overPressureTripped } = reading.switches;
        if (!emergencyStopPressed && !overPressureTripped) return false;
        sawBoth += emergencyStopPressed ? 1 : 1000;
        expect(outputs).toMatchObject({ pumpRatio: 0, ventOpen: true, lampEnabled: false });
        return false;
      },
    });
    expect(sawBoth).toBeGreaterThan(1000);
    expect(run.events.filter(({ kind }) => kind === 'alarm')).toEqual([]);
    expect(resultOf(run, 'health').interlocks).toEqual({
      emergencyStop: true,
      overPressureSwitch: true,
    });
  });

  test('grit under the foot does not pass, and a worn pump takes longer', () => {
    const leaky = resultOf(
      runGuided({ procedure: 'health', faults: [{ kind: 'seal-leak', from: { atS: 0 } }] }),
      'health',
    );
    expect(leaky.passed).toBe(false);
    expect(leaky.refusals.join(' ')).toContain('leaks');
    const worn = resultOf(
      runGuided({
        procedure: 'health',
        faults: [{ kind: 'pump-worn', amount: 0.6, from: { atS: 0 } }],
      }),
      'health',
    );
    const sound = resultOf(runGuided({ procedure: 'health' }), 'health');
    // Its flow alone would make it 1 / 0.6 as long; the motor's start takes as long as ever.
    expect(worn.pumpDownS ?? 0).toBeGreaterThan(
      1.4 * (sound.pumpDownS ?? Number.POSITIVE_INFINITY),
    );
  });

  test('a pump with less than half of its flow cannot be told from a wrong sensor, and is held', () => {
    const { events } = runGuided({
      procedure: 'health',
      faults: [{ kind: 'pump-worn', amount: 0.3, from: { atS: 0 } }],
    });
    expect(events).toContainEqual(
      expect.objectContaining({ kind: 'alarm', alarm: 'pump-no-effect', action: 'hold' }),
    );
    expect(events.at(-1)).toMatchObject({ kind: 'end', reason: 'stopped-by-person' });
  });
});

describe('something goes wrong', () => {
  const alarmsOf = ({ events }: GuidedRun): readonly string[] =>
    events.flatMap((event) =>
      event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.alarm] : [],
    );

  test('a shield lifted under the lamp holds it; closed again, the comparison is made anew', () => {
    const run = runGuided({
      procedure: 'uv',
      faults: [
        {
          kind: 'shield-opened',
          from: { step: 'light-settle', afterS: 20 },
          mendedBy: 'close-shield',
        },
      ],
    });
    expect(alarmsOf(run)).toEqual(['shield-open']);
    expect(run.titles.filter((title) => title.startsWith('U3')).length).toBeGreaterThan(1);
    expect(resultOf(run, 'irradiance').passed).toBe(true);
    expect(resultOf(run, 'irradiance').points).toHaveLength(3);
  });

  test('a dead pump is told, and a person who has tried often enough stops', () => {
    const run = runGuided({
      procedure: 'pressure',
      faults: [{ kind: 'pump-dead', from: { step: 'vacuum-pull', afterS: 0.1 } }],
    });
    expect(new Set(alarmsOf(run))).toEqual(new Set(['pump-no-effect']));
    expect(run.last.state.endReason).toBe('stopped-by-person');
    expect(run.result).toBeNull();
  });

  test('a board that falls silent under vacuum is safe by itself, and nothing goes on alone', () => {
    const run = runGuided({
      procedure: 'health',
      faults: [{ kind: 'link-mute', from: { step: 'leak-watch', afterS: 5 }, lastsS: 2 }],
    });
    expect(alarmsOf(run)).toContain('link-lost');
    expect(resultOf(run, 'health').passed).toBe(true);
  });
});
