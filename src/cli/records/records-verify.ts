/**
 * `meniscus records verify`: checks whether everything is as it was written, and names the first
 * broken link if not.
 */
import { existsSync } from 'node:fs';
import { type Command, InvalidArgumentError } from 'commander';
import { problemLine } from '../../core/settings.ts';
import { findingLine } from '../../store/chain/finding.ts';
import { fingerprintOf } from '../../store/chain/signature.ts';
import { knownUnit } from '../../store/chain/unit-key.ts';
import type { Verification } from '../../store/verify/verify.ts';
import { countWords } from '../terminal/count-words.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain, type RecordsOptions } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { createProgress } from '../terminal/progress.ts';
import { unitFolder } from '../terminal/this-unit.ts';

interface VerifyOptions extends RecordsOptions {
  readonly json: boolean;
  readonly quick: boolean;
  readonly certificate?: string;
  readonly expect?: string;
}

export function addVerify(records: Command): void {
  records
    .command('verify')
    .description('check chain, signatures, journals, pages, personal data and database')
    .option('--quick', 'compare journals by their hash only, without running them again', false)
    .option(
      '--certificate <file|code>',
      'hold one page (PDF or HTML), or the text of its code, against the chain',
    )
    .option(
      '--expect <hash>',
      'hold the chain against the hash of an entry noted elsewhere',
      parseHash,
    )
    .option('--json', 'as JSON', false)
    .addHelpText('after', '\nExample: meniscus records verify --certificate certificate.pdf\n')
    .action(async (_, command: Command) => {
      process.exitCode = await verify(command.optsWithGlobals<VerifyOptions>());
    });
}

/** A person may note the beginning of a hash. */
const NOTED_HASH = /^[0-9a-f]{16,64}$/;

function parseHash(words: string): string {
  const hash = words.trim().toLowerCase();
  if (NOTED_HASH.test(hash)) return hash;
  throw new InvalidArgumentError('accepted: the first 16 to 64 hexadecimal digits of a hash.');
}

async function verify(options: VerifyOptions): Promise<number> {
  const { records, json, quick, certificate, expect } = options;
  if (!existsSync(records)) {
    const accepted = 'a folder of records';
    complain([problemLine({ file: records, path: '', value: 'missing', accepted })]);
    return EXIT.badInput;
  }
  if (certificate !== undefined || expect !== undefined) {
    const { verifyPaper } = await import('./records-verify-paper.ts');
    return verifyPaper({ records, json, certificate, expect });
  }
  const { verifyRecords } = await import('../../store/verify/verify.ts');
  // Only the walk knows the number of bytes, so progress is reported in thousandths.
  const progress = createProgress('verifying records', 1000);
  let reported = 0;
  const derive = quick ? null : (await import('./derived-entry.ts')).deriveIn(records);
  const onProgress = (doneBytes: number, allBytes: number): void => {
    const share = Math.floor((1000 * doneBytes) / Math.max(1, allBytes));
    progress.step(share - reported);
    reported = share;
  };
  const unit = unitFolder();
  const result = verifyRecords(records, onProgress, { unitFolder: unit, derive });
  progress.clear();
  const text = json ? JSON.stringify(result, null, 2) : linesOf(records, result).join('\n');
  print(`${text}\n`);
  return result.ok ? EXIT.completed : EXIT.fault;
}

const SHOWN = 10;

function linesOf(folder: string, result: Verification): readonly string[] {
  const { findings, findingCount, last } = result;
  const [first, ...others] = findings;
  const counted = countedWords(result);
  const heads =
    first === undefined
      ? [`${folder}: every link holds. ${counted}.`]
      : [
          `${folder}: NOT as it was written. ${counted}.`,
          'First broken link:',
          `  ${findingLine(first)}`,
          ...(others.length > 0 ? ['Also:'] : []),
          ...others.slice(0, SHOWN).map((finding) => `  ${findingLine(finding)}`),
          ...(findingCount > SHOWN + 1 ? [`  and ${findingCount - SHOWN - 1} more`] : []),
        ];
  return [
    ...heads,
    ...keyLines(result),
    ...result.removals.map(({ id, at }) => `${id}: personal data removed on ${at}`),
    ...result.remarks.map((remark) => `note: ${remark}`),
    ...(last.seq === 0 ? [] : [`Last entry ${last.seq}, ${last.hash}`, ...CANNOT_KNOW]),
  ];
}

const countedWords = ({ entries, journals, derived, papers, personal }: Verification): string =>
  [
    countWords(entries, 'entry', 'entries'),
    countWords(journals, 'journal', 'journals'),
    ...(derived === 0 ? [] : [`${derived} of them decided again`]),
    countWords(papers, 'page or photograph', 'pages and photographs'),
    `personal data of ${countWords(personal.kept, 'entry', 'entries')}`,
  ].join(', ');

function keyLines({ keys, unsigned, entries }: Verification): readonly string[] {
  if (entries === 0) return [];
  const own = knownUnit(unitFolder());
  const ownKey = own === null ? null : fingerprintOf(own.signer.by);
  const signed = keys.map(
    ({ fingerprint, entries: count }) =>
      `Signed by the unit key ${fingerprint}${fingerprint === ownKey ? ", this computer's" : ''}: ${countWords(count, 'entry', 'entries')}`,
  );
  return unsigned === 0
    ? signed
    : [...signed, `Not signed: ${countWords(unsigned, 'entry', 'entries')}`];
}

const CANNOT_KNOW = [
  'What this cannot know: whoever can use the unit key can write another history, and a chain',
  'cut at its end looks complete elsewhere. Compare the last entry and the key with papers that',
  'were given out: --certificate FILE, --expect HASH.',
];
