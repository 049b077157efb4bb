/** Every catalogue that is built in, checked as a job would have it checked. */
import { LANGUAGES } from '../../src/app/prepare/languages.ts';
import { catalogueOf } from '../../src/app/prepare/load-catalogue.ts';
import type { Catalogue } from '../../src/panel/catalogue.ts';

function load(language: string): Catalogue {
  const loaded = catalogueOf(language);
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems, null, 1));
  return loaded.value.catalogue;
}

export const CATALOGUES: readonly Catalogue[] = LANGUAGES.map(load);
export const [ENGLISH, SPANISH] = ['en', 'es'].map(load) as [Catalogue, Catalogue];
