/** The answer at a dotted path of an intake sheet, also of one that is only half filled in. */
import { valueAt } from '../settings.ts';

export const answerAt = (sheet: unknown, path: string): unknown => valueAt(sheet, path.split('.'));
