/** Makes a folder for one journal under an unused name, so that none is ever overwritten. */
import { join } from 'node:path';
import type { SettingsProblem } from '../../core/settings.ts';
import { makeNewPrivateFolder, makePrivateFolder } from '../../journal/private-file.ts';
import { closeRecords } from '../../store/close-records.ts';
import { recordName } from './record-name.ts';

/** Makes a new folder and returns its name; a name that is taken gets a number. */
export function newFolder(records: string, reference: string): string | SettingsProblem {
  const name = recordName(reference);
  const accepted = 'a folder that can be made';
  try {
    makePrivateFolder(records);
    closeRecords(records);
    for (let again = 1; ; again++) {
      const fresh = again === 1 ? name : `${name}.${again}`;
      if (makeFolder(join(records, fresh))) return fresh;
    }
  } catch (error) {
    return { file: records, path: '', value: `not writable (${String(error)})`, accepted };
  }
}

/** False where it exists already, even when another job made it at this moment. */
function makeFolder(folder: string): boolean {
  try {
    makeNewPrivateFolder(folder);
    return true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false;
    throw error;
  }
}
