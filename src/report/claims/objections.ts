/**
 * Every reason why a claim is not shown or not met. Its words stand in the language's `claims.json`:
 * a customer reads them in a sentence, after "but" or "and", in plain words. The grounds decide
 * whether a reason holds and give its lines.
 */
import type { ClaimWords } from '../language.ts';

interface ObjectionRow {
  /** The best state that it leaves to its claim. */
  readonly leaves: 'not shown' | 'not met';
}

const unshown: ObjectionRow = { leaves: 'not shown' };
const unmet: ObjectionRow = { leaves: 'not met' };

export const OBJECTIONS = {
  'record-changed': unmet,
  'record-cut': unshown,

  'stopped-by-person': unmet,
  'ended-early': unmet,
  interrupted: unmet,
  'broken-off': unshown,

  'mark-remains': unmet,
  'look-under-pressure': unshown,
  'fill-unseen': unshown,

  'dose-short': unmet,
  'not-cured': unmet,
  'dose-close': unshown,
  'dose-cut': unshown,
  'clock-or-light-in-doubt': unshown,
  'light-unconfirmed': unshown,
  'resin-other-light': unshown,
  'light-beside-glass': unshown,
  'dose-unsupported': unshown,

  'pressure-outside': unmet,
  'zero-not-seen-again': unshown,
  'pressure-in-doubt': unshown,
  'pressure-unsupported': unshown,

  'glass-outside': unmet,
  'temperature-in-doubt': unshown,
  'temperature-unsupported': unshown,

  leaks: unmet,
  'leaked-in-dwell': unshown,
  outgassed: unshown,
  'seal-unsupported': unshown,

  'held-too-short': unmet,
  'held-unsupported': unshown,

  'clock-in-doubt': unshown,
  'clock-off': unmet,
  'clock-unsupported': unshown,

  'lamp-with-shield-open': unmet,
  'shield-in-doubt': unshown,
  'shield-never-open': unshown,
  'switches-unproved': unshown,

  'resin-out-of-date': unmet,
  'pit-resin-out-of-date': unmet,
  'glass-outside-resin': unmet,
  'resin-undated': unshown,
  'pit-resin-undated': unshown,
  'resin-stood': unshown,
  'resin-light-unstated': unshown,
  'other-resin': unshown,
  'pit-resin-unnamed': unshown,

  'calibration-overdue': unmet,
  'calibration-missing': unshown,
  'calibrations-unrecorded': unshown,

  'care-overdue': unmet,
  'care-never-done': unshown,

  'rules-forbid': unmet,
  'rules-left-open': unshown,
  'damage-unsuited': unmet,
  'not-assessed': unshown,

  'assessment-set-aside': unmet,
  'resin-set-aside': unmet,
  'check-set-aside': unmet,
  'bubbles-stayed': unmet,
  'overrides-unrecorded': unshown,

  'stated-dry-found-wet': unmet,
  'found-soft': unshown,
  'leg-grew': unmet,
  'resin-inside': unmet,
  'not-as-stated': unmet,
  'nothing-to-compare': unshown,
} as const satisfies Readonly<Record<keyof ClaimWords['objections'], ObjectionRow>>;
export type ObjectionId = keyof typeof OBJECTIONS;
export const OBJECTION_IDS = Object.keys(OBJECTIONS) as readonly ObjectionId[];
