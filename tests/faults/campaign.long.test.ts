/** More of the campaign than `npm test` has time for. */
import { expect, test } from 'vitest';
import { runHealthy } from './healthy.ts';

const SOUND_JOBS = 60;

test('no sound job has an alarm or is cut short, whatever its sensors, its break and its hands', () => {
  const wrong = Array.from({ length: SOUND_JOBS }, (_, n) => runHealthy(1000 + n)).filter(
    ({ alarms, end }) => alarms.length > 0 || end !== 'completed',
  );
  expect(wrong).toEqual([]);
}, 300_000);
