/** The words that go into events and records, which are kept in English whatever the display says. */
import { guidedCatalogueSchema } from './catalogue.ts';
import en from './catalogues/en.json' with { type: 'json' };

export const RECORD_WORDS = guidedCatalogueSchema.parse(en);
