/**
 * Everything that certificate and report may state, gathered by the composition root: the journal's
 * contents and the facts that only other rooms and people have. Null means "not recorded" and is
 * printed so; an empty list means that there was none. The types are plain, because rooms know each
 * other only through values.
 */
import type { Snapshot } from '../core/events.ts';
import type { ReportData } from '../report/report-data.ts';

export interface CalibrationFact {
  readonly channel: string;
  /** Days as YYYY-MM-DD. */
  readonly on: string;
  readonly due: string;
  readonly by: string | null;
  /** The standard or instrument it was compared with. */
  readonly reference: string;
  /** With its unit. */
  readonly standardUncertainty: string;
  /** A further remark, such as "overdue since ...". */
  readonly words: string;
}

export interface AssessmentReason {
  readonly words: string;
  readonly ruleSet: string;
  readonly edition: string;
  /** The source of the figure, or a note that it is from memory. */
  readonly source: string;
  readonly measured: string;
  readonly limit: string;
}

export interface AssessmentFacts {
  readonly answer: 'allowed' | 'not-allowed-here' | 'needs-a-person';
  readonly ruleSets: readonly { readonly name: string; readonly edition: string }[];
  readonly reasons: readonly AssessmentReason[];
  readonly technical: {
    readonly answer: 'can' | 'cannot' | 'needs-a-person';
    readonly reasons: readonly string[];
  };
}

export interface IntakeFacts {
  /** The sheet as the person filled it in. */
  readonly sheet: unknown;
  readonly assessment: AssessmentFacts | null;
  /** The pane with the damage; a complete SVG element. */
  readonly drawingSvg: string | null;
  /** The same drawing with fewer and larger words, for a page with little room. */
  readonly briefSvg: string | null;
  /** How long a leg may grow before a rule ends the repair; null where none does or was asked. */
  readonly legLimit?: { readonly longestMm: number; readonly rule: string } | null;
}

/** Stands for a person whose name was removed, or never recorded. */
export const NAME_NOT_KEPT = 'name not kept';

export interface OverrideFact {
  readonly at: string;
  readonly what: string;
  readonly by: string;
  readonly reason: string;
}

export interface AmendmentFact {
  readonly at: string;
  readonly text: string;
  readonly by: string;
}

export interface PhotoFact {
  readonly bytes: Uint8Array;
  readonly type: 'image/jpeg' | 'image/png';
}

export interface DocumentFacts {
  readonly report: ReportData;
  readonly snapshots: readonly Snapshot[];
  /** The record's name: the job's folder. */
  readonly recordId: string;
  /** technician, customer, vehicle: only where they were given and not removed. */
  readonly personal: Readonly<Record<string, string>> | null;
  /** The ISO day on which the personal data were removed; null where they were not. */
  readonly personalRemovedOn: string | null;
  readonly intake: IntakeFacts | null;
  readonly calibrations: readonly CalibrationFact[] | null;
  /** Care of the unit that is due, in words: seals, lamp, pump. */
  readonly care:
    | readonly {
        readonly what: string;
        readonly state: string;
        /** Null in journals from before they were kept. */
        readonly item: string | null;
        readonly due: 'in-order' | 'due-soon' | 'overdue-warn' | 'blocked' | 'never-done' | null;
      }[]
    | null;
  readonly overrides: readonly OverrideFact[] | null;
  readonly amendments: readonly AmendmentFact[] | null;
  /** Place in the chain of records. */
  readonly chain: {
    readonly seq: number;
    readonly hash: string;
    /** Fingerprint of the key that signed the entry; null where it is not signed. */
    readonly unitKey: string | null;
  } | null;
  readonly photos: { readonly before: PhotoFact | null; readonly after: PhotoFact | null };
  /** The agreement made before work began. */
  readonly agreement: string | null;
}
