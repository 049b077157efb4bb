/**
 * The warning that every sheet of a certificate or report carries where the chain of records does
 * not vouch for it, and the list of what was compared with what when the page was written.
 */
import { type Block, blocksOf, type PageDocument } from './blocks.ts';
import type { CertificateWords } from './certificate/certificate-words.ts';
import type { DocumentFacts } from './facts.ts';
import type { PaperWords } from './paper-words.ts';

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

export interface WhatWasHeld {
  readonly journal: ChainState;
  /** People are not printed where their file disagrees with the chain. */
  readonly people: 'agree' | 'not recorded';
}

/** The last block of a report. */
export function whatWasChecked(
  { personal, personalRemovedOn, photos }: DocumentFacts,
  { journal, people }: WhatWasHeld,
  { report: { checked, people: named } }: PaperWords,
): Block {
  const noPeople = personalRemovedOn !== null || personal === null;
  const noPhotos = photos.before === null && photos.after === null;
  return {
    kind: 'fields',
    caption: checked.about,
    empty: '',
    rows: [
      [checked.journal, checked.journalStates[journal]],
      [named.all, noPeople ? checked.nonePrinted : checked.peopleStates[people]],
      [checked.photographs, noPhotos ? checked.nonePrinted : checked.photographStates[journal]],
    ],
  };
}
