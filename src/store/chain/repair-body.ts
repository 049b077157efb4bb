/**
 * What the chain keeps of one repair: enough to find, count and judge it, and the hashes that tie
 * its files to the chain. Units are SI, as in report.json. It holds no personal data, because
 * nothing in the chain can be removed. A job whose journal cannot be read gets an entry too, with
 * what is known.
 */
import { numberAt, textAt } from '../../core/fields.ts';
import type { Claim } from '../../report/claims/claim-table.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { Verdict } from '../../report/verdict.ts';
import type { JsonValue } from './chain-entry.ts';
import { type LampUse, lampUseOf } from './lamp-use.ts';

export const REPAIR_SCHEMA = 'meniscus/repair@1';

/** `UNREADABLE`: there was nothing to judge. */
export type RepairVerdict = Verdict['process'] | typeof UNREADABLE;
export const UNREADABLE = 'journal cannot be read';

/** A check that a person overrode, and the reason; the person is personal data. */
export interface Override {
  readonly item: string;
  readonly reason: string;
}

/** Facts about a repair that its journal does not hold. */
export interface RepairExtras {
  readonly endedAt: string;
  /**
   * Names of the rule sets, with their editions, and their answers; null where no assessment was
   * made.
   */
  readonly assessment: {
    readonly ruleSets: readonly string[];
    readonly answer: string;
  } | null;
  readonly overrides: readonly Override[];
  /** References of the other damages of the pane. */
  readonly samePane?: readonly string[];
  /** Which attempt of which job it is; a first one has none before it. */
  readonly attempt?: AttemptEntry | null;
  /** What made the entry: the run itself, or a rebuild that found its journal. */
  readonly entered: RepairBody['entered'];
  readonly journal: FileHash;
  /** Null where no report could be written. */
  readonly report: FileHash | null;
}

/** A later attempt names the record before it by the hash of its journal. */
export interface AttemptEntry {
  readonly [key: string]: JsonValue;
  readonly job: string;
  readonly number: number;
  readonly how: string;
  readonly after: { readonly record: string; readonly journalSha256: string };
}

export interface FileHash {
  readonly file: string;
  /** Hash of the whole file. */
  readonly sha256: string;
}

export interface RepairBody {
  readonly [key: string]: JsonValue;
  readonly schema: typeof REPAIR_SCHEMA;
  readonly meniscus: string;
  readonly startedAt: string;
  readonly endedAt: string;
  readonly lastsS: number | null;
  readonly simulated: boolean;
  readonly unit: { readonly name: string | null; readonly serial: string | null };
  readonly profile: string | null;
  readonly damage: {
    readonly type: string | null;
    readonly diameterM: number | null;
    readonly pitM: number | null;
    readonly legs: number | null;
    readonly longestLegM: number | null;
    readonly depthM: number | null;
  };
  readonly ruleSets: readonly string[];
  readonly assessment: string | null;
  readonly result: {
    readonly verdict: RepairVerdict;
    readonly grade: string;
    /** Null where the journal could not be judged; older entries have none. */
    readonly claims: readonly ClaimEntry[] | null;
    readonly outcome: string | null;
    readonly endReason: string;
    readonly why: string;
  };
  readonly dose: {
    readonly doseJPerM2: number;
    readonly targetJPerM2: number | null;
    readonly shownJPerM2: number | null;
    readonly verdict: string;
    readonly lampOnS: number | null;
    readonly irradianceMeanWPerM2: number | null;
  } | null;
  /** Null where it is not known. */
  readonly lamp: LampUse | null;
  readonly sealLeakPaM3PerS: number | null;
  /** The air that the self-test measured; older entries have none. */
  readonly airPa: number | null;
  readonly cycles: number;
  readonly resin: { readonly name: string | null; readonly lot: string | null };
  readonly overrides: readonly { readonly item: string; readonly reason: string }[];
  readonly alarms: number;
  /** Null for a job's first attempt; older entries have none. */
  readonly attempt: AttemptEntry | null;
  readonly entered: 'at its end' | 'later, from its journal';
  readonly journal: { readonly file: string; readonly sha256: string };
  readonly report: { readonly file: string; readonly sha256: string } | null;
}

/** A claim without its support, which is in the report. */
export interface ClaimEntry {
  readonly [key: string]: JsonValue;
  readonly id: string;
  /** Null where it is not on a portion. */
  readonly portion: string | null;
  readonly state: string;
  /** What stands against it, in a customer's words. */
  readonly against: readonly string[];
}

const claimEntryOf = ({ id, portion, field, state, objections }: Claim): ClaimEntry => ({
  id,
  portion,
  ...(field != null && { field: field.number }),
  state,
  against: objections.map(({ headline }) => headline),
});

export function repairBodyOf(report: ReportData, extras: RepairExtras): RepairBody {
  const { inputs, verdict, end, dose } = report;
  return {
    schema: REPAIR_SCHEMA,
    meniscus: report.meniscus,
    startedAt: report.startedAt,
    lastsS: report.lastsS,
    simulated: report.simulated,
    unit: { name: textAt(inputs.unit, 'name'), serial: report.board.serial },
    profile: textAt(inputs.profile, 'name'),
    damage: damageOf(inputs.job),
    result: {
      verdict: verdict.process,
      grade: verdict.grade,
      claims: report.claims.map(claimEntryOf),
      outcome: report.outcome,
      endReason: end.reason,
      why: end.why,
    },
    dose: {
      doseJPerM2: dose.doseJPerM2,
      targetJPerM2: dose.targetJPerM2,
      shownJPerM2: dose.uncertainty?.shownJPerM2 ?? null,
      verdict: dose.verdict,
      lampOnS: dose.lampOnS,
      irradianceMeanWPerM2: dose.irradianceMeanWPerM2,
    },
    lamp: lampUseOf(report),
    sealLeakPaM3PerS:
      report.measured.findLast(({ name }) => name === 'leakRatePaM3PerS')?.value ?? null,
    airPa: report.measured.findLast(({ name }) => name === 'atmospherePa')?.value ?? null,
    cycles: report.cycles.length,
    resin: { name: textAt(inputs.job, 'resin', 'name'), lot: textAt(inputs.job, 'resin', 'lot') },
    alarms: report.alarms.length,
    ...fromExtras(extras),
  };
}

const fromExtras = ({
  endedAt,
  assessment,
  overrides,
  attempt = null,
  samePane = [],
  entered,
  journal,
  report,
}: RepairExtras) => ({
  // Left out where there are none, as in older entries.
  ...(samePane.length > 0 && { samePane }),
  attempt,
  endedAt,
  entered,
  ruleSets: assessment?.ruleSets ?? [],
  assessment: assessment?.answer ?? null,
  overrides: overrides.map(({ item, reason }) => ({ item, reason })),
  journal: { file: journal.file, sha256: journal.sha256 },
  report: report === null ? null : { file: report.file, sha256: report.sha256 },
});

function damageOf(job: unknown): RepairBody['damage'] {
  const metres = (name: string): number | null => {
    const mm = numberAt(job, 'damage', name);
    return mm === null ? null : mm / 1000;
  };
  return {
    type: textAt(job, 'damage', 'type'),
    diameterM: metres('diameterMm'),
    pitM: metres('pitMm'),
    legs: numberAt(job, 'damage', 'legs'),
    longestLegM: metres('longestLegMm'),
    depthM: metres('depthMm'),
  };
}

export interface UnreadFacts {
  readonly meniscus: string;
  readonly startedAt: string;
  readonly simulated: boolean;
  readonly serial: string | null;
  readonly inputs: { readonly unit: unknown; readonly profile: unknown; readonly job: unknown };
  readonly end: { readonly reason: string; readonly why: string };
}

/** For a job whose journal could not be read back: how it ended, and that nothing else is known. */
export function unreadRepairBodyOf(facts: UnreadFacts, extras: RepairExtras): RepairBody {
  const { inputs, end } = facts;
  return {
    schema: REPAIR_SCHEMA,
    meniscus: facts.meniscus,
    startedAt: facts.startedAt,
    lastsS: null,
    simulated: facts.simulated,
    unit: { name: textAt(inputs.unit, 'name'), serial: facts.serial },
    profile: textAt(inputs.profile, 'name'),
    damage: damageOf(inputs.job),
    result: {
      verdict: UNREADABLE,
      grade: 'bad',
      claims: null,
      outcome: null,
      endReason: end.reason,
      why: end.why,
    },
    dose: null,
    lamp: null,
    sealLeakPaM3PerS: null,
    airPa: null,
    cycles: 0,
    resin: { name: textAt(inputs.job, 'resin', 'name'), lot: textAt(inputs.job, 'resin', 'lot') },
    alarms: 0,
    ...fromExtras(extras),
  };
}
