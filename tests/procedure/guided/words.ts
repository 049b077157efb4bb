/** The Spanish words of the guided procedures, for tests that need another language than English. */
import { guidedCatalogueSchema } from '../../../src/procedure/guided/catalogue.ts';
import spanish from '../../../src/procedure/guided/catalogues/es.json' with { type: 'json' };

export const ES = guidedCatalogueSchema.parse(spanish);
