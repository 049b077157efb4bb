/** Damages of one pane: each record names the others, whichever was repaired first. */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import intake from '../../../src/app/defaults/intake.json' with { type: 'json' };
import { extrasIn } from '../../../src/app/prepare/job-facts.ts';
import { bodyOf, openedIn } from '../../store/records-folder.ts';
import { runHere } from '../here.ts';
import { scratchFolder } from '../process.ts';

const folder = scratchFolder();
const records = join(folder, 'records');

test('a record names the damages that were looked at before it, and those after it name it', async () => {
  const store = openedIn(records);
  const put = (id: string, samePane: readonly string[]) => {
    const { samePane: named = [] } = extrasIn({
      about: {
        day: '2000-01-01',
        intake: { sheet: { ...intake, samePane }, assessment: null, drawingSvg: null },
        resin: null,
        pitResin: null,
        calibrations: null,
        care: null,
        agreement: null,
      },
    });
    const at = '2026-03-01T09:00:00.000Z';
    const body = { ...bodyOf(id), ...(named.length > 0 && { samePane: named }) };
    store.append({ at, kind: 'repair', id, body, personal: null });
  };
  put('job-7a', []);
  put('job-7b', ['job 7a']);
  put('job-8', []);
  store.close();
  const paneOf = async (id: string) => {
    const shown = await runHere(['records', 'show', id, '--json'], folder);
    return JSON.parse(shown.out).samePane;
  };
  // The reference of a sheet may hold what the name of a record may not.
  expect(await paneOf('job-7b')).toEqual(['job-7a']);
  expect(await paneOf('job-7a')).toEqual(['job-7b']);
  expect(await paneOf('job-8')).toEqual([]);
  const { out } = await runHere(['records', 'show', 'job-7a'], folder);
  expect(out).toMatch(/also on its pane +job-7b/);
});
