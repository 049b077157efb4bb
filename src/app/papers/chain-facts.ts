/**
 * What the chain says about the job of a journal, and whether the journal is still the recorded
 * one, for pages that are written later.
 */
import { existsSync } from 'node:fs';
import { textAt } from '../../core/fields.ts';
import { INCOMPLETE } from '../../report/verdict.ts';
import { chainPath } from '../../store/chain/paths.ts';
import { personalFieldsOf } from '../../store/chain/personal-file.ts';
import { closeRecords } from '../../store/close-records.ts';
import { type ChainCheck, checkAgainstChain } from '../../store/verify/chain-check.ts';
import type { FactSources } from './document-facts.ts';
import { placeInRecords } from './enter-papers.ts';
import { recordFactsOf } from './record-facts.ts';

/**
 * Checks the job's journal against the chain beside its folder; "not recorded" where there is none.
 */
export function chainCheckOf(journal: string): ChainCheck {
  const { records, id } = placeInRecords(journal);
  if (!existsSync(chainPath(records)) || !existsSync(journal)) {
    return { state: 'not recorded', entries: [], words: null };
  }
  closeRecords(records);
  return checkAgainstChain(records, id, journal);
}

/** For pages that are written from this journal now. */
export function chainFactsOf(journal: string, { state, entries, words }: ChainCheck): FactSources {
  const { records } = placeInRecords(journal);
  const shown = entries.map((entry) => ({ entry, personal: personalFieldsOf(records, entry) }));
  const known = recordFactsOf(shown);
  const repair = entries.find(({ kind }) => kind === 'repair');
  const { personalSha256 = null } = repair ?? {};
  const incomplete = textAt(repair?.body, 'result', 'verdict') === INCOMPLETE;
  if (state === 'agrees') return { outside: known, personalSha256, incomplete };
  // A chain entry would vouch for what the journal has lost.
  const outside = { ...known, chain: null };
  return { outside, personalSha256, ...(state === 'differs' && { differs: words ?? '' }) };
}
