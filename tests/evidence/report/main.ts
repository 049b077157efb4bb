/** `npm run evidence`: runs every outside check, prints them, writes the page, and tells by its exit. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { parseArgs } from 'node:util';
import { ALL_GROUPS } from '../all-groups.ts';
import { outcomesOf, summaryOf } from './outcome.ts';
import { renderEvidencePage } from './page.tsx';
import { terminalReport } from './terminal.ts';

const { values } = parseArgs({
  options: {
    /** Where the page goes. */
    out: { type: 'string', default: 'records/evidence.html' },
    /** Only groups whose title has this in it. */
    only: { type: 'string', default: '' },
  },
});

const groups = ALL_GROUPS.filter(({ title }) => title.includes(values.only)).map(outcomesOf);
process.stdout.write(terminalReport(groups));
mkdirSync(dirname(values.out), { recursive: true });
writeFileSync(values.out, renderEvidencePage(groups));
process.stdout.write(`Page: ${values.out}\n`);
process.exitCode = groups.length > 0 && summaryOf(groups).results.FAILS === 0 ? 0 : 1;
