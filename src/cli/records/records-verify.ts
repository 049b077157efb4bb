/**
 * `meniscus records verify`: checks whether everything is as it was written, and names the first
 * broken link if not.
 */
import { existsSync } from 'node:fs';
import type { Command } from 'commander';
import { problemLine } from '../../core/settings.ts';
import { findingLine } from '../../store/chain/finding.ts';
import type { Verification } from '../../store/verify/verify.ts';
import { countWords } from '../terminal/count-words.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain, type RecordsOptions } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';
import { createProgress } from '../terminal/progress.ts';

interface VerifyOptions extends RecordsOptions {
  readonly json: boolean;
}

export function addVerify(records: Command): void {
  records
    .command('verify')
    .description('check chain, journals, personal data and database against each other')
    .option('--json', 'as JSON', false)
    .addHelpText('after', '\nExample: meniscus records verify\n')
    .action(async (_, command: Command) => {
      process.exitCode = await verify(command.optsWithGlobals<VerifyOptions>());
    });
}

async function verify({ records, json }: VerifyOptions): Promise<number> {
  if (!existsSync(records)) {
    const accepted = 'a folder of records';
    complain([problemLine({ file: records, path: '', value: 'missing', accepted })]);
    return EXIT.badInput;
  }
  const { verifyRecords } = await import('../../store/verify/verify.ts');
  // Only the walk knows the number of bytes, so progress is reported in thousandths.
  const progress = createProgress('verifying records', 1000);
  let reported = 0;
  const result = verifyRecords(records, (doneBytes, allBytes) => {
    const share = Math.floor((1000 * doneBytes) / Math.max(1, allBytes));
    progress.step(share - reported);
    reported = share;
  });
  progress.clear();
  const text = json ? JSON.stringify(result, null, 2) : linesOf(records, result).join('\n');
  print(`${text}\n`);
  return result.ok ? EXIT.completed : EXIT.fault;
}

const SHOWN = 10;

function linesOf(folder: string, result: Verification): readonly string[] {
  const { entries, journals, personal, findings, findingCount, last } = result;
  const [first, ...others] = findings;
  const counted = [
    countWords(entries, 'entry', 'entries'),
    countWords(journals, 'journal', 'journals'),
    `personal data of ${countWords(personal.kept, 'entry', 'entries')}`,
  ].join(', ');
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
    ...result.removals.map(({ id, at }) => `${id}: personal data removed on ${at}`),
    ...result.remarks.map((remark) => `note: ${remark}`),
    ...(last.seq === 0
      ? []
      : [
          `Last entry ${last.seq}, ${last.hash}`,
          'Compare it with a hash kept elsewhere, such as on a certificate: a chain that was cut at the',
          'end, or recomputed as a whole, looks complete on its own.',
        ]),
  ];
}
