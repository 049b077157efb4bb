/**
 * Which rule sets are proposed for a place: a table by country code, with a region where its rules
 * differ. A place without a row has no rule set known here, and that is said; nothing is taken from
 * a neighbour. Editions that are out of force are not proposed: a person may name them. `cover.ts` decides which of the proposed sets bind the vehicle.
 */

interface Place {
  readonly words: string;
  readonly sets: readonly string[];
}

const FEDERAL_US = ['us-49-cfr-393-60-c'];
const EAEU = ['eaeu-tr-cu-018-2011'];
const STANDARD_ANZ = 'as-nzs-2366-1-1999';

/** ISO 3166-1 two-letter codes, with the region's code of ISO 3166-2 behind it. */
const PLACES: Readonly<Record<string, Place>> = {
  am: { words: 'Armenia', sets: EAEU },
  at: { words: 'Austria', sets: ['at-57a-2019'] },
  'au-nsw': { words: 'Australia, New South Wales', sets: [STANDARD_ANZ, 'au-nsw-vsi-3'] },
  'au-qld': { words: 'Australia, Queensland', sets: [STANDARD_ANZ, 'au-qld-inspection'] },
  'au-vic': { words: 'Australia, Victoria', sets: [STANDARD_ANZ, 'au-vic-roadworthiness'] },
  by: { words: 'Belarus', sets: EAEU },
  'ca-bc': { words: 'Canada, British Columbia', sets: ['ca-bc-mva-division-7'] },
  'ca-on': { words: 'Canada, Ontario', sets: ['ca-on-inspection'] },
  'ca-qc': { words: 'Canada, Quebec', sets: ['ca-qc-c-24-2-r-32'] },
  'ca-sk': { words: 'Canada, Saskatchewan', sets: ['ca-sk-inspection'] },
  ch: { words: 'Switzerland', sets: ['ch-vts-2019'] },
  de: {
    words: 'Germany',
    sets: ['de-verkehrsblatt-1986', 'de-verkehrsblatt-1986-over-3500kg'],
  },
  fr: { words: 'France', sets: ['fr-controle-technique-2018'] },
  gb: {
    words: 'Great Britain',
    sets: [
      'gb-bs-au-242b-2022',
      'gb-bs-au-242b-2022-over-3500kg',
      'gb-mot-up-to-3500kg',
      'gb-mot-over-3500kg',
    ],
  },
  ie: { words: 'Ireland', sets: ['ie-nct'] },
  kg: { words: 'Kyrgyzstan', sets: EAEU },
  kz: { words: 'Kazakhstan', sets: EAEU },
  nl: { words: 'Netherlands', sets: ['nl-rdw-2005', 'nl-rdw-2005-over-3500kg'] },
  nz: { words: 'New Zealand', sets: [STANDARD_ANZ, 'nz-virm-in-service'] },
  ru: { words: 'Russia', sets: EAEU },
  se: { words: 'Sweden', sets: ['se-besiktning'] },
  ua: { words: 'Ukraine', sets: ['ua-gstu-3649-97'] },
  'us-md': {
    words: 'United States, Maryland',
    sets: ['us-md-29-02-01-11', 'us-md-comar-11-22-02-20', ...FEDERAL_US],
  },
  'us-mo': { words: 'United States, Missouri', sets: ['us-mo-11-csr-50-2-270', ...FEDERAL_US] },
  'us-ny': { words: 'United States, New York', sets: ['us-ny-inspection', ...FEDERAL_US] },
  'us-ut': { words: 'United States, Utah', sets: ['us-ut-r714-160', ...FEDERAL_US] },
  'us-va': { words: 'United States, Virginia', sets: ['us-va-19vac30-70-580', ...FEDERAL_US] },
  'us-wv': { words: 'United States, West Virginia', sets: ['us-wv-inspection', ...FEDERAL_US] },
};

export const PLACE_CODE = 'a code such as de, gb or us-md: country, and region where rules differ';
/** With rule sets of their own. */
export const KNOWN_PLACES: readonly string[] = Object.keys(PLACES);

export interface Proposed {
  readonly sets: readonly string[];
  readonly words: string;
}

/** Null where this is no code of a place. */
export function proposedFor(typed: string): Proposed | null {
  const code = typed.trim().toLowerCase();
  if (!/^[a-z]{2}(-[a-z0-9]{1,3})?$/.test(code)) return null;
  const place = PLACES[code];
  if (place !== undefined) {
    return { sets: place.sets, words: `${place.words}: ${place.sets.join(', ')}` };
  }
  const regions = KNOWN_PLACES.filter((known) => known.startsWith(`${code}-`));
  const hint = regions.length === 0 ? '' : ` Its regions with rules: ${regions.join(', ')}.`;
  return { sets: [], words: `No rule set is known here for this place (${code}).${hint}` };
}
