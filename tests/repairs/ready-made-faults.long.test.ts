/** Each ready-made fault in the demo repair itself. */
import { test } from 'vitest';
import { DEFAULT_CONFIG } from '../configs.ts';
import { EXPECTED_ALARMS, expectItsAlarm } from './ready-made-faults.ts';

test.each(Object.entries(EXPECTED_ALARMS))(
  '%s raises its alarm and no other, and ends as it should',
  (name, row) => expectItsAlarm(name, row.inDemoJob ?? row, DEFAULT_CONFIG),
);
