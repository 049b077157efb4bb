/**
 * Every word of the certificate in one table: a second language is a second table of this type.
 * Numbers keep their units and are written by `report/words.ts`. The sentences claim a process
 * within its limits and nothing about the glass.
 */

import type { EndReason, Outcome } from '../../core/events.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import { CANNOT_SHOW, type CannotShowId } from '../../report/claims/cannot-show.ts';
import { CLAIM_ROWS, type ClaimId } from '../../report/claims/claim-table.ts';
import { OBJECTION_IDS, OBJECTIONS, type ObjectionId } from '../../report/claims/objections.ts';
import { type CuredPortion, type FieldOf, fieldWords } from '../../report/dose-part.ts';
import { headlineOf, type Verdict } from '../../report/verdict.ts';
import type { AssessmentFacts } from '../facts.ts';
import { withArticle } from '../with-article.ts';

type Words<K extends string> = Readonly<Record<K, string>>;

export const CERTIFICATE_LABELS = [
  'title',
  'under',
  'record',
  'began',
  'vehicle',
  'customer',
  'technician',
  'damage',
  'pane',
  'done',
  'dose',
  'doseOfFill',
  'doseOfPit',
  'resin',
  'pitResin',
  'profile',
  'cycles',
  'seal',
  'alarms',
  'rules',
  'technical',
  'calibrations',
  'shown',
  'notShown',
  'notMet',
  'overrides',
  'edits',
  'agreed',
  'read',
  'before',
  'after',
  'signTechnician',
  'signCustomer',
  'code',
  'unit',
] as const;
type Label = (typeof CERTIFICATE_LABELS)[number];

/** Measures of the damage as the job sheet names them. */
export const DAMAGE_FIELDS = ['diameterMm', 'pitMm', 'legs', 'longestLegMm', 'depthMm'] as const;

export interface CertificateWords {
  /** BCP 47. */
  readonly language: string;
  readonly labels: Words<Label>;
  readonly simulated: (boardKind: string) => string;
  readonly simulatedTime: string;
  readonly notRecorded: string;
  readonly nothing: string;
  readonly removedOn: (day: string) => string;
  readonly process: Words<Verdict['process']>;
  readonly claim: Words<ClaimId>;
  readonly claimOf: (claim: string, portion: CuredPortion) => string;
  /** Follows the verdict in a sentence. */
  readonly objection: Words<ObjectionId>;
  readonly cannotShow: (short: Words<CannotShowId>) => string;
  readonly cannot: Words<CannotShowId>;
  /** A verdict with what stands against it. */
  readonly headline: typeof headlineOf;
  readonly outcome: Words<Outcome>;
  readonly noOutcome: string;
  /** For a record without an end. */
  readonly unrecordedOutcome: string;
  readonly breaksOff: (clock: string) => string;
  readonly untilThen: (what: string) => string;
  readonly end: Words<EndReason>;
  readonly doseVerdict: Words<DoseResult['verdict']>;
  readonly doseRemark: Words<DoseResult['verdict']>;
  readonly doseLabel: Readonly<Record<CuredPortion, Label>>;
  /** Follows the name of a dose, or of a claim on it. */
  readonly inField: (what: string, field: FieldOf) => string;
  readonly target: (dose: string) => string;
  readonly noTarget: string;
  readonly shown: (dose: string, coverage: string) => string;
  readonly noUncertainty: string;
  readonly doseUnrecorded: (dose: string, target: string) => string;
  readonly lot: (lot: string) => string;
  readonly expires: (day: string) => string;
  readonly opened: (day: string) => string;
  readonly damageTypes: Words<string>;
  readonly damageField: Readonly<Record<(typeof DAMAGE_FIELDS)[number], (value: number) => string>>;
  readonly lasted: (clock: string) => string;
  readonly recordedFor: (clock: string) => string;
  readonly cyclesRun: (count: number, vacuum: string, pressure: string) => string;
  readonly noCycle: string;
  readonly earlierRecord: (record: string) => string;
  readonly noAlarm: string;
  readonly alarmsRaised: (count: number, names: string, holds: number) => string;
  readonly answer: Words<AssessmentFacts['answer']>;
  readonly technicalAnswer: Words<AssessmentFacts['technical']['answer']>;
  readonly noAssessment: string;
  readonly noCalibration: string;
  readonly calibration: (channel: string, on: string, due: string) => string;
  readonly noOverride: string;
  readonly noEdit: string;
  readonly edits: (count: number, last: string) => string;
  readonly editsUnread: string;
  readonly more: (count: number) => string;
  readonly inReport: string;
  readonly noDrawing: string;
  readonly smallDrawing: string;
  readonly disclosure: readonly string[];
  readonly compare: string;
}

const GAP = '\u00a0';
const listOf = (words: readonly string[]): string =>
  `${words.slice(0, -1).join(', ')}, or ${words.at(-1) ?? ''}`;
const sized =
  (name: string, unit: string) =>
  (value: number): string =>
    `${name} ${value}${GAP}${unit}`;

export const ENGLISH: CertificateWords = {
  language: 'en',
  labels: {
    title: 'Repair certificate',
    under: 'What was done to a laminated pane, and what was agreed. It certifies no standard.',
    record: 'Record',
    began: 'Date',
    vehicle: 'Vehicle',
    customer: 'Customer',
    technician: 'Technician',
    damage: 'Damage',
    pane: 'The pane, seen from the driver’s seat',
    done: 'What was done',
    dose: 'Light dose',
    doseOfFill: 'Light dose, fill',
    doseOfPit: 'Light dose, pit',
    resin: 'Resin',
    pitResin: 'Pit resin',
    profile: 'Profile',
    cycles: 'Cycles',
    seal: 'Seal',
    alarms: 'Alarms',
    rules: 'Rules',
    technical: 'Technical assessment',
    calibrations: 'Calibrations in force',
    shown: 'Shown',
    notShown: 'Not shown',
    notMet: 'Not met',
    overrides: 'Overrides',
    edits: 'Edits',
    agreed: 'Agreed before work',
    read: 'Please read',
    before: 'Before',
    after: 'After',
    signTechnician: 'Technician, date',
    signCustomer: 'Customer, date',
    code: 'Code',
    unit: 'Unit',
  },
  simulated: (boardKind) =>
    `SIMULATED RUN, DEMO DATA. No glass was repaired: this record was made on ${withArticle(boardKind)}.`,
  simulatedTime: 'simulated time',
  notRecorded: 'not recorded',
  nothing: 'nothing',
  removedOn: (day) => `personal data removed on ${day}`,
  process: {
    'process within its limits': 'The process stayed within its limits',
    'process within its limits, with interruptions':
      'The process stayed within its limits, with interruptions',
    'process within its limits, with reservations': 'The process stayed within its limits',
    'process not shown to be within its limits':
      'The process is not shown to have stayed within its limits',
    'process outside its limits': 'The process went outside its limits',
    'dose not shown to be met': 'The light dose is not shown to be met',
    'process not completed': 'The repair was not completed',
    'record incomplete, process not judged': 'The record is incomplete: the process is not judged',
    'record changed, process not judged': 'The record was changed: the process is not judged',
  },
  claim: Object.fromEntries(CLAIM_ROWS.map(({ id, short }) => [id, short])) as Words<ClaimId>,
  claimOf: (claim, portion) => (portion === 'fill and pit' ? claim : `${claim} of the ${portion}`),
  objection: Object.fromEntries(
    OBJECTION_IDS.map((id) => [id, OBJECTIONS[id].headline]),
  ) as Words<ObjectionId>,
  cannot: Object.fromEntries(
    CANNOT_SHOW.map(({ id, short }) => [id, short]),
  ) as Words<CannotShowId>,
  cannotShow: (short) => `This record cannot show ${listOf(Object.values(short))}.`,
  headline: headlineOf,
  outcome: {
    clear: 'The technician found the break clear, level and hard.',
    'mark-remains': 'The technician found that a mark remains.',
  },
  noOutcome: 'The job ended before the technician judged the break.',
  unrecordedOutcome: 'The record breaks off before the technician judged the break.',
  breaksOff: (clock) =>
    `It breaks off ${clock} min after the start; nothing is known of what happened later.`,
  untilThen: (what) => `until the record breaks off: ${what}`,
  end: {
    completed: 'The job was completed.',
    'stopped-by-person': 'The job was stopped by a person:',
    alarm: 'The job was stopped by an alarm:',
    interrupted: 'The job was interrupted:',
    fault: 'The job was ended by a fault of the program or the board:',
  },
  doseVerdict: {
    met: 'met',
    'not met': 'not met',
    'not shown': 'not shown to be met',
    'not cured': 'nothing was cured',
    'not recorded': 'not recorded',
  },
  doseRemark: {
    met: '',
    'not met': 'Resin may be soft.',
    'not shown': 'Resin may be soft.',
    'not cured': 'Nothing was cured.',
    'not recorded': 'The dose is not recorded.',
  },
  inField: (what, field) => `${what}, ${fieldWords(field)}`,
  doseLabel: { 'fill and pit': 'dose', fill: 'doseOfFill', pit: 'doseOfPit' },
  target: (dose) => `target ${dose}`,
  noTarget: 'no target stated',
  shown: (dose, coverage) => `at least ${dose} (${coverage})`,
  noUncertainty: 'no uncertainty stated',
  doseUnrecorded: (dose, target) =>
    `not recorded to the end; ${dose} until the record breaks off; ${target}`,
  lot: (lot) => `lot ${lot}`,
  expires: (day) => `expires ${day}`,
  opened: (day) => `opened ${day}`,
  damageTypes: {
    bullseye: 'bullseye',
    'half-moon': 'half moon',
    'star-break': 'star break',
    'combination-break': 'combination break',
    crack: 'crack',
    'surface-pit': 'surface pit',
  },
  damageField: {
    diameterMm: sized('diameter', 'mm'),
    pitMm: sized('pit', 'mm'),
    legs: (legs) => `${legs}${GAP}leg${legs === 1 ? '' : 's'}`,
    longestLegMm: sized('longest leg', 'mm'),
    depthMm: sized('depth', 'mm'),
  },
  lasted: (clock) => `lasted ${clock} min`,
  recordedFor: (clock) => `recorded for ${clock} min`,
  cyclesRun: (count, vacuum, pressure) =>
    `${count}; in the last: vacuum ${vacuum}, pressure ${pressure}`,
  noCycle: 'no cycle was begun',
  earlierRecord: (record) => `in an earlier attempt: see record ${record}`,
  noAlarm: 'none',
  alarmsRaised: (count, names, holds) =>
    `${count}: ${names}; ${holds === 0 ? 'job not held' : `job held ${holds} time${holds === 1 ? '' : 's'}`}`,
  answer: {
    allowed: 'allowed by the rules chosen',
    'not-allowed-here': 'NOT ALLOWED HERE by the rules chosen',
    'needs-a-person': 'a person had to decide',
  },
  technicalAnswer: {
    can: 'no technical objection',
    cannot: 'UNSUITED: kind of damage',
    'needs-a-person': 'a person had to decide',
  },
  noAssessment: 'no assessment was recorded with this job',
  noCalibration: 'none in force',
  calibration: (channel, on, due) => `${channel}: ${on}, due ${due}`,
  noOverride: 'none',
  noEdit: 'none; edits are appended, never overwritten',
  edits: (count, last) => `${count}, appended, never overwritten; the last: ${last}`,
  editsUnread: 'not read; edits are appended to the record, never overwritten',
  more: (count) => `and ${count} more`,
  inReport: '(complete in the full report)',
  noDrawing: 'No drawing of the pane was recorded.',
  smallDrawing: 'The full report has a larger drawing with the distances to the zones.',
  disclosure: [
    'A mark may remain visible. The glass is improved, not made new.',
    'The crack may still grow, and the pane may be lost. Have it inspected again after the first frost or heat.',
    'Whether the pane may stay in use is decided by local law and by the licensed person who inspects the vehicle.',
  ],
  compare: 'Compare with the record:',
};
