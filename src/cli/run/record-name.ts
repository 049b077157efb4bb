/**
 * Derives the name of a job's record and folder from the sheet's reference. It holds letters,
 * digits, `.`, `_` and `-`. It never begins with a character that a shell or command treats
 * specially, and never equals a name reserved by the store.
 */
import { isStoreName } from '../../store/chain/paths.ts';

const FALLBACK = 'job';

export function recordName(reference: string): string {
  const name = reference.replaceAll(/[^A-Za-z0-9._-]/g, '-').replace(/^[-.]+/, '');
  if (name === '') return FALLBACK;
  return isStoreName(name) ? `${FALLBACK}-${name}` : name;
}
