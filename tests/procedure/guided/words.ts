/** The Spanish words of the guided procedures, for tests that need another language than English. */

import spanish from '../../../src/panel/catalogues/es/guided.json' with { type: 'json' };
import { guidedCatalogueSchema } from '../../../src/procedure/guided/catalogue.ts';

export const ES = guidedCatalogueSchema.parse(spanish);
