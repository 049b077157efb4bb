/**
 * When a repair cannot succeed, or a person must judge whether it can, whatever the law allows: a
 * table of exclusions, each with its reason and provenance. Local law is left to the rule sets.
 */
import type { Condition, Provenance } from './rule-set.ts';

export interface TechnicalExclusion extends Condition {
  readonly id: string;
  readonly means: 'cannot' | 'needs-a-person';
  readonly words: string;
  readonly provenance: Exclude<Provenance, 'shop' | 'not-read'> | 'common-practice' | 'reasoning';
  readonly source: string;
}

const REASONING = { provenance: 'reasoning', source: 'own reasoning, no source' } as const;
const COMMON = { provenance: 'common-practice', source: 'common practice, no source' } as const;

/** Where the pane has another function as well, its maker's map of that field takes precedence. */
const FIELDS = [
  ['cameraField', 'a camera or sensor'],
  ['headUpDisplay', 'a head-up display'],
  ['heatedField', 'heating wires or a heated field'],
  ['antenna', 'an antenna'],
] as const;

export const TECHNICAL_EXCLUSIONS: readonly TechnicalExclusion[] = [
  {
    id: 'inner-ply',
    about: 'innerPlyTouched',
    forbids: [true],
    when: {},
    means: 'cannot',
    words: 'Resin fills the outer ply only; with the inner ply damaged the pane is replaced.',
    provenance: 'copy',
    source:
      'German ministry conditions, in a reprint; AS/NZS 2366.1, as a motoring club retells it',
  },
  {
    id: 'interlayer',
    about: 'interlayerTouched',
    forbids: [true],
    when: {},
    means: 'cannot',
    words: 'A damaged or separated interlayer cannot be mended from outside.',
    provenance: 'copy',
    source:
      'German ministry conditions, in a reprint; AS/NZS 2366.1, as a motoring club retells it',
  },
  {
    id: 'dirt-stays',
    about: 'contamination',
    forbids: ['stays'],
    when: {},
    means: 'cannot',
    words: 'Dirt that cannot be removed keeps resin out of the legs and stays visible.',
    provenance: 'copy',
    source: 'German ministry conditions, in a reprint: neither moisture nor dirt may be visible',
  },
  {
    id: 'moisture',
    about: 'moisture',
    forbids: ['damp', 'wet'],
    when: {},
    means: 'needs-a-person',
    words: 'Water in the break cures to a milky mark: dry it first, then look again.',
    provenance: 'copy',
    source: 'German ministry conditions, in a reprint: neither moisture nor dirt may be visible',
  },
  {
    id: 'dirt',
    about: 'contamination',
    forbids: ['can-be-removed'],
    when: {},
    means: 'needs-a-person',
    words: 'Remove the dirt first, then check that it is gone.',
    ...REASONING,
  },
  {
    id: 'filled-before',
    about: 'repairedBefore',
    forbids: [true],
    when: {},
    means: 'needs-a-person',
    words:
      'Cured resin in the break keeps new resin out; only a break that was filled incompletely may take more.',
    ...REASONING,
  },
  {
    id: 'stress-crack',
    about: 'impactPoint',
    forbids: [false],
    when: { type: ['crack'] },
    means: 'cannot',
    words: 'A crack without an impact comes from stress or twist, which filling does not remove.',
    provenance: 'from-memory',
    source: 'windscreen repair standard ROLAGS, exclusions',
  },
  {
    id: 'edge-crack',
    about: 'edgeReached',
    forbids: [true],
    when: {},
    means: 'needs-a-person',
    words:
      'A break that runs to an edge, seal or trim is open there and under stress: it may not hold vacuum and may run on.',
    ...REASONING,
  },
  {
    id: 'near-an-edge',
    about: 'edgeDistanceMm',
    limit: { is: 'at-least', value: 100, unit: 'mm' },
    when: {},
    means: 'needs-a-person',
    words:
      'Near an edge the pane is curved and stressed: the tool seats poorly and the pane breaks more easily. This is not a law.',
    provenance: 'second-hand',
    source:
      "inspection body's advice of 10 cm, quoted by the press (wz.de); 60 mm is named in Italy and 40 mm in France",
  },
  {
    id: 'long-crack',
    about: 'longestLegMm',
    limit: { is: 'at-most', value: 100, unit: 'mm' },
    when: { type: ['crack'] },
    means: 'needs-a-person',
    words: 'Resin runs slowly along a crack: the time grows with the square of its length.',
    ...REASONING,
  },
  {
    id: 'cracks-meet',
    about: 'cracksMeet',
    forbids: [true],
    when: { type: ['crack'] },
    means: 'needs-a-person',
    words: 'Where cracks meet, a piece of glass may be loose.',
    ...COMMON,
  },
  ...FIELDS.map(
    ([about, what]): TechnicalExclusion => ({
      id: `field-${about}`,
      about,
      forbids: [true],
      when: {},
      means: 'needs-a-person',
      words: `Damage in the field of ${what}: the vehicle maker's exclusion map takes precedence, and a person must consult it.`,
      ...REASONING,
    }),
  ),
  {
    id: 'before-first-sale',
    about: 'beforeFirstSale',
    forbids: [true],
    when: {},
    means: 'needs-a-person',
    words:
      'Before its first sale a vehicle must meet the rules for new glass; ask the maker before the glass is touched.',
    provenance: 'seen',
    source: 'for the USA: NHTSA Chief Counsel, letter of 24 May 1983 (nhtsa.gov/es/node/48696)',
  },
];
