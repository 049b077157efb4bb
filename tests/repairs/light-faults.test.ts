/** The faults of lamp and light sensor that lie best; the others are in the long test. */
import { describe, expect, test } from 'vitest';
import { expectNotShown, FALSE_LIGHT, run, saysShown, stated, trueShare } from './light-faults.ts';

describe('a sound unit', () => {
  const sound = run([]);

  test('shows a dose that the break got, by gaps that all passed, without an alarm', () => {
    expect(sound.end).toBe('completed');
    expect(sound.alarms).toEqual([]);
    expect(saysShown(sound)).toBe(true);
    expect(trueShare(sound)).toBeGreaterThanOrEqual(1);
    expect(stated(sound, 'gapsPassed')).toBeGreaterThanOrEqual(4);
    expect(stated(sound, 'gapsFailed')).toBe(0);
    expect(stated(sound, 'unconfirmedDoseJPerM2')).toBe(0);
  });

  test('is out of full light for less than 0.6 s in each gap', () => {
    const lit = sound.snapshots.filter(({ phase }) => phase === 'cure');
    const dark = lit.filter(({ irradianceWPerM2: w }) => w !== null && w < 150);
    const gaps = (stated(sound, 'gapsPassed') ?? 0) + 1;
    expect((dark.length * 0.05) / gaps).toBeLessThan(0.6);
  });
});

describe('light that is not the lamp’s, or not as bright as it reads', () => {
  test.each(FALSE_LIGHT.filter(({ liesWell }) => liesWell))('is not shown: $fault', expectNotShown);
});
