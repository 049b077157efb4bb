/**
 * Zones and limits worked out by hand from the texts and not from the data files, so that a wrong
 * figure in a file is detected. The pane is 2400 x 1200 mm, the wheel's centre at 600, the seat's
 * at 680.
 */
import { describe, expect, test } from 'vitest';
import type { LegalAnswer } from '../../../src/intake/rules/assess.ts';
import type { Changes } from '../sheets.ts';
import {
  at,
  BEFORE_DRIVER,
  brokenIds,
  CAN_PERMIT,
  crack,
  here,
  reasonIds,
  ring,
  ruleIds,
  truck,
  type,
} from './rule-sheets.ts';

describe('one bullseye of 12 mm before the driver', () => {
  test.each<[string, LegalAnswer, readonly string[]]>([
    // 16 mm accepted, before and after repair.
    ['au-nsw-vsi-3', 'needs-a-person', ['no-repair-rule']],
    // 25 mm may be repaired in the primary viewing area.
    ['us-rolags', 'needs-a-person', ['out-of-force', 'from-memory']],
    // 12 mm is the limit itself.
    ['ca-qc-c-24-2-r-32', 'needs-a-person', ['no-repair-rule']],
    // For lorries over 10,000 lb; this is a car.
    ['us-md-comar-11-22-02-20', 'needs-a-person', ['not-covered']],
    // Over 10 mm in zone A: a tester judges the finished mark.
    ['gb-mot-up-to-3500kg', 'needs-a-person', ['zone-a', 'no-repair-rule']],
    // 500 mm from the driver's edge end before it; 40 mm hold there.
    ['ca-bc-mva-division-7', 'needs-a-person', ['no-repair-rule']],
    // No repair at all, whatever its size.
    ['de-verkehrsblatt-1986', 'not-allowed-here', ['far-field']],
    // 8.5 by 11 in about the wheel, in the middle of the wiped height, 512 to 728 mm: below it.
    ['us-wv-inspection', 'allowed', []],
    // A circle of 20 mm is accepted there, and no set in force says more.
    ['gb-bs-au-242b-2022', 'allowed', []],
    ['gb-bs-au-242a-1998', 'not-allowed-here', ['zone-a', 'out-of-force']],
  ])('in %s is %s', (id, answer, reasons) => {
    expect(here(BEFORE_DRIVER, id).answer).toBe(answer);
    expect(reasonIds(BEFORE_DRIVER, id)).toEqual(reasons);
  });

  test('chosen with several sets is judged by the strictest', () => {
    const both = here({ ...BEFORE_DRIVER, ...ring(24) }, 'us-rolags', 'gb-bs-au-242b-2022');
    expect(both.answer).toBe('not-allowed-here');
    expect(both.reasons.map(({ id }) => id)).toEqual(['zone-a', 'out-of-force', 'from-memory']);
  });
});

describe('figures of the texts', () => {
  test.each<[string, string, Changes, string, Changes]>([
    ['de-verkehrsblatt-1986', 'crater', { 'damage.pitMm': 5 }, 'crater', { 'damage.pitMm': 5.1 }],
    [
      'de-verkehrsblatt-1986',
      'leg of a star',
      { ...type('star-break'), 'damage.longestLegMm': 50 },
      'cracks',
      { ...type('star-break'), 'damage.longestLegMm': 50.5 },
    ],
    // 145 mm either side of 680, and the ring's own 6 mm.
    ['de-verkehrsblatt-1986', 'strip', at(832, 600), 'far-field-perhaps', at(831, 600)],
    ['de-verkehrsblatt-1986', 'strip', at(832, 600), 'far-field', at(751, 600)],
    [
      'gb-mot-up-to-3500kg',
      'wiped area',
      { ...at(1200, 600), ...ring(40) },
      'swept',
      { ...at(1200, 600), ...ring(40.5) },
    ],
    // 145 mm either side of 600.
    ['gb-mot-up-to-3500kg', 'zone A', at(752, 600), 'zone-a', at(751, 600)],
    [
      'gb-mot-over-3500kg',
      'zone A, 175 mm either side',
      { ...truck, ...at(782, 600) },
      'zone-a',
      { ...truck, ...at(781, 600) },
    ],
    [
      'gb-bs-au-242a-1998',
      'zone B',
      { ...at(850, 600), ...ring(15) },
      'zone-b',
      { ...at(850, 600), ...ring(16) },
    ],
    [
      'gb-bs-au-242a-1998',
      'zone C',
      { ...at(1400, 600), ...ring(25) },
      'zone-c',
      { ...at(1400, 600), ...ring(26) },
    ],
    ['gb-bs-au-242a-1998', 'zone D', ring(40), 'zone-d', ring(41)],
    [
      'us-49-cfr-393-60-c',
      'disc of 19 mm',
      { ...truck, ...ring(19) },
      'disc',
      { ...truck, ...ring(19.5) },
    ],
    [
      'us-49-cfr-393-60-c',
      '76 mm apart',
      { ...truck, 'place.otherDamageMm': 76 },
      'apart',
      { ...truck, 'place.otherDamageMm': 75 },
    ],
    // The wheel's top is 250 mm over the lower edge of 1200 mm.
    [
      'us-49-cfr-393-60-c',
      'under the top of the wheel',
      { ...truck, ...ring(40), ...at(1200, 971) },
      'disc',
      { ...truck, ...ring(40), ...at(1200, 969) },
    ],
    // 51 mm off the top.
    [
      'us-49-cfr-393-60-c',
      'top border',
      { ...truck, ...ring(40), ...at(1200, 30.9) },
      'disc',
      { ...truck, ...ring(40), ...at(1200, 31.1) },
    ],
    [
      'us-wv-inspection',
      'critical diameter, 1.5 in',
      { ...at(1300, 600), ...ring(38) },
      'critical-diameter',
      { ...at(1300, 600), ...ring(38.5) },
    ],
    [
      'us-wv-inspection',
      'critical length, 3 in',
      { ...at(1300, 600), ...crack(76) },
      'critical-length',
      { ...at(1300, 600), ...crack(77) },
    ],
    ['us-wv-inspection', 'length elsewhere, 6 in', crack(152), 'elsewhere-length', crack(153)],
    [
      'us-md-comar-11-22-02-20',
      'half an inch',
      { ...truck, ...at(1400, 600), ...ring(12.7) },
      'chips',
      { ...truck, ...at(1400, 600), ...ring(13) },
    ],
    [
      'ca-qc-c-24-2-r-32',
      '12 mm',
      { ...at(1200, 600), ...ring(12) },
      'flakes',
      { ...at(1200, 600), ...ring(12.1) },
    ],
    [
      'au-nsw-vsi-3',
      'bullseye',
      { ...at(300, 600), ...ring(16) },
      'bullseye',
      { ...at(300, 600), ...ring(17) },
    ],
    [
      'au-nsw-vsi-3',
      'hairline',
      { ...at(300, 600), ...crack(30) },
      'hairline',
      { ...at(300, 600), ...crack(31) },
    ],
    [
      'au-nsw-vsi-3',
      'edge crack',
      { ...at(300, 600), ...crack(75), 'damage.edgesReached': 1 },
      'edge-crack',
      { ...at(300, 600), ...crack(76), 'damage.edgesReached': 1 },
    ],
    [
      'as-nzs-2366-1-1999',
      'star outside the critical area',
      { ...type('star-break'), ...ring(30) },
      'star',
      { ...type('star-break'), ...ring(31) },
    ],
    [
      'as-nzs-2366-1-1999',
      'eighth repair on the pane',
      { ...type('star-break'), 'place.repairsOnPane': 7, 'place.earlierRepairMm': 900 },
      'eight-repairs',
      { ...type('star-break'), 'place.repairsOnPane': 8, 'place.earlierRepairMm': 900 },
    ],
    // 150 mm either side of 680, or of 600; a star of 16 mm reaches 8 mm.
    [
      'as-nzs-2366-1-1999',
      'critical area by the seat',
      { ...type('star-break'), ...ring(16), ...at(839, 600) },
      'perhaps-star',
      { ...type('star-break'), ...ring(16), ...at(837, 600) },
    ],
    [
      'as-nzs-2366-1-1999',
      'star in the critical area',
      { ...type('star-break'), ...ring(15), ...at(640, 600) },
      'critical-star',
      { ...type('star-break'), ...ring(16), ...at(640, 600) },
    ],
    [
      'as-nzs-2366-1-1999',
      'bullseye in the critical area',
      { ...ring(10), ...at(640, 600) },
      'critical-bullseye',
      { ...ring(11), ...at(640, 600) },
    ],
    ['as-nzs-2366-1-1999', 'bullseye outside', ring(20), 'bullseye', ring(21)],
    [
      'as-nzs-2366-1-1999',
      'half moon outside',
      { ...type('half-moon'), ...ring(25) },
      'half-moon',
      { ...type('half-moon'), ...ring(26) },
    ],
    [
      'as-nzs-2366-1-1999',
      'crack that both retellings accept',
      crack(100),
      'crack-sources-differ',
      crack(101),
    ],
    // 200 mm either side of 600, below the top of the wiped area at 100.
    [
      'gb-bs-au-242b-2022',
      'zone A',
      { ...at(821, 600), ...ring(40) },
      'zone-a',
      { ...at(820, 600), ...ring(40) },
    ],
    [
      'gb-bs-au-242b-2022',
      'zone A ends with the wiped area',
      { ...at(600, 79), ...ring(40) },
      'zone-a',
      { ...at(600, 81), ...ring(40) },
    ],
    ['gb-bs-au-242b-2022', 'zone B', ring(40), 'zone-b', ring(41)],
    ['gb-bs-au-242b-2022', 'camera', {}, 'assistance', { 'place.cameraField': true }],
  ])('%s: %s', (id, _what, inside, rule, outside) => {
    const permitted = CAN_PERMIT.includes(id) ? 'allowed' : 'needs-a-person';
    expect(here(inside, id).answer).toBe(permitted);
    expect(ruleIds(inside, id)).toEqual([]);
    expect(brokenIds(outside, id)).toEqual([rule]);
  });

  test('a crack over 356 mm is refused by the first edition, a shorter one over 152 mm asks', () => {
    expect(here(crack(356), 'us-rolags').answer).toBe('needs-a-person');
    expect(here(crack(357), 'us-rolags').answer).toBe('not-allowed-here');
  });

  test('damage in the inner ply is refused in Germany and asks for a person in New Zealand', () => {
    const inner = { 'damage.innerPlyTouched': true };
    expect(here(inner, 'de-verkehrsblatt-1986').answer).toBe('not-allowed-here');
    expect(brokenIds(inner, 'nz-virm-in-service')).toEqual(['layers']);
  });

  test('a crack under the trim is refused in Germany', () => {
    const under = { ...crack(40), 'damage.edgesReached': 1 };
    expect(brokenIds(under, 'de-verkehrsblatt-1986')).toEqual(['under-the-seal']);
  });
});
