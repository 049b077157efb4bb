/**
 * `meniscus report`: writes certificate and full report of one job again, from its journal and what
 * lies beside it. Which pages and formats is the person's choice; what is in them is not.
 */
import { existsSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { chainPath } from '../records/store/paths.ts';
import type { OutsideFacts } from './document-facts.ts';
import { EXIT } from './exit-codes.ts';
import { parseAgreement } from './parse-option.ts';
import { tellWorking } from './progress.ts';
import { FORMATS, type Format, type ReportOptions, writeReport } from './write-report.ts';

interface CommandOptions {
  readonly certificate: boolean;
  readonly format: readonly Format[];
  readonly out?: string;
  readonly records: string;
  readonly photoBefore?: string;
  readonly photoAfter?: string;
  readonly agreement?: string;
  readonly json: boolean;
}

const JOURNAL = 'journal.jsonl';

export function addReportCommand(program: Command): void {
  program
    .command('report')
    .description('write certificate and full report of a job, as HTML and PDF')
    .argument('<job>', 'a journal.jsonl, the folder of a job, or the name of a record')
    .option('--certificate', 'only the certificate', false)
    .option('--format <list>', 'html, pdf or both, with a comma', parseFormats, FORMATS)
    .option('--out <folder>', 'where the pages go (else beside the journal)')
    .option('--records <folder>', 'where a record is looked for by its name', 'records')
    .option(
      '--photo-before <file>',
      'JPEG or PNG (else photo-before.jpg or .png beside the journal)',
    )
    .option('--photo-after <file>', 'JPEG or PNG (else photo-after.jpg or .png beside the journal)')
    .option('--agreement <text>', 'what was agreed before work began', parseAgreement)
    .option('--json', 'tell verdict, dose and files as JSON', false)
    .addHelpText('after', '\nExample: meniscus report demo-0001 --certificate --format pdf\n')
    .action(async (job: string, options: CommandOptions) => {
      process.exitCode = await reportCommand(job, options);
    });
}

function parseFormats(words: string): readonly Format[] {
  const named = words.split(',').map((word) => word.trim());
  const formats = FORMATS.filter((format) => named.includes(format));
  const known: readonly string[] = formats;
  if (named.length > 0 && named.every((name) => known.includes(name))) return formats;
  throw new InvalidArgumentError(`accepted: ${FORMATS.join(', ')}, or both with a comma.`);
}

async function reportCommand(job: string, options: CommandOptions): Promise<number> {
  const { certificate, format, out, photoBefore, photoAfter, agreement, json } = options;
  const journal = journalOf(job, options.records);
  const known = await chainFactsOf(dirname(journal));
  const asked: ReportOptions = {
    formats: format,
    outside: { ...known, ...(agreement !== undefined && { agreement }) },
    ...(certificate && { pages: ['certificate'] }),
    ...(out !== undefined && { out }),
    ...(photoBefore !== undefined && { photoBefore }),
    ...(photoAfter !== undefined && { photoAfter }),
  };
  tellWorking('Writing report and certificate');
  const { ok, lines, files, data } = await writeReport(journal, asked);
  if (!ok || data === null) {
    process.stderr.write(`${lines.join('\n')}\n`);
    return EXIT.badInput;
  }
  const { verdict, reservations, outcome, doses } = data;
  const told = json
    ? JSON.stringify({ verdict, reservations, outcome, doses, files }, null, 2)
    : lines.join('\n');
  process.stdout.write(`${told}\n`);
  return EXIT.completed;
}

/** What the chain beside the job's folder tells of it; nothing where there is no chain. */
async function chainFactsOf(jobFolder: string): Promise<OutsideFacts> {
  const folder = resolve(jobFolder);
  const records = dirname(folder);
  if (!existsSync(chainPath(records))) return {};
  // The database is loaded only where there is a chain.
  const { openRecords } = await import('../records/store/records-store.ts');
  const opened = openRecords(records, { readOnly: true });
  if (!opened.ok) return {};
  const { recordFactsOf } = await import('./record-facts.ts');
  const facts = recordFactsOf(opened.value, basename(folder));
  opened.value.close();
  return facts;
}

/** A file as it is named, else a folder with a journal, else a record of this name. */
function journalOf(job: string, records: string): string {
  if (existsSync(job)) return statSync(job).isDirectory() ? join(job, JOURNAL) : job;
  const named = join(records, job, JOURNAL);
  return existsSync(named) ? named : job;
}
