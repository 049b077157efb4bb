import { describe, expect, test } from 'vitest';
import { BATCH_STATES } from '../../src/core/events.ts';
import { type Actuators, SAFE } from '../../src/core/frame.ts';
import { guard } from '../../src/safety/guard.ts';
import { faulty, HEALTHY_READING } from '../frames.ts';

const FULL: Actuators = {
  pumpRatio: 1,
  selector: 'pressure',
  ventOpen: false,
  lampEnabled: true,
  lampRatio: 1,
};
const OK = {
  batch: 'running',
  phase: 'cure',
  reading: HEALTHY_READING,
  alarmStops: false,
  shieldShown: true,
} as const;
const switched = (change: Partial<typeof HEALTHY_READING.switches>) => ({
  ...HEALTHY_READING,
  switches: { ...HEALTHY_READING.switches, ...change },
});

describe('the guard', () => {
  test('lets through what is sound while the job runs', () => {
    expect(guard(FULL, OK)).toEqual(FULL);
  });

  test.each(BATCH_STATES.filter((state) => state !== 'running'))(
    'makes safe when the job is %s',
    (batch) => {
      expect(guard(FULL, { ...OK, batch })).toEqual(SAFE);
    },
  );

  test('makes safe for an alarm, the emergency stop, the over-pressure switch and a mute board', () => {
    expect(guard(FULL, { ...OK, alarmStops: true })).toEqual(SAFE);
    for (const reading of [
      switched({ emergencyStopPressed: true }),
      switched({ overPressureTripped: true }),
      { ...HEALTHY_READING, link: 'mute' as const },
    ]) {
      expect(guard(FULL, { ...OK, reading })).toEqual(SAFE);
    }
  });

  test.each([Number.NaN, -0.01, 1.01, Number.POSITIVE_INFINITY])(
    'makes safe for a drive of %d',
    (value) => {
      expect(guard({ ...FULL, pumpRatio: value }, OK)).toEqual(SAFE);
      expect(guard({ ...FULL, lampRatio: value }, OK)).toEqual(SAFE);
    },
  );

  test('no pump and no closed vent without a pressure to believe', () => {
    const reading = { ...HEALTHY_READING, pressurePa: faulty('stale') };
    expect(guard(FULL, { ...OK, reading })).toMatchObject({ pumpRatio: 0, ventOpen: true });
  });

  test('no light with the shield open, outside the cure, or without light and heat-sink reading', () => {
    const dark = { lampEnabled: false, lampRatio: 0 };
    expect(guard(FULL, { ...OK, reading: switched({ shieldClosed: false }) })).toMatchObject(dark);
    expect(guard(FULL, { ...OK, shieldShown: false })).toMatchObject(dark);
    expect(guard(FULL, { ...OK, phase: 'place-lamp' })).toMatchObject(dark);
    for (const key of ['irradianceWPerM2', 'heatSinkK'] as const) {
      const reading = { ...HEALTHY_READING, [key]: faulty('out-of-range') };
      expect(guard(FULL, { ...OK, reading })).toMatchObject(dark);
    }
  });
});
