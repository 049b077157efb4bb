/**
 * `meniscus records verify --certificate` and `--expect`: holds a page that was given out, the text
 * of its code, or a hash noted elsewhere, against the chain.
 */
import { existsSync, readFileSync } from 'node:fs';
import type { Checked } from '../../core/settings.ts';
import { problemLine } from '../../core/settings.ts';
import { codeIn } from '../../document/record-code.ts';
import { findingLine } from '../../store/chain/finding.ts';
import { checkPaper, type NamedEntry, type PaperChecked } from '../../store/verify/verify-paper.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { complain } from '../terminal/open-records.ts';
import { print } from '../terminal/print.ts';

export interface PaperAsked {
  readonly records: string;
  readonly json: boolean;
  readonly certificate: string | undefined;
  readonly expect: string | undefined;
}

export function verifyPaper({ records, json, certificate, expect }: PaperAsked): number {
  const named: NamedEntry[] = [];
  if (certificate !== undefined) {
    const read = namedBy(certificate);
    if (!read.ok) {
      complain(read.problems.map(problemLine));
      return EXIT.badInput;
    }
    named.push(read.value);
  }
  if (expect !== undefined) {
    named.push({ of: 'record', sha256: expect, id: null, unitKey: null, page: null });
  }
  const results = named.map((one) => checkPaper(records, one));
  const text = json
    ? JSON.stringify(results, null, 2)
    : results.flatMap((result) => linesOf(records, result)).join('\n');
  print(`${text}\n`);
  return results.every(({ ok }) => ok) ? EXIT.completed : EXIT.fault;
}

/** The page, or the text of its code. */
function namedBy(given: string): Checked<NamedEntry> {
  const isFile = existsSync(given);
  const refused = (value: string): Checked<NamedEntry> => ({
    ok: false,
    problems: [{ file: '--certificate', path: '', value, accepted: ACCEPTED }],
  });
  try {
    const page = isFile ? readFileSync(given) : null;
    const code = codeIn(page === null ? given : page.toString('latin1'));
    if (code === null) return refused(`${given}, ${isFile ? 'a file without a code' : 'no code'}`);
    return { ok: true, value: { ...code, page } };
  } catch (error) {
    return refused(`${given}, not readable (${String(error)})`);
  }
}

const ACCEPTED =
  'a certificate or report as PDF or HTML that exists, or the text that its code holds (meniscus:record:...)';

const linesOf = (records: string, { ok, findings, lines }: PaperChecked): readonly string[] => [
  `${records}: ${ok ? 'agrees with what was given.' : 'does NOT agree with what was given.'}`,
  ...findings.map((finding) => `  ${findingLine(finding)}`),
  ...lines.map((line) => `  ${line}`),
];
