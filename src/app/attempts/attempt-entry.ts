/** The configuration of an attempt as its journal's header states it, for replay. */
import type { Checked } from '../../core/settings.ts';
import type { JournalHeader } from '../../journal/journal-format.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { attemptIn } from '../../report/claims/attempt-facts.ts';
import { jobFactsIn } from '../prepare/job-facts.ts';
import { legRuleOf } from '../prepare/leg-rule.ts';
import { settingsFromInputs } from '../prepare/load-settings.ts';

/** The settings in the header, with where the attempt went on and how far a leg might grow. */
export function configOfHeader(
  { inputs, about }: Pick<JournalHeader, 'inputs' | 'about'>,
  file: string,
): Checked<RepairConfig> {
  const config = settingsFromInputs(inputs, file);
  if (!config.ok) return config;
  const entry = attemptIn(about)?.entry ?? null;
  const { intake } = jobFactsIn({ about });
  const legRule = legRuleOf(intake?.legLimit ?? null);
  return { ok: true, value: { ...config.value, ...legRule, ...(entry !== null && { entry }) } };
}
