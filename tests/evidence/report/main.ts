/** `npm run evidence`: runs every outside check, prints them, writes the page, and tells by its exit. */
import { dirname } from 'node:path';
import { parseArgs } from 'node:util';
import { namedFileProblem, writeNamed } from '../../../src/app/papers/named-file.ts';
import { problemLine } from '../../../src/core/settings.ts';
import { makePrivateFolder } from '../../../src/journal/private-file.ts';
import { ALL_GROUPS } from '../all-groups.ts';
import { outcomesOf, summaryOf } from './outcome.ts';
import { renderEvidencePage } from './page.tsx';
import { terminalReport } from './terminal.ts';

const { values } = parseArgs({
  options: {
    /** Where the page goes, if not to its usual place. */
    out: { type: 'string' },
    force: { type: 'boolean', default: false },
    /** Only groups whose title has this in it. */
    only: { type: 'string', default: '' },
  },
});

const out = values.out ?? 'records/evidence.html';
const accepted = 'a new file outside the records; --force for any other';
const place = { option: '--out', records: null, force: values.force, accepted };
const taken = values.out === undefined ? null : namedFileProblem(out, place);
if (taken !== null) {
  process.stderr.write(`${problemLine(taken)}\n`);
  process.exit(2);
}
const groups = ALL_GROUPS.filter(({ title }) => title.includes(values.only)).map(outcomesOf);
process.stdout.write(terminalReport(groups));
makePrivateFolder(dirname(out));
writeNamed(out, renderEvidencePage(groups));
process.stdout.write(`Page: ${out}\n`);
process.exitCode = groups.length > 0 && summaryOf(groups).results.FAILS === 0 ? 0 : 1;
