/**
 * Derives the report's data from a journal: pure, plain data in SI units with the unit in each
 * name. It is written as report.json and drawn as pages. It states what was measured and whether
 * the process stayed within its limits, and makes no claim about the strength of the glass. Times
 * are seconds since the board was opened.
 */

import type { Answer, EndReason, Event, Outcome } from '../core/events.ts';
import { HARDWARE_BOARD } from '../core/frame.ts';
import type { PhaseId } from '../core/phases.ts';
import type { JournalBoard, JournalHeader, JournalInputs } from '../journal/journal-format.ts';
import type { JournalContents } from '../journal/read-journal.ts';
import { alarmRowsOf } from './alarms-raised.ts';
import type { BudgetLine } from './budget-line.ts';
import { claimedDose, type DoseResult, weakestDose } from './claimed-dose.ts';
import { aboutFactsOf, type Bottles, bottlesOf } from './claims/about-facts.ts';
import { type AttemptFacts, attemptIn } from './claims/attempt-facts.ts';
import { type Claim, claimsOf } from './claims/claim-table.ts';
import { joinedClaims, joinedCycles, joinedDoses } from './claims/joined-claims.ts';
import { fieldAt, isSamePart } from './dose-part.ts';
import { limitRowsOf } from './limit-rows.ts';
import { type RemedyRow, remedyRowsOf } from './remedy-rows.ts';
import { type CountedDose, countedDosesOf } from './report-dose.ts';
import type { RunResults } from './run-results.ts';
import { type AdaptedRow, adaptedRowsOf, sealTestRowsOf } from './seal-rows.ts';
import { cycleRowsOf, holdRowsOf, lastMeasured, measuredRowsOf, phaseRowsOf } from './timeline.ts';
import { type Verdict, verdictOf } from './verdict.ts';

export interface AnswerRow {
  readonly atS: number;
  readonly phase: PhaseId;
  readonly cycle: number;
  readonly answer: Answer;
}

export interface ReportData extends RunResults {
  readonly schema: 'meniscus/report@3';
  readonly meniscus: string;
  readonly board: JournalBoard;
  readonly seed: number | null;
  /** True when no real glass was worked on. */
  readonly simulated: boolean;
  readonly startedAt: string;
  readonly lastsS: number;
  readonly verdict: Verdict;
  /** What the record shows, does not show, or shows not to be met; the verdict rests on these alone. */
  readonly claims: readonly Claim[];
  /** The person's judgement; null where the job ended before it was given. */
  readonly outcome: Outcome | null;
  readonly end: { readonly reason: EndReason; readonly why: string };
  /** True when the job or its journal was cut off. */
  readonly interrupted: boolean;
  /** The attempts of this job before this one; null in the first. */
  readonly attempt: AttemptFacts | null;
  /** One dose for fill and pit together, or one for each where they were cured apart. */
  readonly doses: readonly DoseResult[];
  /** The one of these doses on which the verdict rests. */
  readonly dose: DoseResult;
  /** The uncertainty of each channel; empty where the unit file states none. */
  readonly uncertainties: readonly BudgetLine[];
  readonly adapted: readonly AdaptedRow[];
  readonly answers: readonly AnswerRow[];
  /** Remedies offered and fresh resin; empty where neither was needed. */
  readonly remedies: readonly RemedyRow[];
  readonly refused: readonly {
    readonly atS: number;
    readonly request: string;
    readonly why: string;
  }[];
  /** As the bottles' files state them; null where no bottle was named. */
  readonly bottles: Bottles;
  /** The settings in force, as read from their files. */
  readonly inputs: JournalInputs;
  readonly hashes: JournalHeader['hashes'];
  readonly journal: {
    readonly frames: number;
    readonly events: number;
    /** Hash over all bytes before the footer. */
    readonly sha256: string;
    /** Null where the journal has no end: the record is incomplete. */
    readonly intact: boolean | null;
    readonly torn: boolean;
    readonly remarks: readonly string[];
  };
}

/** Real only where both say so: no seed was drawn, and the board is the one with hardware. */
export const isSimulated = ({ seed, board }: Pick<JournalHeader, 'seed' | 'board'>): boolean =>
  seed !== null || board.kind !== HARDWARE_BOARD;

export function reportDataOf(
  contents: JournalContents,
  uncertainties: readonly BudgetLine[],
): ReportData {
  const { header, events, footer, end } = contents;
  return {
    schema: 'meniscus/report@3',
    meniscus: header.meniscus,
    board: header.board,
    seed: header.seed,
    simulated: isSimulated(header),
    startedAt: header.startedAt,
    ...resultsOf(contents),
    outcome: end.outcome,
    end: { reason: end.reason, why: end.why },
    interrupted: footer === null || end.reason === 'interrupted',
    attempt: attemptIn(header.about),
    uncertainties,
    adapted: adaptedRowsOf(events),
    answers: answersOf(events),
    remedies: remedyRowsOf(events),
    refused: refusedOf(events),
    bottles: bottlesOf(header),
    inputs: header.inputs,
    hashes: header.hashes,
    journal: aboutJournal(contents),
  };
}

/** The results of the job, the claims that rest on them, and the verdict that these allow. */
function resultsOf(contents: JournalContents) {
  const { header, events, snapshots, ticks, footer, end, intact } = contents;
  const lastS = ticks.at(-1)?.frame.timeS ?? events.at(-1)?.timeS ?? 0;
  const measured = measuredRowsOf(events);
  const phases = phaseRowsOf(events, lastS);
  const alarms = alarmRowsOf(events);
  const counted = countedDosesOf(
    snapshots,
    measured,
    header.inputs,
    footer !== null,
    fieldAt(events),
  );
  const results: RunResults = {
    limits: limitRowsOf(snapshots, measured, header.inputs.profile),
    atmospherePa: lastMeasured(measured, 'atmospherePa'),
    sealTests: sealTestRowsOf(events),
    cycles: cycleRowsOf(events, phases, snapshots),
    measured,
    alarms,
    holds: holdRowsOf(events, lastS),
    phases,
  };
  const { inputs } = header;
  const about = aboutFactsOf(header);
  const attempt = attemptIn(header.about);
  const own = claimsOf({
    ...results,
    cycles: joinedCycles(results.cycles, attempt),
    doses: counted,
    about,
    inputs,
    end,
    intact,
    ticks,
    events,
    snapshots,
  });
  const claims = joinedClaims(own, attempt);
  const doses = joinedDoses(counted, attempt).map((dose) => asClaimed(dose, claims));
  return {
    lastsS: lastS,
    verdict: verdictOf(claims),
    claims,
    doses,
    dose: weakestDose(doses),
    ...results,
  };
}

function asClaimed(dose: CountedDose, claims: readonly Claim[]): DoseResult {
  const claim = claims.find((one) => one.id === 'dose' && isSamePart(one, dose));
  const ids = claim?.objections.map(({ id }) => id) ?? [];
  return claimedDose(dose, claim?.state ?? 'not shown', ids);
}

const aboutJournal = ({
  ticks,
  events,
  sha256,
  intact,
  torn,
  remarks,
}: JournalContents): ReportData['journal'] => ({
  frames: ticks.length,
  events: events.length,
  sha256,
  intact,
  torn,
  remarks,
});

function answersOf(events: readonly Event[]): readonly AnswerRow[] {
  let cycle = 0;
  return events.flatMap((event) => {
    if (event.kind === 'phase') cycle = event.cycle;
    if (event.kind !== 'answer') return [];
    return [{ atS: event.timeS, phase: event.phase, cycle, answer: event.answer }];
  });
}

const refusedOf = (events: readonly Event[]): ReportData['refused'] =>
  events.flatMap((event) =>
    event.kind === 'refused' ? [{ atS: event.timeS, request: event.request, why: event.why }] : [],
  );
