/** The other damages of the pane, by their references, as the intake sheet of a job names them. */
import { listAt } from '../core/fields.ts';

export const othersOfPaneIn = (sheet: unknown): readonly string[] =>
  listAt(sheet, 'samePane').flatMap((one) => (typeof one === 'string' ? [one] : []));
