/** What the terminal says against a repair: each reason once, with the claims that it stands against. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeReport } from '../../../src/app/papers/write-report.ts';
import { scratchFolder } from '../../cli/process.ts';
import { alarmEvent, at, GOOD_JOB, journalOf } from '../../report/job-story.ts';

test('a reason that stands against several claims is said once and names them', async () => {
  const journal = join(scratchFolder(), 'journal.jsonl');
  const events = [...GOOD_JOB, at(195, alarmEvent('board-clock', 'warn'))];
  writeFileSync(journal, journalOf(events, {}));
  const { lines } = await writeReport(journal, { formats: ['html'], pages: ['certificate'] });
  const against = lines.slice(
    lines.findIndex((line) => line.startsWith('NOT ')),
    -1,
  );
  const why = '  alarm board clock at 3:15 min: Expected demo, seen other';
  expect(against.slice(0, 4)).toEqual([
    'NOT SHOWN: the clock or the light sensor cannot be relied on',
    why,
    'NOT SHOWN: the clock cannot be relied on (seal, times held, clock)',
    why,
  ]);
  expect(against.filter((line) => line === why)).toHaveLength(2);
});
