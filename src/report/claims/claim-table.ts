/**
 * The claims that a record makes of a repair, in the order in which they are read: one row each, with
 * the witnesses that it needs and the grounds that are judged. A verdict rests on these rows and on
 * nothing else. To support a claim by something newly seen, add a ground to its file and, where the
 * claim must not stand without it, a witness to its row.
 */
import { filled } from '../../core/phrases.ts';
import { type ClaimWords, ENGLISH_CLAIMS } from '../language.ts';
import type { CuredPortion } from '../report-dose.ts';
import { type ClaimRow, type Judged, judgedBy } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { HELD_GROUNDS, PRESSURE_GROUNDS, SEAL_GROUNDS } from './grounds-air.ts';
import { RULES_GROUNDS, SET_ASIDE_GROUNDS, STATED_GROUNDS } from './grounds-beside.ts';
import { CLOCK_GROUNDS } from './grounds-clock.ts';
import { DOSE_GROUNDS } from './grounds-dose.ts';
import { FILL_GROUNDS } from './grounds-fill.ts';
import { COMPLETED_GROUNDS, RECORD_GROUNDS, UNINTERRUPTED_GROUNDS } from './grounds-record.ts';
import { RESIN_GROUNDS } from './grounds-resin.ts';
import { SWITCH_GROUNDS } from './grounds-switches.ts';
import { TEMPERATURE_GROUNDS } from './grounds-temperature.ts';
import { CALIBRATION_GROUNDS, CARE_GROUNDS } from './grounds-unit.ts';

export const CLAIM_ROWS = [
  {
    id: 'set-aside',
    kind: 'beside',
    needs: ['gate before the job'],
    unsupported: 'overrides-unrecorded',
    grounds: SET_ASIDE_GROUNDS,
  },
  {
    id: 'rules',
    kind: 'beside',
    needs: ['assessment'],
    unsupported: 'not-assessed',
    grounds: RULES_GROUNDS,
  },
  {
    id: 'resin',
    kind: 'beside',
    needs: ['bottle file'],
    unsupported: 'resin-undated',
    grounds: RESIN_GROUNDS,
  },
  {
    id: 'as-stated',
    kind: 'beside',
    needs: ['job and intake sheets'],
    unsupported: 'nothing-to-compare',
    grounds: STATED_GROUNDS,
  },
  {
    id: 'filled',
    kind: 'beside',
    needs: ['person', 'pressure sensor'],
    unsupported: 'fill-unseen',
    grounds: FILL_GROUNDS,
  },
  {
    id: 'dose',
    kind: 'process',
    needs: ['light sensor', 'lamp interruptions', 'known output of the lamp'],
    unsupported: 'dose-unsupported',
    eachPortion: true,
    grounds: DOSE_GROUNDS,
  },
  {
    id: 'pressure',
    kind: 'process',
    needs: ['pressure sensor', 'pump', 'known air'],
    unsupported: 'pressure-unsupported',
    grounds: PRESSURE_GROUNDS,
  },
  {
    id: 'temperature',
    kind: 'process',
    needs: ['glass sensor', 'heat sink sensor'],
    unsupported: 'temperature-unsupported',
    grounds: TEMPERATURE_GROUNDS,
  },
  {
    id: 'seal',
    kind: 'process',
    needs: ['pressure sensor', 'pump'],
    unsupported: 'seal-unsupported',
    grounds: SEAL_GROUNDS,
  },
  {
    id: 'held',
    kind: 'process',
    needs: ['board clock', 'host clock'],
    unsupported: 'held-unsupported',
    grounds: HELD_GROUNDS,
  },
  {
    id: 'clock',
    kind: 'process',
    needs: ['board clock', 'host clock'],
    unsupported: 'clock-unsupported',
    grounds: CLOCK_GROUNDS,
  },
  {
    id: 'interlocks',
    kind: 'process',
    needs: ['shield switch', 'proof test'],
    unsupported: 'switches-unproved',
    grounds: SWITCH_GROUNDS,
  },
  {
    id: 'calibrations',
    kind: 'beside',
    needs: ['care record'],
    unsupported: 'calibrations-unrecorded',
    grounds: CALIBRATION_GROUNDS,
  },
  {
    id: 'care',
    kind: 'beside',
    needs: ['care record'],
    unsupported: 'care-never-done',
    grounds: CARE_GROUNDS,
  },
  {
    id: 'uninterrupted',
    kind: 'course',
    needs: ['program'],
    unsupported: 'record-cut',
    grounds: UNINTERRUPTED_GROUNDS,
  },
  {
    id: 'completed',
    kind: 'course',
    needs: ['program'],
    unsupported: 'ended-early',
    grounds: COMPLETED_GROUNDS,
  },
  {
    id: 'record',
    kind: 'record',
    needs: ['checksum'],
    unsupported: 'record-cut',
    grounds: RECORD_GROUNDS,
  },
] as const satisfies readonly ClaimRow[];
export type ClaimId = (typeof CLAIM_ROWS)[number]['id'];

export interface Claim extends Judged {
  readonly id: ClaimId;
  /** In the words of the record. */
  readonly title: string;
  readonly short: string;
  readonly kind: ClaimRow['kind'];
}

/** Every row, judged; a claim on each portion comes once for each. */
export const claimsOf = (facts: ClaimFacts): readonly Claim[] =>
  CLAIM_ROWS.flatMap((row: ClaimRow & { readonly id: ClaimId }) => {
    const { id, kind } = row;
    const { title, short } = ENGLISH_CLAIMS.claims[id];
    const portions: readonly (CuredPortion | null)[] =
      row.eachPortion === true ? facts.doses.map(({ portion }) => portion) : [null];
    return portions.map((portion) => ({
      id,
      title,
      short,
      kind,
      ...judgedBy(row, facts, portion),
    }));
  });

/** 'light dose', or 'light dose of the pit' where fill and pit were cured apart. */
export function shortTitleOf({ id, portion }: Pick<Claim, 'id' | 'portion'>, words: ClaimWords) {
  const claim = words.claims[id].short;
  if (portion === null || portion === 'fill and pit') return claim;
  return filled(words.claimOf, { claim, portion: words.portions[portion] });
}
