/**
 * Enters a finished job into the chain of records, however it ended: the report's results, and the
 * hashes of its files. Where the database cannot be used, the entry goes into the chain alone.
 */

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { OutsideFacts } from '../../app/papers/document-facts.ts';
import { enterPapers, type PagesWritten } from '../../app/papers/enter-papers.ts';
import { chainPlaceOf, recordFactsOf } from '../../app/papers/record-facts.ts';
import type { LoadedSettings } from '../../app/prepare/load-settings.ts';
import { saltFor } from '../../app/prepare/personal.ts';
import { VERSION } from '../../app/version.ts';
import { filled } from '../../core/phrases.ts';
import { problemLine, type SettingsProblem } from '../../core/settings.ts';
import { isSimulated, type ReportData } from '../../report/report-data.ts';
import { INCOMPLETE } from '../../report/verdict.ts';
import { type AppendDraft, type AppendMeans, appendEntry } from '../../store/chain/append.ts';
import type { ChainEntry } from '../../store/chain/chain-entry.ts';
import { fileSha256 } from '../../store/chain/file-sha256.ts';
import { JOURNAL_FILE, REPORT_FILE } from '../../store/chain/paths.ts';
import {
  type RepairBody,
  type RepairExtras,
  repairBodyOf,
  unreadRepairBodyOf,
} from '../../store/chain/repair-body.ts';
import { openRecords } from '../../store/records-store.ts';
import { openToWrite, thisUnit } from '../terminal/this-unit.ts';
import type { JobEnd } from './run-job.ts';
import type { Session } from './session.ts';

export interface RepairToRecord {
  readonly records: string;
  /** Of the job's folder. */
  readonly name: string;
  readonly settings: LoadedSettings;
  readonly session: Session;
  readonly end: JobEnd;
  readonly assessment?: RepairExtras['assessment'];
  readonly overrides?: RepairExtras['overrides'];
  readonly attempt?: RepairExtras['attempt'];
}

export interface RecordedRepair {
  readonly ok: boolean;
  /** Time of the job's end, which is the time of its entries. ISO 8601. */
  readonly at: string;
  /** For report and certificate; empty where the chain took no entry. */
  readonly facts: OutsideFacts;
  /** Messages for the person. */
  readonly lines: readonly string[];
}

export function recordRepair(repair: RepairToRecord): RecordedRepair {
  const { records, name, settings, session } = repair;
  const at = endedAtOf(session, repair.end);
  try {
    const body = bodyOf(repair, at);
    const draft: AppendDraft = {
      at,
      kind: 'repair',
      id: name,
      body,
      personal: settings.people,
    };
    const { entry, facts, notes } = append(records, draft, session.seed);
    const place = filled(settings.papers.terminal.closing.record, {
      name,
      seq: String(entry.seq),
      records,
      hash: entry.hash.slice(0, 16),
    });
    return { ok: true, at, facts, lines: [place, ...notes.map((note) => `  note: ${note}`)] };
  } catch (error) {
    const left = repair.end.recorded
      ? 'the journal is complete, and `meniscus records rebuild` enters it later'
      : 'the journal is INCOMPLETE and has no entry in a chain';
    return { ok: false, at, facts: {}, lines: [`record: ${String(error)}; ${left}`] };
  }
}

interface Appended {
  readonly entry: ChainEntry;
  readonly facts: OutsideFacts;
  readonly notes: readonly string[];
}

function append(records: string, draft: AppendDraft, seed: number | null): Appended {
  const newSalt = () => saltFor(seed);
  const unit = thisUnit();
  if (!unit.ok) return appendAlone(records, draft, { newSalt, unit: null }, unit.problems);
  const opened = openRecords(records, { newSalt, unit: unit.value });
  if (!opened.ok) {
    return appendAlone(records, draft, { newSalt, unit: unit.value }, opened.problems);
  }
  const { value: store } = opened;
  try {
    const entry = store.append(draft);
    return {
      entry,
      facts: recordFactsOf(store.show(draft.id)?.entries ?? []),
      notes: store.notes(),
    };
  } finally {
    store.close();
  }
}

/** Without an index or, where the unit's key was lost during the job, without a signature. */
function appendAlone(
  records: string,
  draft: AppendDraft,
  means: Pick<AppendMeans, 'newSalt' | 'unit'>,
  problems: readonly SettingsProblem[],
): Appended {
  const entry = appendEntry(records, draft, { ...means, known: () => null });
  return { entry, facts: { chain: chainPlaceOf(entry) }, notes: problems.map(problemLine) };
}

/** A journal that broke off supports no claim, whatever the report derived from the rest. */
function bodyOf(repair: RepairToRecord, endedAt: string): RepairBody {
  const body = judgedBodyOf(repair, endedAt);
  const { recorded, reason, why } = repair.end;
  if (recorded) return body;
  const result: RepairBody['result'] = {
    verdict: INCOMPLETE,
    grade: 'bad',
    claims: null,
    outcome: null,
    endReason: reason,
    why,
  };
  return { ...body, result };
}

function judgedBodyOf(repair: RepairToRecord, endedAt: string): RepairBody {
  const { records, name, settings, session, end, assessment = null, overrides = [] } = repair;
  const at = (file: string): string => join(records, name, file);
  const report = existsSync(at(REPORT_FILE)) ? at(REPORT_FILE) : null;
  const extras: RepairExtras = {
    endedAt,
    assessment,
    overrides,
    attempt: repair.attempt ?? null,
    entered: 'at its end',
    journal: { file: JOURNAL_FILE, sha256: fileSha256(at(JOURNAL_FILE)) },
    report: report === null ? null : { file: REPORT_FILE, sha256: fileSha256(report) },
  };
  // This program wrote it a moment ago, so it needs no checking.
  if (report !== null) {
    return repairBodyOf(JSON.parse(readFileSync(report, 'utf8')) as ReportData, extras);
  }
  const facts = {
    meniscus: VERSION,
    startedAt: session.startedAt,
    simulated: isSimulated({ seed: session.seed, board: session.board.identity }),
    serial: session.board.identity.serial,
    inputs: settings.inputs,
    end,
  };
  return unreadRepairBodyOf(facts, extras);
}

/** Simulated time for a simulated bench, wall-clock time for a real one. */
const endedAtOf = ({ seed, startedAt }: Session, { boardS }: JobEnd): string =>
  seed === null
    ? new Date().toISOString()
    : new Date(Date.parse(startedAt) + Math.round(boardS * 1000)).toISOString();

/** The chain then vouches for the pages too. */
export function recordPapers(pages: PagesWritten): {
  readonly ok: boolean;
  readonly lines: readonly string[];
} {
  try {
    const opened = openToWrite(pages.records);
    if (!opened.ok) return { ok: false, lines: opened.problems.map(problemLine) };
    const { value: store } = opened;
    try {
      enterPapers(store, pages);
      return { ok: true, lines: [] };
    } finally {
      store.close();
    }
  } catch (error) {
    return {
      ok: false,
      lines: [`pages: ${String(error)}; no entry of the chain vouches for them`],
    };
  }
}
