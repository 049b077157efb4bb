/** The length at which a rule ends the repair, from the assessment to the settings of the job. */
import type { LegLimit } from '../../intake/rules/grown-leg.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';

export const legRuleOf = (limit: LegLimit | null): Pick<RepairConfig, 'legRule'> =>
  limit === null ? {} : { legRule: { longestM: limit.longestMm / 1000, rule: limit.rule } };
