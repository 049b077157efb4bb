/** The words for events and records, which are kept in English whatever the display's language. */
import { guidedCatalogueSchema } from './catalogue.ts';
import en from './catalogues/en.json' with { type: 'json' };

export const RECORD_WORDS = guidedCatalogueSchema.parse(en);
