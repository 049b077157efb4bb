/**
 * What a reader needs to judge whether to trust the record: every input as given, the board, the
 * hashes, and plain words about what such a record is.
 */

import type { ReportData } from '../../report/report-data.ts';
import { othersOfPaneIn } from '../../report/same-pane.ts';
import type { Block } from '../blocks.ts';
import type { DocumentFacts } from '../facts.ts';
import { inputRowsOf } from './inputs.ts';

/** `absent`: the text for a field without a value. */
export const inputFields = (file: unknown, absent = 'not known'): Block => ({
  kind: 'fields',
  empty: 'Nothing was given.',
  rows: inputRowsOf(file, absent).map(({ label, value, unit }) => [
    label,
    unit === '' ? value : `${value}\u00a0${unit}`,
  ]),
});

const INTACT_WORDS = {
  true: 'matches: the file is as it was written',
  false: 'DOES NOT MATCH: the file was changed after it was written',
  null: 'none: the journal has no end',
} as const;

export function identityFields({ report: data, recordId, intake }: DocumentFacts): Block {
  const { board, journal } = data;
  const others = othersOfPaneIn(intake?.sheet);
  return {
    kind: 'fields',
    empty: '',
    rows: [
      ['Record', recordId],
      ...(others.length === 0 ? [] : [['Other damages of this pane', others.join(', ')] as const]),
      ['Program', `Meniscus ${data.meniscus}`],
      ['Board', `${board.kind}, serial ${board.serial}, firmware ${board.firmware}`],
      [
        'Board protects itself by',
        board.protection.map((p) => p.replaceAll('-', ' ')).join(', ') || 'nothing',
      ],
      ['Tick and lease', `${board.tickS} s and ${board.leaseS} s`],
      ['Seed', data.seed === null ? 'none' : String(data.seed)],
      ['Began', `${data.startedAt}${data.simulated ? ' (simulated time)' : ''}`],
      ['Frames and events', `${journal.frames} and ${journal.events}`],
      ['Checksum', INTACT_WORDS[`${journal.intact}`]],
    ],
  };
}

export function sumFields({ report: { journal, hashes }, chain }: DocumentFacts): Block {
  return {
    kind: 'fields',
    caption:
      'SHA-256. The hashes reveal changes; they are not a signature. Settings are hashed as JSON with sorted keys.',
    empty: '',
    rows: [
      ['Journal, all bytes before its end line', journal.sha256],
      ['Profile', hashes.profile],
      ['Unit', hashes.unit],
      ['Job sheet', hashes.job],
      ['Place in the chain of records', chain === null ? 'not recorded' : `no. ${chain.seq}`],
      ['Link of the chain', chain === null ? 'not recorded' : chain.hash],
      ['Signed by the unit key', chain?.unitKey ?? 'not signed'],
    ],
  };
}

export const canAndCannot = ({ dose }: ReportData): Block => ({
  kind: 'list',
  items: [
    'A mark may remain visible. The glass is improved, not made new.',
    'It shows whether the process stayed within its limits, as far as the claims at its top are shown.',
    `Dose is light that reached the sensor, with the sensor’s own error; ${
      dose.uncertainty === null
        ? 'no uncertainty is stated.'
        : 'its uncertainty is calculated from the unit file’s data for sensor and clock, and is no better than those.'
    }`,
    'It certifies nothing. Whether damage of this kind and place may be repaired is decided by local law and by the person who may decide under it.',
  ],
});

export const CAUTIONS: Block = {
  kind: 'list',
  items: [
    'Do not touch or scrape a pit that is sticky: it needs more light. Uncured resin can cause lasting skin allergy.',
    'Look at the spot again after a day and after the first frost or heat. If a leg has grown, have the pane assessed again.',
    'Cured resin cannot be filled again. A break that was stopped half filled is for a trained person to judge.',
  ],
};
