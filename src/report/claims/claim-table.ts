/**
 * The claims that a record makes of a repair, in the order in which they are read: one row each, with
 * the witnesses that it needs and the grounds that are judged. A verdict rests on these rows and on
 * nothing else. To support a claim by something newly seen, add a ground to its file and, where the
 * claim must not stand without it, a witness to its row.
 */
import { type DosePart, withPart } from '../dose-part.ts';
import { type ClaimRow, type Judged, judgedBy } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import { HELD_GROUNDS, PRESSURE_GROUNDS, SEAL_GROUNDS } from './grounds-air.ts';
import { RULES_GROUNDS, SET_ASIDE_GROUNDS, STATED_GROUNDS } from './grounds-beside.ts';
import { CLOCK_GROUNDS } from './grounds-clock.ts';
import { DOSE_GROUNDS } from './grounds-dose.ts';
import { FILL_GROUNDS } from './grounds-fill.ts';
import { clearAtEachPosition, tightAtEachPosition } from './grounds-positions.ts';
import { COMPLETED_GROUNDS, RECORD_GROUNDS, UNINTERRUPTED_GROUNDS } from './grounds-record.ts';
import { RESIN_GROUNDS } from './grounds-resin.ts';
import { SWITCH_GROUNDS } from './grounds-switches.ts';
import { TEMPERATURE_GROUNDS } from './grounds-temperature.ts';
import { CALIBRATION_GROUNDS, CARE_GROUNDS } from './grounds-unit.ts';

export const CLAIM_ROWS = [
  {
    id: 'set-aside',
    title: 'No check and no finding was set aside',
    short: 'nothing set aside',
    kind: 'beside',
    needs: ['gate before the job'],
    unsupported: 'overrides-unrecorded',
    grounds: SET_ASIDE_GROUNDS,
  },
  {
    id: 'rules',
    title: 'The rules chosen allow the repair',
    short: 'rules',
    kind: 'beside',
    needs: ['assessment'],
    unsupported: 'not-assessed',
    grounds: RULES_GROUNDS,
  },
  {
    id: 'resin',
    title: 'Resin named, in date, on glass and for light that it allows',
    short: 'resin',
    kind: 'beside',
    needs: ['bottle file'],
    unsupported: 'resin-undated',
    grounds: RESIN_GROUNDS,
  },
  {
    id: 'as-stated',
    title: 'Found as it was stated',
    short: 'as stated',
    kind: 'beside',
    needs: ['job and intake sheets'],
    unsupported: 'nothing-to-compare',
    grounds: STATED_GROUNDS,
  },
  {
    id: 'filled',
    title: 'A person said that the break is filled, and looked with the pressure off',
    short: 'break filled as a person saw it',
    kind: 'beside',
    needs: ['person', 'pressure sensor'],
    unsupported: 'fill-unseen',
    grounds: [...FILL_GROUNDS, clearAtEachPosition],
  },
  {
    id: 'dose',
    title: 'Light dose reached, at the light sensor where the lamp stood',
    short: 'light dose',
    kind: 'process',
    needs: ['light sensor', 'lamp interruptions', 'known output of the lamp'],
    unsupported: 'dose-unsupported',
    eachPortion: true,
    grounds: DOSE_GROUNDS,
  },
  {
    id: 'pressure',
    title: 'Pressure within its limits',
    short: 'pressure',
    kind: 'process',
    needs: ['pressure sensor', 'pump', 'known air'],
    unsupported: 'pressure-unsupported',
    grounds: PRESSURE_GROUNDS,
  },
  {
    id: 'temperature',
    title: 'Glass within its temperature limits in the light',
    short: 'temperature in the light',
    kind: 'process',
    needs: ['glass sensor', 'heat sink sensor'],
    unsupported: 'temperature-unsupported',
    grounds: TEMPERATURE_GROUNDS,
  },
  {
    id: 'seal',
    title: 'Seal tight',
    short: 'seal',
    kind: 'process',
    needs: ['pressure sensor', 'pump'],
    unsupported: 'seal-unsupported',
    grounds: [...SEAL_GROUNDS, tightAtEachPosition],
  },
  {
    id: 'held',
    title: 'Vacuum, pressure and light held for their time',
    short: 'times held',
    kind: 'process',
    needs: ['board clock', 'host clock'],
    unsupported: 'held-unsupported',
    grounds: HELD_GROUNDS,
  },
  {
    id: 'clock',
    title: 'Clock right',
    short: 'clock',
    kind: 'process',
    needs: ['board clock', 'host clock'],
    unsupported: 'clock-unsupported',
    grounds: CLOCK_GROUNDS,
  },
  {
    id: 'interlocks',
    title: 'Shield closed in the light, switches proved',
    short: 'safety switches',
    kind: 'process',
    needs: ['shield switch', 'proof test'],
    unsupported: 'switches-unproved',
    grounds: SWITCH_GROUNDS,
  },
  {
    id: 'calibrations',
    title: 'Calibrations in force',
    short: 'calibrations',
    kind: 'beside',
    needs: ['care record'],
    unsupported: 'calibrations-unrecorded',
    grounds: CALIBRATION_GROUNDS,
  },
  {
    id: 'care',
    title: 'Care of the unit in order',
    short: 'care of the unit',
    kind: 'beside',
    needs: ['care record'],
    unsupported: 'care-never-done',
    grounds: CARE_GROUNDS,
  },
  {
    id: 'uninterrupted',
    title: 'Run without interruption',
    short: 'no interruption',
    kind: 'course',
    needs: ['program'],
    unsupported: 'record-cut',
    grounds: UNINTERRUPTED_GROUNDS,
  },
  {
    id: 'completed',
    title: 'Job run to its end',
    short: 'job completed',
    kind: 'course',
    needs: ['program'],
    unsupported: 'ended-early',
    grounds: COMPLETED_GROUNDS,
  },
  {
    id: 'record',
    title: 'Record whole and unchanged',
    short: 'record whole',
    kind: 'record',
    needs: ['checksum'],
    unsupported: 'record-cut',
    grounds: RECORD_GROUNDS,
  },
] as const satisfies readonly ClaimRow[];
export type ClaimId = (typeof CLAIM_ROWS)[number]['id'];

export interface Claim extends Judged {
  readonly id: ClaimId;
  readonly title: string;
  readonly short: string;
  readonly kind: ClaimRow['kind'];
}

/** Every row, judged; a claim on each dose comes once for each. */
export const claimsOf = (facts: ClaimFacts): readonly Claim[] =>
  CLAIM_ROWS.flatMap((row: ClaimRow & { readonly id: ClaimId }) => {
    const { id, title, short, kind } = row;
    const parts: readonly (DosePart | null)[] = row.eachPortion === true ? facts.doses : [null];
    return parts.map((part) => ({
      id,
      title,
      short,
      kind,
      ...judgedBy(row, facts, part),
    }));
  });

/** 'light dose', or 'light dose of the pit' where fill and pit were cured apart. */
export const shortTitleOf = (claim: Pick<Claim, 'short' | 'portion' | 'field'>): string =>
  withPart(claim.short, claim);
