/**
 * The warning that every sheet of a certificate or report carries where the chain of records does
 * not vouch for it, and the list of what was compared with what when the page was written.
 */
import { type Block, blocksOf, type PageDocument } from './blocks.ts';
import type { CertificateWords } from './certificate/certificate-words.ts';
import type { DocumentFacts } from './facts.ts';

export type ChainState = 'agrees' | 'differs' | 'not recorded';

export function withChainMark(
  page: PageDocument,
  state: ChainState,
  { chain }: CertificateWords,
): PageDocument {
  if (state === 'agrees') return page;
  const { sheet, banner } = chain[state];
  return {
    ...page,
    title: `${page.title} (${sheet.toLowerCase()})`,
    mark: sheet,
    blocks: blocksOf({ kind: 'banner', text: banner }, ...page.blocks),
  };
}

const JOURNAL_CHECKED: Readonly<Record<ChainState, string>> = {
  agrees:
    'its SHA-256 and the links of the chain from its entry on were checked when this page was written, and are valid',
  differs: 'DOES NOT AGREE with its entry in the chain, or the chain is broken from there on',
  'not recorded': 'no entry in a chain, so only its own checksum could be checked',
};

const PEOPLE_CHECKED = {
  agree: 'agree with the salted hash that was recorded with the job',
  'not recorded': 'NOT checked: no hash of them was recorded',
} as const;

const NO_HASH = 'NOT checked: no hash covers them, so they may have been added at any time';

const PHOTOGRAPHS_CHECKED: Readonly<Record<ChainState, string>> = {
  agrees:
    'their hashes are entered into the chain with this page; what was done to them before is NOT checked',
  differs: NO_HASH,
  'not recorded': NO_HASH,
};

export interface WhatWasHeld {
  readonly journal: ChainState;
  /** People are not printed where their file disagrees with the chain. */
  readonly people: keyof typeof PEOPLE_CHECKED;
}

/** The last block of a report. */
export const whatWasChecked = (
  { personal, personalRemovedOn, photos }: DocumentFacts,
  { journal, people }: WhatWasHeld,
): Block => ({
  kind: 'fields',
  caption: 'What was checked against the chain when this page was written',
  empty: '',
  rows: [
    ['Journal', JOURNAL_CHECKED[journal]],
    [
      'Technician, customer, vehicle',
      personalRemovedOn !== null || personal === null ? 'none are printed' : PEOPLE_CHECKED[people],
    ],
    [
      'Photographs',
      photos.before === null && photos.after === null
        ? 'none are printed'
        : PHOTOGRAPHS_CHECKED[journal],
    ],
  ],
});
