/**
 * What a reader needs to judge whether to trust the record: every input as given, the board, and the
 * hashes.
 */

import { filled } from '../../core/phrases.ts';
import { othersOfPaneIn } from '../../report/same-pane.ts';
import { nameIn } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import { kindNamed } from '../certificate/certificate-words.ts';
import type { DocumentFacts } from '../facts.ts';
import type { PaperWords } from '../paper-words.ts';
import { inputRowsOf } from './inputs.ts';
import { beganText } from './verdict-box.ts';

/** `absent`: the text for a field without a value. */
export const inputFields = (file: unknown, words: PaperWords, absent?: string): Block => ({
  kind: 'fields',
  empty: words.report.inputs.nothing,
  rows: inputRowsOf(file, words, absent).map(({ label, value, unit }) => [
    label,
    unit === '' ? value : `${value}\u00a0${unit}`,
  ]),
});

export function identityFields(
  { report: data, recordId, intake }: DocumentFacts,
  words: PaperWords,
): Block {
  const { report, certificate, tongue } = words;
  const { identity, said } = report;
  const { board, journal } = data;
  const others = othersOfPaneIn(intake?.sheet);
  const { serial, firmware } = board;
  const kind = kindNamed(certificate, board.kind);
  const tick = { tick: String(board.tickS), lease: String(board.leaseS) };
  const counted = { frames: String(journal.frames), events: String(journal.events) };
  const protections = board.protection.map((id) => nameIn(identity.protections, id)).join(', ');
  return {
    kind: 'fields',
    empty: '',
    rows: [
      [identity.record, recordId],
      ...(others.length === 0 ? [] : [[identity.samePane, others.join(', ')] as const]),
      [identity.program, `Meniscus ${data.meniscus}`],
      [identity.board, filled(identity.boardOf, { kind, serial, firmware })],
      [identity.protection, protections || said.nothing],
      [identity.tick, tongue.figure(filled(identity.tickOf, tick))],
      [identity.seed, data.seed === null ? said.none : String(data.seed)],
      [identity.began, beganText(data, words)],
      [identity.counted, filled(identity.countedOf, counted)],
      [identity.checksum, identity[CHECKSUMS[`${journal.intact}`]]],
    ],
  };
}

const CHECKSUMS = { true: 'intact', false: 'changed', null: 'noEnd' } as const;

export function sumFields(
  { report: { journal, hashes }, chain }: DocumentFacts,
  { report: { identity, said } }: PaperWords,
): Block {
  const place = chain === null ? null : filled(identity.placeOf, { seq: String(chain.seq) });
  return {
    kind: 'fields',
    caption: identity.hashes,
    empty: '',
    rows: [
      [identity.journal, journal.sha256],
      [identity.profile, hashes.profile],
      [identity.unit, hashes.unit],
      [identity.job, hashes.job],
      [identity.place, place ?? said.notRecorded],
      [identity.link, chain?.hash ?? said.notRecorded],
      [identity.signed, chain?.unitKey ?? identity.notSigned],
    ],
  };
}
