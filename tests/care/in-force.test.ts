import { describe, expect, test } from 'vitest';
import type { CareBody } from '../../src/care/care-entry.ts';
import { calibrationOf } from '../../src/care/in-force.ts';
import { facts, logged, pressureCalibration, service } from './records.ts';

const first = pressureCalibration('2024-01-01', { after: { zeroPa: 500, fullPa: 400_500 } });
const second = pressureCalibration('2024-03-01', {
  before: { zeroPa: 500, fullPa: 400_500 },
  after: { zeroPa: 900, fullPa: 400_900 },
});

const onDay = (today: string, ...bodies: readonly CareBody[]) =>
  calibrationOf('pressure', facts({ today, care: logged(...bodies) })).inForce?.body.on ?? null;

describe('the calibration in force', () => {
  test('is the latest that passed up to that day, however late it was written down', () => {
    expect(onDay('2023-12-31', first, second)).toBeNull();
    expect(onDay('2024-01-01', first, second)).toBe('2024-01-01');
    expect(onDay('2024-02-29', first, second)).toBe('2024-01-01');
    expect(onDay('2024-03-01', first, second)).toBe('2024-03-01');
    expect(onDay('2024-06-01', second, first)).toBe('2024-03-01');
  });

  test('is not one that did not pass', () => {
    const failed = pressureCalibration('2024-04-01', { passed: false });
    expect(onDay('2024-06-01', first, failed)).toBe('2024-01-01');
  });

  test('is kept after it has expired, since nothing better is known', () => {
    expect(onDay('2034-06-01', first)).toBe('2024-01-01');
  });

  test('may be made from those before it, or from the unit file again', () => {
    const anew = pressureCalibration('2024-04-01');
    expect(onDay('2024-06-01', first, second, anew)).toBe('2024-04-01');
  });

  test('is none of another range or sensor', () => {
    const other = pressureCalibration('2024-04-01', { before: { zeroPa: 0, fullPa: 250_000 } });
    expect(onDay('2024-06-01', first, other)).toBe('2024-01-01');
    expect(onDay('2024-06-01', second)).toBeNull();
    expect(onDay('2024-06-01', first, service('2024-02-01', 'pressure-sensor'))).toBeNull();
  });

  test('is not one of the very day on which a change of sensor was written down later', () => {
    const known = (loggedOn: string) =>
      calibrationOf(
        'pressure',
        facts({
          care: [
            { seq: 1, loggedOn, body: service('2024-01-01', 'pressure-sensor') },
            { seq: 2, loggedOn: '2024-01-10', body: first },
          ],
        }),
      ).inForce;
    expect(known('2024-01-01')?.seq).toBe(2);
    expect(known('2024-01-09')).toBeNull();
  });
});
