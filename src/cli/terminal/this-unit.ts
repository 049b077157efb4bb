/**
 * The unit that this program runs on: where its key and memory lie, which is outside every folder
 * of records, and records opened for writing with its signature.
 */
import { homedir } from 'node:os';
import { join } from 'node:path';
import type { Checked } from '../../core/settings.ts';
import { openUnit, type Unit } from '../../store/chain/unit-key.ts';
import { type OpenOptions, openRecords, type RecordsStore } from '../../store/records-store.ts';

/** `MENISCUS_UNIT` names another folder, for example for a second unit on one computer. */
export function unitFolder(): string {
  const {
    MENISCUS_UNIT: named = '',
    XDG_CONFIG_HOME: config = '',
    APPDATA: data = '',
  } = process.env;
  if (named !== '') return named;
  const above = process.platform === 'win32' ? data : config;
  return join(above === '' ? join(homedir(), '.config') : above, 'meniscus');
}

export const thisUnit = (): Checked<Unit> => openUnit(unitFolder());

export function openToWrite(
  records: string,
  options: Pick<OpenOptions, 'newSalt'> = {},
): Checked<RecordsStore> {
  const unit = thisUnit();
  return unit.ok ? openRecords(records, { ...options, unit: unit.value }) : unit;
}
