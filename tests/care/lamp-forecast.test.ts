import { describe, expect, test } from 'vitest';
import { forecastLamp } from '../../src/care/lamp-forecast.ts';
import { alikeOutputs, lampLifeOf } from '../../src/care/lamp-history.ts';
import { dayAfter } from '../../src/core/calendar.ts';
import { CARE, facts, lampReading, logged, repairs, service, tFactor } from './records.ts';

/** Readings every ten days, with a scatter that does not hide the decline. */
const declining = (count: number, perDay: number) =>
  Array.from({ length: count }, (_, i) =>
    lampReading(dayAfter('2024-01-01', 10 * i), 200 - perDay * 10 * i + (i % 2 === 0 ? 0.2 : -0.2)),
  );

const forecast = (bodies: ReturnType<typeof declining>, today = '2024-06-01') =>
  forecastLamp(
    { outputs: lampLifeOf(facts({ today, care: logged(...bodies) })).outputs, today },
    CARE,
    tFactor,
  );

describe('the forecast of the lamp', () => {
  test('names the day on which the line reaches the limit, inside its range', () => {
    const found = forecast(declining(12, 0.2));
    if (found.kind !== 'day') throw new Error(found.kind);
    // 200 less 0.2 a day reaches 120 after 400 days.
    expect(found.on >= dayAfter('2024-01-01', 395)).toBe(true);
    expect(found.on <= dayAfter('2024-01-01', 405)).toBe(true);
    expect(found.from < found.on && found.on < (found.to ?? '')).toBe(true);
  });

  test('cannot be said with few readings', () => {
    const { leastReadings } = CARE.forecast;
    expect(forecast(declining(leastReadings - 1, 0.5)).kind).toBe('cannot-say-yet');
    expect(forecast(declining(leastReadings, 0.5)).kind).toBe('day');
  });

  test('cannot be said of readings of a few days', () => {
    const { leastSpanDays } = CARE.forecast;
    const over = (days: number) =>
      [0, 1, 2, 3, days].map((day, i) =>
        lampReading(dayAfter('2024-01-01', day), 200 - 3 * day + (i % 2) * 0.1),
      );
    expect(forecast(over(leastSpanDays - 1)).kind).toBe('cannot-say-yet');
    expect(forecast(over(leastSpanDays)).kind).toBe('day');
  });

  test('cannot be said where the decline is not told from scatter, or the lamp grows brighter', () => {
    expect(forecast(declining(8, 0.0001))).toMatchObject({ kind: 'cannot-say-yet' });
    expect(forecast(declining(8, -0.3))).toMatchObject({ kind: 'cannot-say-yet' });
  });

  test('says so when the last reading is below already, and when it is far away', () => {
    expect(forecast([lampReading('2024-05-01', 119.9)])).toEqual({
      kind: 'below-now',
      on: '2024-05-01',
    });
    expect(forecast([lampReading('2024-05-01', 120)]).kind).toBe('cannot-say-yet');
    expect(forecast(declining(12, 0.02)).kind).toBe('far');
  });

  test('leaves the end of its range open where it lies too far ahead', () => {
    const scattered = Array.from({ length: 8 }, (_, i) =>
      lampReading(dayAfter('2024-01-01', 10 * i), 200 - 1.5 * i + (i % 2 === 0 ? 3.3 : -3.3)),
    );
    expect(forecast(scattered)).toMatchObject({ kind: 'day', to: null });
  });

  test('begins anew with a new lamp', () => {
    const care = logged(...declining(12, 0.2), service('2024-05-20', 'lamp'));
    const life = lampLifeOf(facts({ care }));
    expect(life).toMatchObject({ newOn: '2024-05-20', outputs: [], lampOnH: 0 });
  });
});

test('hours of light go on from what was stated, with the cures after it', () => {
  const care = logged(lampReading('2024-03-01', 195, 100));
  const used = [
    ...repairs(2, '2024-02-01', { lampOnS: 3600, irradianceWPerM2: 198 }),
    ...repairs(3, '2024-04-01', { lampOnS: 1800, irradianceWPerM2: 190 }),
  ];
  const { lampOnH, outputs } = lampLifeOf(facts({ care, repairs: used }));
  expect(lampOnH).toBe(101.5);
  expect(outputs.map((output) => output.lampOnH)).toEqual([0, 1, 100, 100, 100.5, 101]);
});

test('means of cures are not compared with readings against an instrument', () => {
  const readings = logged(lampReading('2024-03-01', 195), lampReading('2024-04-01', 194));
  const kinds = (cures: number) => {
    const used = repairs(cures, '2024-05-01', { irradianceWPerM2: 188 });
    const { outputs } = lampLifeOf(facts({ care: readings, repairs: used }));
    return alikeOutputs(outputs).map(({ from }) => from);
  };
  expect(kinds(2)).toEqual(['reading', 'reading']);
  expect(kinds(3)).toEqual(['repair', 'repair', 'repair']);
});
