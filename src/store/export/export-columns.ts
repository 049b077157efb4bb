/**
 * The columns of an exported table of repairs, in trade units with the unit in the name. Personal
 * columns are exported only on explicit request. The file of each format decides how the table is
 * written.
 */
import { mJPerCm2FromJPerM2 } from '../../core/units.ts';
import type { FoundRepair } from '../index/find.ts';

export type ExportValue = string | number | boolean | null;

export interface ExportColumn {
  readonly name: string;
  readonly type: 'text' | 'number' | 'whole number' | 'yes or no';
  readonly value: (repair: FoundRepair) => ExportValue;
}

const text = (name: string, value: (repair: FoundRepair) => string | null): ExportColumn => ({
  name,
  type: 'text',
  value,
});
const number = (name: string, value: (repair: FoundRepair) => number | null): ExportColumn => ({
  name,
  type: 'number',
  value,
});
const whole = (name: string, value: (repair: FoundRepair) => number | null): ExportColumn => ({
  name,
  type: 'whole number',
  value,
});

/** To a thousandth, far below the resolution of any of these measurements. */
const rounded = (value: number | null, factor: number): number | null =>
  value === null ? null : Math.round(value * factor * 1000) / 1000;

const dose = (jPerM2: number | null): number | null =>
  jPerM2 === null ? null : rounded(mJPerCm2FromJPerM2(jPerM2), 1);

const COLUMNS: readonly ExportColumn[] = [
  text('id', ({ id }) => id),
  whole('entry', ({ seq }) => seq),
  text('started_at', ({ startedAt }) => startedAt),
  text('ended_at', ({ endedAt }) => endedAt),
  { name: 'simulated', type: 'yes or no', value: ({ simulated }) => simulated === 1 },
  text('unit', ({ unit }) => unit),
  text('serial', ({ serial }) => serial),
  text('profile', ({ profile }) => profile),
  text('damage', ({ damage }) => damage),
  number('diameter_mm', ({ diameterM }) => rounded(diameterM, 1000)),
  number('longest_leg_mm', ({ longestLegM }) => rounded(longestLegM, 1000)),
  number('depth_mm', ({ depthM }) => rounded(depthM, 1000)),
  text('rule_sets', ({ ruleSets }) => (ruleSets === '' ? null : ruleSets)),
  text('assessment', ({ assessment }) => assessment),
  text('end_reason', ({ endReason }) => endReason),
  text('outcome', ({ outcome }) => outcome),
  text('verdict', ({ verdict }) => verdict),
  text('grade', ({ grade }) => grade),
  whole('claims_shown', ({ claimsShown }) => claimsShown),
  whole('claims_not_shown', ({ claimsNotShown }) => claimsNotShown),
  whole('claims_not_met', ({ claimsNotMet }) => claimsNotMet),
  text('not_shown', ({ notShown }) => notShown),
  text('not_met', ({ notMet }) => notMet),
  text('dose_verdict', ({ doseVerdict }) => doseVerdict),
  number('dose_mj_per_cm2', ({ doseJPerM2 }) => dose(doseJPerM2)),
  number('target_mj_per_cm2', ({ targetJPerM2 }) => dose(targetJPerM2)),
  number('lamp_on_s', ({ lampOnS }) => rounded(lampOnS, 1)),
  text('resin', ({ resin }) => resin),
  text('lot', ({ lot }) => lot),
  whole('alarms', ({ alarms }) => alarms),
  whole('overrides', ({ overrides }) => overrides),
  text('journal_sha256', ({ journalSha256 }) => journalSha256),
  text('entry_sha256', ({ hash }) => hash),
  text('job', ({ job }) => job),
  whole('attempt', ({ attempt }) => attempt),
  text('personal_data_removed_at', ({ removedAt }) => removedAt),
];

const PERSONAL_COLUMNS: readonly ExportColumn[] = [
  text('technician', ({ technician }) => technician),
  text('vehicle', ({ vehicle }) => vehicle),
  text('customer', ({ customer }) => customer),
];

export const exportColumns = (withPersonal: boolean): readonly ExportColumn[] =>
  withPersonal ? [...COLUMNS, ...PERSONAL_COLUMNS] : COLUMNS;
