/**
 * A bottle of resin for a job: writes its figures into the job sheet, and lists the objections to
 * it for this day, this glass, this damage and this lamp. The gate decides whether a person may
 * override them.
 */

import type { Checked } from '../../core/settings.ts';
import { kFromCelsius } from '../../core/units.ts';
import { adviceRulesSchema } from '../../intake/advice/advice-rules.ts';
import { type Resin, resinSchema, viscosityAtPaS } from '../../intake/resin.ts';
import { resinRemarks } from '../../intake/resin-suitability.ts';
import type { JobSheet } from '../../intake/sheet/job-sheet.ts';
import builtInAdvice from '../defaults/advice.json' with { type: 'json' };
import { readChecked, type Source } from './read-settings.ts';

export interface Bottle {
  readonly file: string;
  readonly resin: Resin;
  readonly raw: unknown;
}

export function readBottle(source: Source): Checked<Bottle> {
  const read = readChecked(resinSchema, source);
  if (!read.ok) return read;
  const { file, settings, raw } = read.value;
  return { ok: true, value: { file, resin: settings, raw } };
}

/** Name, lot and working curve of a bottle, as in the job sheet's file. */
const stated = ({ name, lot, curve }: Resin) => ({
  name,
  lot,
  criticalExposureMJPerCm2: curve === null ? null : curve.criticalJPerM2 / 10,
  penetrationDepthMm: curve === null ? null : curve.penetrationM * 1000,
});

/** The job sheet's fields for the fill's resin. */
export const statedResin = (resin: Resin) => ({
  ...stated(resin),
  viscosityMPaSAt20C: rounded(viscosityAtPaS(resin, kFromCelsius(20)) * 1000),
});

/** To four digits: more than a data sheet gives. */
const rounded = (value: number): number => Number(value.toPrecision(4));

/** The job file with this bottle in place of its own resin fields. */
export function jobWithBottles(job: unknown, fill: Bottle | null, pit: Bottle | null): unknown {
  if (typeof job !== 'object' || job === null) return job;
  return {
    ...job,
    ...(fill !== null && { resin: statedResin(fill.resin) }),
    ...(pit !== null && { pitResin: stated(pit.resin) }),
  };
}

export interface BottleRemarks {
  readonly against: readonly string[];
  readonly notes: readonly string[];
}

export interface BottleUse {
  readonly today: string;
  readonly simulated: boolean;
  /** Of the unit's lamp. */
  readonly lampPeakNm: number;
}

export function bottleRemarks(
  { resin }: Bottle,
  use: 'fill' | 'pit',
  { damage, glassK }: JobSheet,
  { today, simulated, lampPeakNm }: BottleUse,
): BottleRemarks {
  const { damage: wanted } = adviceRulesSchema.parse(builtInAdvice);
  const { leastMPaS, mostMPaS } = wanted[damage.type];
  const remarks = resinRemarks(resin, {
    today,
    board: simulated ? 'simulated' : 'real',
    use,
    glassK,
    // Pit resin flows into no gap.
    wanted: use === 'pit' ? null : { leastPaS: leastMPaS / 1000, mostPaS: mostMPaS / 1000 },
    viscosityPaS: viscosityAtPaS(resin, glassK),
    lampPeakNm,
  });
  const said = (weight: 'refuse' | 'note'): readonly string[] =>
    remarks
      .filter((remark) => remark.weight === weight)
      .map(({ words }) => `${resin.name}, lot ${resin.lot}: ${words}`);
  return { against: said('refuse'), notes: said('note') };
}
