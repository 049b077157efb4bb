/**
 * What every sheet of a certificate or report must say where the chain of records does not vouch for
 * it, and, for whoever checks the work, what was held against what when the page was written.
 */
import { type Block, blocksOf, type PageDocument } from './blocks.ts';
import type { DocumentFacts } from './facts.ts';

export type ChainState = 'agrees' | 'differs' | 'not recorded';

interface Mark {
  readonly onEverySheet: string;
  readonly banner: string;
}

const MARKS: Readonly<Record<ChainState, Mark | null>> = {
  agrees: null,
  differs: {
    onEverySheet: 'DOES NOT AGREE WITH THE CHAIN OF RECORDS',
    banner:
      'THIS RECORD DOES NOT AGREE WITH THE CHAIN OF RECORDS. It was changed after the job: nothing on this page is vouched for.',
  },
  'not recorded': {
    onEverySheet: 'NOT RECORDED IN A CHAIN',
    banner:
      'NOT RECORDED IN A CHAIN. Only the journal’s own checksum stands behind this page, and whoever can change the journal can compute it again.',
  },
};

export function withChainMark(page: PageDocument, state: ChainState): PageDocument {
  const mark = MARKS[state];
  if (mark === null) return page;
  const { onEverySheet, banner } = mark;
  return {
    ...page,
    title: `${page.title} (${onEverySheet.toLowerCase()})`,
    mark: onEverySheet,
    blocks: blocksOf({ kind: 'banner', text: banner }, ...page.blocks),
  };
}

const JOURNAL_CHECKED: Readonly<Record<ChainState, string>> = {
  agrees:
    'its SHA-256 and the links of the chain from its entry on were checked when this page was written, and hold',
  differs: 'DOES NOT AGREE with its entry in the chain, or the chain is broken from there on',
  'not recorded': 'no entry in a chain, so only its own checksum could be checked',
};

const PEOPLE_CHECKED = {
  agree: 'agree with the salted hash that was recorded with the job',
  'not recorded': 'NOT checked: no hash of them was recorded',
} as const;

export interface WhatWasHeld {
  readonly journal: ChainState;
  /** People that do not agree are not printed. */
  readonly people: keyof typeof PEOPLE_CHECKED;
}

/** The last block of a report. */
export const whatWasChecked = (
  { personal, personalRemovedOn, photos }: DocumentFacts,
  { journal, people }: WhatWasHeld,
): Block => ({
  kind: 'fields',
  caption: 'What was held against the chain when this page was written',
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
        : 'NOT checked: they are in no hash, and may have been put here at any time',
    ],
  ],
});
