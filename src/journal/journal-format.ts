/**
 * The lines of a journal, one JSON value each, and how they are written:
 *
 *   {"schema":"meniscus/journal@3","columns":[...], ...}   the header, first
 *   [ ... ]                                a tick: a value for each column, see tick-line.ts
 *   {"event": ...}, {"snapshot": ...}      what happened; what a person would have seen
 *   {"end": ...}                           the footer, last; its sha256 is of all bytes before it
 *
 * The journal of a guided procedure has no snapshots: its ticks determine what a person saw.
 *
 * Pure. The caller of journal.ts decides which lines are written and when. read-journal.ts and
 * line-schemas.ts read them.
 */

import { canonicalJson, sha256Of } from '../core/canonical-json.ts';
import type { EndReason, Event, Outcome, Snapshot } from '../core/events.ts';
import { stringifyExactly } from '../core/exact-number.ts';
import type { ProcedureName } from '../core/guided-events.ts';
import { COLUMNS, type Column, JOURNAL_SCHEMA, type JournalSchema } from './columns.ts';

/** The settings files as given, in trade units. Replay and report need nothing else. */
export interface JournalInputs {
  readonly unit: unknown;
  readonly profile: unknown;
  readonly job: unknown;
  /** Other inputs of the run: injected faults, for example. */
  readonly extra: Readonly<Record<string, unknown>>;
}

export interface JournalBoard {
  readonly kind: string;
  readonly serial: string;
  readonly firmware: string;
  readonly tickS: number;
  readonly leaseS: number;
  readonly protection: readonly string[];
}

export interface JournalHeader {
  /** Includes the version in which the file was written, however old. */
  readonly schema: JournalSchema;
  /** The columns of a tick line, in this order. */
  readonly columns: readonly Column[];
  /** The guided procedure; absent for a repair. Its figures are in `inputs.extra`. */
  readonly procedure?: ProcedureName | undefined;
  /** The program's version. */
  readonly meniscus: string;
  readonly board: JournalBoard;
  /** Null when nothing was drawn at random. */
  readonly seed: number | null;
  /** ISO 8601; a simulated run states a simulated time. */
  readonly startedAt: string;
  readonly inputs: JournalInputs;
  /** SHA-256 of the canonical JSON of each file. */
  readonly hashes: { readonly unit: string; readonly profile: string; readonly job: string };
  /** Hash of the job's personal data, which are in a separate, removable file; null without any. */
  readonly personalSha256: string | null;
  /** The catalogue whose words the display used; null when a journal does not say. */
  readonly display: DisplayWords | null;
  /**
   * Data that belong to the job beside its settings, as given by the composition root; null for
   * none.
   */
  readonly about: unknown;
}

export interface DisplayWords {
  readonly language: string;
  readonly sha256: string;
}

export interface JournalEnd {
  readonly reason: EndReason;
  readonly why: string;
  readonly outcome: Outcome | null;
}

export interface JournalFooter extends JournalEnd {
  readonly frames: number;
  readonly events: number;
  readonly sha256: string;
}

export interface HeaderFacts {
  readonly procedure?: ProcedureName;
  readonly version: string;
  readonly board: JournalBoard;
  readonly seed: number | null;
  readonly startedAt: string;
  readonly inputs: JournalInputs;
  readonly personalSha256?: string | null;
  readonly display?: DisplayWords | null;
  readonly about?: unknown;
}

export function createHeader({
  procedure,
  version,
  board,
  seed,
  startedAt,
  inputs,
  personalSha256 = null,
  display = null,
  about = null,
}: HeaderFacts): JournalHeader {
  const { kind, serial, firmware, tickS, leaseS, protection } = board;
  const { unit, profile, job, extra } = inputs;
  return {
    schema: JOURNAL_SCHEMA,
    columns: COLUMNS,
    ...(procedure !== undefined && { procedure }),
    meniscus: version,
    board: { kind, serial, firmware, tickS, leaseS, protection },
    seed,
    startedAt,
    inputs: { unit, profile, job, extra },
    hashes: hashesOf(inputs),
    personalSha256,
    display,
    about,
  };
}

export const hashesOf = ({
  unit,
  profile,
  job,
}: Omit<JournalInputs, 'extra'>): JournalHeader['hashes'] => ({
  unit: sha256Of(canonicalJson(unit)),
  profile: sha256Of(canonicalJson(profile)),
  job: sha256Of(canonicalJson(job)),
});

export const encodeHeader = (header: JournalHeader): string => JSON.stringify(header);

export const encodeEvent = (event: Event): string => stringifyExactly({ event });

/** Rounds to steps far below the sensors' resolution; the counts in the tick lines lose nothing. */
const round = (value: number | null, perUnit: number): number | null =>
  value === null ? null : Math.round(value * perUnit) / perUnit;

export function encodeSnapshot(snapshot: Snapshot): string {
  return stringifyExactly({
    snapshot: {
      timeS: snapshot.timeS,
      batch: snapshot.batch,
      phase: snapshot.phase,
      cycle: snapshot.cycle,
      pressurePa: round(snapshot.pressurePa, 1),
      setPointPa: round(snapshot.setPointPa, 1),
      atmospherePa: round(snapshot.atmospherePa, 1),
      irradianceWPerM2: round(snapshot.irradianceWPerM2, 100),
      doseJPerM2: round(snapshot.doseJPerM2, 10),
      targetJPerM2: round(snapshot.targetJPerM2, 10),
      glassK: round(snapshot.glassK, 100),
      heatSinkK: round(snapshot.heatSinkK, 100),
      supplyV: round(snapshot.supplyV, 1000),
    },
  });
}

export function encodeFooter(footer: JournalFooter): string {
  const { reason, why, outcome, frames, events, sha256 } = footer;
  return JSON.stringify({ end: { reason, why, outcome, frames, events, sha256 } });
}
