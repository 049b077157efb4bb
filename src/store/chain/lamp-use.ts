/**
 * How much a repair used the lamp and films, for the unit's care. A cure that was cut short states
 * no lamp time; its whole phase then counts, which errs on the high side.
 */

import { numberAt } from '../../core/fields.ts';
import { CURE_PHASES } from '../../core/phases.ts';
import { curesIn } from '../../report/claims/claim-facts.ts';
import type { ReportData } from '../../report/report-data.ts';

export interface LampUse {
  readonly [key: string]: number | null;
  readonly lampOnS: number;
  /** Each cure uses a film of its own. */
  readonly cures: number;
  readonly films: number;
  /** Mean at the glass; null where the lamp never ran at full drive. */
  readonly fullDriveWPerM2: number | null;
}

const FULL_PERCENT = 100;

type Facts = Pick<ReportData, 'doses' | 'phases' | 'inputs'>;

export function lampUseOf({ doses, phases, inputs }: Facts): LampUse {
  const cures = new Set(phases.flatMap(({ phase }) => (CURE_PHASES.has(phase) ? [phase] : [])))
    .size;
  const runs = curesIn({ phases }).length;
  const statedS = sum(doses.map(({ lampOnS }) => lampOnS ?? 0));
  const stated = doses.filter(({ lampOnS }) => lampOnS !== null).length;
  const phasesS = sum(
    phases.map(({ phase, fromS, toS }) => (CURE_PHASES.has(phase) ? toS - fromS : 0)),
  );
  const full = numberAt(inputs.profile, 'cure', 'lampPercent') === FULL_PERCENT;
  const means = doses.flatMap(({ irradianceMeanWPerM2: mean }) => (mean === null ? [] : [mean]));
  return {
    lampOnS: stated < runs ? Math.max(statedS, phasesS) : statedS,
    cures,
    films: cures,
    fullDriveWPerM2: full ? (means.at(-1) ?? null) : null,
  };
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);
