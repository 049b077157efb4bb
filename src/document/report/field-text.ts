/** How a report names a dose, and the field of the lamp that it is of. */
import { filled } from '../../core/phrases.ts';
import { inField } from '../../report/claims/claim-table.ts';
import type { DosePart, FieldOf } from '../../report/dose-part.ts';
import type { PaperWords } from '../paper-words.ts';

/** 'field 1 of 2'. */
export const fieldText = ({ number, of }: FieldOf, { report }: PaperWords): string =>
  filled(report.field, { number: String(number), of: String(of) });

/** `what`, with its field where there are several. */
export const ofField = (
  what: string,
  { field = null }: Pick<DosePart, 'field'>,
  { claims }: PaperWords,
): string => (field === null ? what : inField(what, field, claims));

/** 'Dose' for both together, 'Dose of the fill' where they were cured apart. */
export const doseTitle = (part: DosePart, words: PaperWords): string =>
  ofField(words.report.portions[part.portion].title, part, words);

/** A figure that is the only one of its kind keeps the plain name. */
export const idOf = ({ portion }: DosePart): string =>
  portion === 'fill and pit' ? '' : `-${portion}`;
