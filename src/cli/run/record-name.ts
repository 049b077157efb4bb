/**
 * The name of a job's record and of its folder, from the reference of its sheet. It holds letters,
 * digits, `.`, `_` and `-`; it begins with none that a shell or a command would take otherwise, and
 * with nothing that is the store's own.
 */
import { isStoreName } from '../../store/chain/paths.ts';

const FALLBACK = 'job';

export function recordName(reference: string): string {
  const name = reference.replaceAll(/[^A-Za-z0-9._-]/g, '-').replace(/^[-.]+/, '');
  if (name === '') return FALLBACK;
  return isStoreName(name) ? `${FALLBACK}-${name}` : name;
}
