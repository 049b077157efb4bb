/** A program of its own that appends entries to a folder as fast as it can, and says each when done. */
import { writeSync } from 'node:fs';
import { openRecords } from '../../../src/store/records-store.ts';

const [folder = '', name = '', count = '0'] = process.argv.slice(2);
const opened = openRecords(folder);
if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
for (let n = 0; n < Number(count); n++) {
  const { seq } = opened.value.append({
    at: '2026-03-01T09:00:00.000Z',
    kind: 'care',
    id: `${name}-${n}`,
    body: { what: 'demo', words: 'x'.repeat(500) },
    personal: { by: name },
  });
  writeSync(1, `${seq}\n`);
}
opened.value.close();
