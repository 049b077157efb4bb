/**
 * The warning that every sheet of a certificate or report carries where the chain of records does
 * not vouch for it, and the list of what was compared with what when the page was written.
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
      'THIS RECORD DOES NOT AGREE WITH THE CHAIN OF RECORDS. It was changed after the job: nothing on this page can be trusted.',
  },
  'not recorded': {
    onEverySheet: 'NOT RECORDED IN A CHAIN',
    banner:
      'NOT RECORDED IN A CHAIN. Only the journal’s own checksum supports this page, and anyone who can change the journal can recompute it.',
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
    'its SHA-256 and the links of the chain from its entry on were checked when this page was written, and are valid',
  differs: 'DOES NOT AGREE with its entry in the chain, or the chain is broken from there on',
  'not recorded': 'no entry in a chain, so only its own checksum could be checked',
};

const PEOPLE_CHECKED = {
  agree: 'agree with the salted hash that was recorded with the job',
  'not recorded': 'NOT checked: no hash of them was recorded',
} as const;

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
        : 'NOT checked: no hash covers them, so they may have been added at any time',
    ],
  ],
});
