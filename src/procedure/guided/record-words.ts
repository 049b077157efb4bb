/** The words for events and records, which are kept in English whatever the display's language. */

import en from '../../panel/catalogues/en/guided.json' with { type: 'json' };
import { guidedCatalogueSchema } from './catalogue.ts';

export const RECORD_WORDS = guidedCatalogueSchema.parse(en);
