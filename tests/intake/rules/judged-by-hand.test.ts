/**
 * Damages judged by hand from the texts, in eight places with the rule sets that are proposed
 * there. A: allowed, N: not allowed here, P: a person must decide. The pane is 2400 x 1200 mm, the
 * driver on its left, the wheel's centre at 600 and the seat's at 680; wiped are 120 to 1700 by 100
 * to 1140 mm. In the last three places no rule on repairing with a known figure is there: always P.
 */
import { expect, test } from 'vitest';
import { assess } from '../../../src/intake/rules/assess.ts';
import { proposedFor } from '../../../src/intake/rules/places.ts';
import { type Changes, sheetWith } from '../sheets.ts';
import { at, builtIn, crack, ring, type } from './rule-sheets.ts';

const PLACES = ['de', 'gb', 'nz', 'au-nsw', 'us-wv', 'us-md', 'nl', 'ch'];
const LETTERS = { allowed: 'A', 'not-allowed-here': 'N', 'needs-a-person': 'P' } as const;

const star = (acrossMm: number, legMm: number): Changes => ({
  ...type('star-break'),
  ...ring(acrossMm),
  'damage.longestLegMm': legMm,
});
const VAN: Changes = { 'vehicle.class': 'van', 'vehicle.grossMassKg': 5000 };
const WHEEL = at(640, 600);

test.each<[string, Changes, string]>([
  ['a ring of 12 mm far from the driver', {}, 'AAAAA PPP'],
  // de: strip 535 to 745. gb: 20 mm may be filled, a mark over 10 mm may fail. nz, nsw: 10 mm.
  ['a ring of 12 mm before the wheel', WHEEL, 'NPNNP PPP'],
  // wv: 492 to 623 by 512 to 728 mm lies in the acute area by every reading.
  ['a ring of 12 mm in the centre of the driver’s wiped area', at(580, 600), 'NPNNN PPP'],
  // nz: any damage in the critical vision area is a reason to reject. nsw: 16 mm.
  ['a ring of 9 mm before the wheel', { ...WHEEL, ...ring(9) }, 'NAPAP PPP'],
  // nsw: a star of 16 mm on the driver's side.
  ['a star of 22 mm beside the strip', { ...star(22, 10), ...at(905, 310) }, 'AAAPA PPP'],
  // nz, nsw: 30 mm. wv: 1.5 in.
  ['a star of 35 mm in the wiped area', { ...star(35, 16), ...at(1400, 600) }, 'AANNA PPP'],
  ['a ring of 41 mm', ring(41), 'ANNNN PPP'],
  ['a crater of 6 mm', { 'damage.pitMm': 6 }, 'NAAAA PPP'],
  // de: 50 mm. gb: a circle of 40 mm. nz: not read. wv: 3 in.
  ['a crack of 60 mm in the wiped area', { ...crack(60), ...at(1400, 600) }, 'NNPAA PPP'],
  // nz, nsw: retellings say 100 or 350 mm.
  ['a crack of 120 mm in the wiped area', { ...crack(120), ...at(1500, 600) }, 'NNPPN PPP'],
  ['a crack of 40 mm outside the wiped area', crack(40), 'AAPAA PPP'],
  ['a wet break', { 'damage.moisture': 'wet' }, 'NAAAA PPP'],
  ['a break that reached the inner ply', { 'damage.innerPlyTouched': true }, 'NANNA PPP'],
  ['a break before a camera', { 'place.cameraField': true }, 'ANAAA PPP'],
  [
    'the ninth repair of a pane',
    { 'place.repairsOnPane': 8, 'place.earlierRepairMm': 900 },
    'AANNA PPP',
  ],
  ['a half moon of 25 mm', { ...type('half-moon'), ...ring(25) }, 'AAAAA PPP'],
  ['a half moon of 26 mm', { ...type('half-moon'), ...ring(26) }, 'AANNA PPP'],
  // nz, nsw: measured part by part.
  [
    'a combination of 20 mm',
    { ...type('combination-break'), ...ring(20), 'damage.longestLegMm': 8 },
    'AAPPA PPP',
  ],
  // de, nz, nsw: in the strip by the seat, not by the wheel.
  ['a ring of 12 mm between both strips', at(790, 600), 'PAPPA PPP'],
  ['a ring of 12 mm on a van of 5 t', VAN, 'AAAAA PPP'],
  // de: a square of unknown height. gb: zone A 500 mm wide.
  [
    'a ring of 9 mm before the wheel of a van of 5 t',
    { ...VAN, ...WHEEL, ...ring(9) },
    'PAPAP PPP',
  ],
])('%s', (_what, changes, expected) => {
  const found = PLACES.map((place) => {
    const sets = (proposedFor(place)?.sets ?? []).map(builtIn);
    return LETTERS[assess(sheetWith(changes), sets).answer];
  });
  expect(found.join('')).toBe(expected.replace(' ', ''));
});
