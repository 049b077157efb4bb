/**
 * `meniscus run`: from options to a job. It checks everything before anything starts, names the
 * record so that none is ever overwritten, runs the job, writes the report, and prints the outcome.
 */
import { join } from 'node:path';
import type { OutsideFacts } from '../../app/papers/document-facts.ts';
import { type WrittenReport, writeReport } from '../../app/papers/write-report.ts';
import { extrasIn } from '../../app/prepare/job-facts.ts';
import { type Prepared, prepareRun, type When } from '../../app/prepare/prepare-run.ts';
import type { JobWords } from '../../app/prepare/terminal-words.ts';
import { filled } from '../../core/phrases.ts';
import { problemLine } from '../../core/settings.ts';
import { machineClaims } from '../../report/machine-report.ts';
import { JOURNAL_FILE } from '../../store/chain/paths.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { keysLine } from '../terminal/keys.ts';
import { localDay } from '../terminal/local-day.ts';
import { tellIndexMissing } from '../terminal/open-records.ts';
import { print, printError } from '../terminal/print.ts';
import { tellWorking } from '../terminal/progress.ts';
import { refuse } from '../terminal/refuse.ts';
import { wrappedLine } from '../terminal/text-columns.ts';
import {
  type AttemptOptions,
  attemptAsked,
  attemptFolder,
  attemptLines,
  sessionOf,
  unfinishedJobs,
  unfinishedLines,
  withAttempt,
  withEntry,
} from './attempt-run.ts';
import { beginRecord } from './begin-record.ts';
import { SIMULATED_START } from './model-session.ts';
import { newFolder } from './new-folder.ts';
import { openSession, type SessionOptions } from './open-session.ts';
import { type JobEnd, runJob } from './run-job.ts';
import { seenSafeWords } from './seen-safe.ts';
import type { Session } from './session.ts';
import { speedWords } from './speed-words.ts';

export interface RunOptions extends SessionOptions, AttemptOptions {
  /** The result as JSON on standard output; everything else goes to standard error. */
  readonly json: boolean;
}

export async function runCommand(options: RunOptions): Promise<number> {
  if (options.manual && !process.stdin.isTTY) {
    printError('--manual needs a terminal to press keys in.\n');
    return EXIT.badInput;
  }
  const asked = attemptAsked(options);
  if (!asked.ok) return refuse(asked.lines);
  const { attempt } = asked;
  const prepared = await prepareRun({ ...attempt?.files, ...options }, whenOf(options));
  if (!prepared.ok) return refuse(prepared.lines);
  for (const warning of prepared.warnings) printError(`${warning}\n`);
  tellIndexMissing();
  const told =
    attempt === null
      ? unfinishedLines(unfinishedJobs(options.records))
      : attemptLines(attempt, options.port === undefined);
  for (const line of told) printError(`${line}\n`);
  const settings = attempt === null ? prepared.settings : withEntry(prepared.settings, attempt);
  const { config } = settings;
  const opened = await openSession(options, config);
  if (!opened.ok) return refuse(opened.lines);
  const session = attempt === null ? opened.session : sessionOf(opened.session, attempt, options);
  const folder =
    attempt === null
      ? newFolder(options.records, config.job.reference)
      : attemptFolder(options.records, attempt);
  if (typeof folder === 'string') {
    const about =
      attempt === null ? prepared.about : withAttempt(prepared.about, attempt, session.startedAt);
    return await run({ settings, about }, session, options, folder);
  }
  await session.board.close();
  return refuse([problemLine(folder)]);
}

type Ready = Pick<Extract<Prepared, { ok: true }>, 'settings' | 'about'>;

/** A simulated run has a simulated day, so that the same inputs give the same record on any day. */
function whenOf({ port }: RunOptions): When {
  const simulated = port === undefined;
  const now = simulated ? new Date(SIMULATED_START) : new Date();
  const todayUtc = now.toISOString().slice(0, 10);
  return { simulated, todayUtc, today: simulated ? todayUtc : localDay(now) };
}

async function run(
  { settings, about }: Ready,
  session: Session,
  { records, json }: RunOptions,
  name: string,
): Promise<number> {
  const folder = join(records, name);
  const journalPath = join(folder, JOURNAL_FILE);
  const begun = beginRecord({ records, id: name }, { settings, session, about });
  if (!begun.ok) {
    await session.board.close();
    return refuse(begun.problems.map(problemLine));
  }
  const started = performance.now();
  const end = await runJob({
    settings,
    session,
    record: begun.value,
    surroundings: surroundingsOf(session, settings),
    out: json ? process.stderr : process.stdout,
    err: process.stderr,
  });
  const wallS = (performance.now() - started) / 1000;
  tellWorking('Writing record, report and certificate');
  // The chain holds the hash of report.json, and the pages show the entry's number, so report.json
  // is written first.
  const { journal } = await writeReport(journalPath, {
    pages: ['report'],
    formats: [],
    incomplete: !end.recorded,
  });
  // Loaded after the job, which does not need the database.
  const { recordPapers, recordRepair } = await import('./record-repair.ts');
  const record = recordRepair({
    records,
    name,
    settings,
    session,
    end,
    ...extrasIn({ about }),
  });
  const report = await writeReport(journalPath, {
    outside: record.facts,
    incomplete: !end.recorded,
    words: settings.papers,
    read: journal,
  });
  const papers = recordPapers({ records, id: name, at: record.at, files: report.files });
  print(
    json
      ? `${JSON.stringify(resultOf(name, end, report, record), null, 2)}\n`
      : closingWords(
          end,
          wallS,
          [...report.lines, ...record.lines, ...papers.lines],
          settings.papers,
        ),
  );
  return report.ok && record.ok && papers.ok ? EXIT[end.reason] : EXIT.fault;
}

const surroundingsOf = (
  session: Session,
  { config: { profile, catalogue }, papers }: Ready['settings'],
): Parameters<typeof runJob>[0]['surroundings'] => ({
  title: session.title(papers),
  lowestPa: profile.vacuum.lowestPa,
  highestPa: session.atmospherePa + profile.pressure.highestGaugePa,
  keys: keysLine(papers.terminal.panel, session.keys, catalogue.names),
});

const resultOf = (
  record: string,
  { reason, outcome, why, boardS, recorded, seenSafe }: JobEnd,
  { data, files }: WrittenReport,
  { facts }: { readonly facts: OutsideFacts },
) => ({
  record,
  reason,
  outcome,
  why,
  boardS,
  recordComplete: recorded,
  seenSafe,
  verdict: data?.verdict ?? null,
  claims: machineClaims(data?.claims ?? []),
  doses: data?.doses ?? [],
  chain: facts.chain ?? null,
  files,
});

function closingWords(
  end: JobEnd,
  wallS: number,
  reportLines: readonly string[],
  words: JobWords,
): string {
  const { closing } = words.terminal;
  const ended = { how: words.record.ends[end.reason], why: words.tongue.recorded(end.why) };
  const lines = [
    '',
    ...(end.recorded ? [] : [closing.incomplete]),
    end.outcome === null
      ? filled(closing.ended, ended)
      : filled(closing.endedSeen, { ...ended, outcome: closing[end.outcome] }),
    seenSafeWords(end.seenSafe, words),
    ...reportLines,
    speedWords(end.boardS, wallS, words),
  ];
  return `${lines.flatMap(wrappedLine).join('\n')}\n`;
}
