/**
 * Gathers from a record the facts that may qualify its result, for the table of reservations:
 * bottles, assessment and overrides from the journal's header, findings and answers from its
 * events, temperatures from its snapshots.
 */
import type { Event, Snapshot } from '../core/events.ts';
import { listAt, numberAt, textAt } from '../core/fields.ts';
import { CURE_PHASES, PIT_PHASES, partOf } from '../core/phases.ts';
import { valueAt } from '../core/settings.ts';
import { kFromCelsius, paFromKPa } from '../core/units.ts';
import type { JournalHeader } from '../journal/journal-format.ts';
import type { AlarmRow } from './alarms-raised.ts';
import { type BottleFact, bottleFactOf } from './bottle-facts.ts';
import { curedPortionsOf } from './report-dose.ts';
import type { SealTestRow } from './seal-rows.ts';
import { extreme } from './timeline.ts';

/** A check that a person overrode. */
export interface SetAside {
  readonly item: string;
  readonly reason: string;
  /** Objections to the job; empty in a journal from before they were kept. */
  readonly against: readonly string[];
}

/** A rule that objected to the repair, or left the decision to a person. */
interface RuleFact {
  readonly words: string;
  readonly ruleSet: string;
  readonly edition: string;
  readonly measured: string;
}

interface Span {
  readonly lowestK: number;
  readonly highestK: number;
}

export interface ReservationFacts {
  /** The day by which dates are judged, YYYY-MM-DD. */
  readonly day: string;
  readonly bottles: Bottles;
  /**
   * Glass temperatures while each bottle's resin was worked and cured; null where none were
   * measured.
   */
  readonly worked: { readonly fill: Span | null; readonly pit: Span | null };
  readonly assessment: {
    readonly answer: string;
    readonly rules: readonly RuleFact[];
    readonly technical: string;
    readonly technicalReasons: readonly string[];
  } | null;
  readonly setAside: readonly SetAside[];
  readonly stated: {
    readonly moisture: string | null;
    readonly glassK: number | null;
    /**
     * Stated for the day of the job only, because the pressure of the air changes with the weather.
     */
    readonly airPa: number | null;
  };
  /** What the job had measured when it asked a person whether the job sheet is right. */
  readonly found: { readonly glassK: number | null; readonly airPa: number | null };
  readonly sealTests: readonly SealTestRow[];
  /** Times at which a person pressed resin in although bubbles still rose. */
  readonly pressedOnBubblesS: readonly number[];
  readonly invalidatingAlarms: readonly string[];
  readonly alarms: readonly AlarmRow[];
}

export interface Bottles {
  readonly fill: BottleFact | null;
  readonly pit: BottleFact | null;
}

export const bottlesOf = ({ about }: Pick<JournalHeader, 'about'>): Bottles => ({
  fill: bottleFactOf(valueAt(about, ['resin'])),
  pit: bottleFactOf(valueAt(about, ['pitResin'])),
});

/** The day by which the care gate judged, or else the day on which the job began. */
export const dayOf = ({ about, startedAt }: Pick<JournalHeader, 'about' | 'startedAt'>): string =>
  textAt(about, 'day') ?? startedAt.slice(0, 10);

export interface GatheredRecord {
  readonly header: JournalHeader;
  readonly events: readonly Event[];
  readonly snapshots: readonly Snapshot[];
  readonly sealTests: readonly SealTestRow[];
  readonly alarms: readonly AlarmRow[];
  readonly invalidatingAlarms: readonly string[];
  readonly atmospherePa: number | null;
}

export function reservationFactsOf(gathered: GatheredRecord): ReservationFacts {
  const { header, events, snapshots, sealTests, alarms, invalidatingAlarms, atmospherePa } =
    gathered;
  const { about, inputs } = header;
  const day = dayOf(header);
  return {
    day,
    bottles: bottlesOf(header),
    worked: workedOf(snapshots, inputs.profile),
    assessment: assessmentOf(valueAt(about, ['intake', 'assessment'])),
    setAside: setAsideIn(about),
    stated: statedIn(about, inputs.job, day),
    found: {
      glassK:
        snapshots.find(({ phase, glassK }) => phase === 'job-sheet' && glassK !== null)?.glassK ??
        null,
      airPa: atmospherePa,
    },
    sealTests,
    pressedOnBubblesS: events.flatMap((event) =>
      event.kind === 'answer' && event.phase === 'bubbles-stay' && event.answer === 'yes'
        ? [event.timeS]
        : [],
    ),
    invalidatingAlarms,
    alarms,
  };
}

function statedIn(about: unknown, job: unknown, day: string): ReservationFacts['stated'] {
  const sheet = valueAt(about, ['intake', 'sheet']);
  const glassC = numberAt(job, 'glassC');
  const airKPa = textAt(sheet, 'lookedOn') === day ? numberAt(sheet, 'conditions', 'airKPa') : null;
  return {
    moisture: textAt(sheet, 'damage', 'moisture'),
    glassK: glassC === null ? null : kFromCelsius(glassC),
    airPa: airKPa === null ? null : paFromKPa(airKPa),
  };
}

export const setAsideIn = (about: unknown): readonly SetAside[] =>
  listAt(about, 'overrides').map((one) => ({
    item: textAt(one, 'item') ?? '',
    reason: textAt(one, 'reason') ?? '',
    against: texts(listAt(one, 'against')),
  }));

const texts = (values: readonly unknown[]): readonly string[] =>
  values.filter((value) => typeof value === 'string');

function assessmentOf(assessment: unknown): ReservationFacts['assessment'] {
  const answer = textAt(assessment, 'answer');
  if (answer === null) return null;
  return {
    answer,
    rules: listAt(assessment, 'reasons').map((rule) => ({
      words: textAt(rule, 'words') ?? '',
      ruleSet: textAt(rule, 'ruleSet') ?? '',
      edition: textAt(rule, 'edition') ?? '',
      measured: textAt(rule, 'measured') ?? '',
    })),
    technical: textAt(assessment, 'technical', 'answer') ?? '',
    technicalReasons: texts(listAt(assessment, 'technical', 'reasons')),
  };
}

/** When both are cured together, the pit is filled during the fill's last phases. */
function workedOf(snapshots: readonly Snapshot[], profile: unknown): ReservationFacts['worked'] {
  const apart = curedPortionsOf(profile).includes('pit');
  const span = (counts: (snapshot: Snapshot) => boolean): Span | null => {
    const seenK = snapshots
      .filter((snapshot) => snapshot.batch === 'running' && counts(snapshot))
      .flatMap(({ glassK }) => (glassK === null ? [] : [glassK]));
    const [lowestK, highestK] = [extreme(seenK, Math.min), extreme(seenK, Math.max)];
    return lowestK === null || highestK === null ? null : { lowestK, highestK };
  };
  return {
    fill: span(({ phase }) => {
      const worked = partOf(phase) === 'seal' || partOf(phase) === 'cycles';
      return worked || (CURE_PHASES.has(phase) && !(apart && PIT_PHASES.has(phase)));
    }),
    pit: span(({ phase }) => PIT_PHASES.has(phase) && partOf(phase) === 'cure'),
  };
}
