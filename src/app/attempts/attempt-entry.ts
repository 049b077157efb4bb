/** The configuration of an attempt as its journal's header states it, for replay. */
import type { Checked } from '../../core/settings.ts';
import type { JournalHeader } from '../../journal/journal-format.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { attemptIn } from '../../report/claims/attempt-facts.ts';
import { settingsFromInputs } from '../prepare/load-settings.ts';

/** The settings in the header, with where the attempt went on. */
export function configOfHeader(
  { inputs, about }: Pick<JournalHeader, 'inputs' | 'about'>,
  file: string,
): Checked<RepairConfig> {
  const config = settingsFromInputs(inputs, file);
  const entry = attemptIn(about)?.entry ?? null;
  return config.ok && entry !== null ? { ok: true, value: { ...config.value, entry } } : config;
}
