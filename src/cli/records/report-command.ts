/**
 * `meniscus report`: rewrites certificate and full report of one job, from its journal and the
 * files beside it. The person chooses pages and formats, but not their contents.
 */
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { chainCheckOf, chainFactsOf } from '../../app/papers/chain-facts.ts';
import { placeInRecords } from '../../app/papers/enter-papers.ts';
import type { NamedPlace } from '../../app/papers/named-file.ts';
import {
  FORMATS,
  type Format,
  type ReportOptions,
  writeReport,
} from '../../app/papers/write-report.ts';
import { LANGUAGES } from '../../app/prepare/languages.ts';
import { paperWordsOf } from '../../app/prepare/paper-words.ts';
import { problemLine } from '../../core/settings.ts';
import { machineClaims } from '../../report/machine-report.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { parseAgreement } from '../terminal/parse-option.ts';
import { print, printError } from '../terminal/print.ts';
import { tellWorking } from '../terminal/progress.ts';
import { refuse } from '../terminal/refuse.ts';
import { wrappedLine } from '../terminal/text-columns.ts';

interface CommandOptions {
  readonly certificate: boolean;
  readonly format: readonly Format[];
  readonly out?: string;
  readonly records: string;
  readonly photoBefore?: string;
  readonly photoAfter?: string;
  readonly agreement?: string;
  readonly language?: string;
  readonly althoughChanged: boolean;
  readonly force: boolean;
  readonly json: boolean;
}

const JOURNAL = 'journal.jsonl';

export function addReportCommand(program: Command): void {
  program
    .command('report')
    .description('write certificate and full report of a job, as HTML and PDF')
    .argument('<job>', 'a journal.jsonl, the folder of a job, or the name of a record')
    .option('--certificate', 'only the certificate', false)
    .option('--format <list>', 'html, pdf or both, separated by a comma', parseFormats, FORMATS)
    .option('--out <folder>', 'folder for the pages (default: beside the journal)')
    .option('--records <folder>', 'folder in which a record is looked up by name', 'records')
    .option(
      '--photo-before <file>',
      'JPEG or PNG (default: photo-before.jpg or .png beside the journal)',
    )
    .option(
      '--photo-after <file>',
      'JPEG or PNG (default: photo-after.jpg or .png beside the journal)',
    )
    .option(
      '--language <name or folder>',
      `of the certificate: ${LANGUAGES.join(', ')}, or a folder (default: the job's own)`,
    )
    .option('--agreement <text>', 'what was agreed before work began', parseAgreement)
    .option(
      '--although-changed',
      'write pages from a journal that differs from the chain; every sheet says so',
      false,
    )
    .option('--force', 'with --out: write even among records, or over existing files', false)
    .option('--json', 'print verdict, dose and files as JSON', false)
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
  throw new InvalidArgumentError(`accepted: ${FORMATS.join(', ')}, or both separated by a comma.`);
}

async function reportCommand(job: string, options: CommandOptions): Promise<number> {
  const { certificate, format, out, photoBefore, photoAfter, agreement, json, language } = options;
  const words = language === undefined ? null : paperWordsOf(language);
  if (words?.ok === false) return refuse(words.problems.map(problemLine));
  const journal = journalOf(job, options.records);
  const check = chainCheckOf(journal);
  if (check.state === 'differs') {
    tellDiffering(journal, check.words, options.althoughChanged);
    if (!options.althoughChanged) return EXIT.fault;
  } else if (check.words !== null) {
    printError(`note: ${check.words}; run: meniscus records verify\n`);
  }
  const facts = chainFactsOf(journal, check);
  const asked: ReportOptions = {
    ...facts,
    formats: format,
    outside: { ...facts.outside, ...(agreement !== undefined && { agreement }) },
    ...(words !== null && { words: words.value }),
    ...(certificate && { pages: ['certificate'] }),
    ...(out !== undefined && { out: { folder: out, place: placeOf(options) } }),
    ...(photoBefore !== undefined && { photoBefore }),
    ...(photoAfter !== undefined && { photoAfter }),
  };
  tellWorking('Writing report and certificate');
  const { ok, lines, files, data } = await writeReport(journal, asked);
  if (!ok || data === null) {
    printError(`${lines.join('\n')}\n`);
    return EXIT.badInput;
  }
  const { verdict, claims, outcome, doses } = data;
  const printed = json
    ? JSON.stringify({ verdict, claims: machineClaims(claims), outcome, doses, files }, null, 2)
    : lines.flatMap(wrappedLine).join('\n');
  print(`${printed}\n`);
  const entered = check.state !== 'agrees' || (await entersPages(journal, files));
  return check.words === null && entered ? EXIT.completed : EXIT.fault;
}

/** False where the chain could not take the pages. */
async function entersPages(journal: string, files: readonly string[]): Promise<boolean> {
  const { recordPapers } = await import('../run/record-repair.ts');
  const at = new Date().toISOString();
  const { ok, lines } = recordPapers({ ...placeInRecords(journal), at, files });
  if (!ok) printError(`${lines.join('\n')}\n`);
  return ok;
}

function tellDiffering(journal: string, words: string | null, written: boolean): void {
  const then = written
    ? 'every sheet says so.'
    : 'nothing was written. --although-changed writes pages on which every sheet says so.';
  printError(`${journal} does not agree with the chain of records: ${words}\n${then}\n`);
}

const placeOf = ({ records, force }: CommandOptions): NamedPlace => ({
  option: '--out',
  records,
  force,
  accepted: 'a folder outside the records, without these pages; with --force any other',
});

/** An existing file, otherwise a folder with a journal, otherwise a record of this name. */
function journalOf(job: string, records: string): string {
  if (existsSync(job)) return statSync(job).isDirectory() ? join(job, JOURNAL) : job;
  const named = join(records, job, JOURNAL);
  return existsSync(named) ? named : job;
}
