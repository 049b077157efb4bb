/**
 * How long a leg that grew may be: past it a rule ends the repair, or the light beyond the lamp's
 * even spot is not known.
 */
import type { RepairConfig } from './repair-state.ts';
import { workPlanOf } from './work-plan.ts';

export interface LegLimits {
  /** Null where neither is known. */
  readonly longestM: number | null;
  /** What the rule says, where it is what ends the repair. */
  readonly rule: string | null;
}

export function legLimitsOf(config: RepairConfig): LegLimits {
  const litM = workPlanOf(config).coversM ?? config.unit.lightPath?.spotRadiusM ?? null;
  const { legRule } = config;
  if (legRule === undefined) return { longestM: litM, rule: null };
  return litM === null || legRule.longestM <= litM ? legRule : { longestM: litM, rule: null };
}
