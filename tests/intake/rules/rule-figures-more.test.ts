/**
 * Zones and limits of further sets worked out by hand from the texts, on the same pane of
 * 2400 x 1200 mm, the wheel's centre at 600 and the driver on the left.
 */
import { describe, expect, test } from 'vitest';
import type { Changes } from '../sheets.ts';
import {
  at,
  BEFORE_DRIVER,
  brokenIds,
  CAN_PERMIT,
  crack,
  here,
  ring,
  ruleIds,
  truck,
  type,
} from './rule-sheets.ts';

describe('figures of the texts', () => {
  test.each<[string, string, Changes, string, Changes]>([
    ['us-rolags', 'bullseye, 1 in', ring(25), 'bullseye', ring(26)],
    [
      'us-rolags',
      'half moon',
      { ...type('half-moon'), ...ring(25) },
      'half-moon',
      { ...type('half-moon'), ...ring(26) },
    ],
    [
      'us-rolags',
      'star, 3 in',
      { ...type('star-break'), ...ring(75) },
      'star',
      { ...type('star-break'), ...ring(76) },
    ],
    [
      'us-rolags',
      'body of a combination, 2 in',
      { ...type('combination-break'), ...ring(90), 'damage.bodyMm': 50 },
      'combination',
      { ...type('combination-break'), ...ring(90), 'damage.bodyMm': 51 },
    ],
    ['us-rolags', 'pit', { 'damage.pitMm': 9.5 }, 'pit', { 'damage.pitMm': 9.6 }],
    ['us-rolags', 'crack, 6 in', crack(152), 'crack-later', crack(153)],
    [
      'us-rolags',
      'next repair before the driver, 4 in',
      { ...BEFORE_DRIVER, 'place.earlierRepairMm': 100, 'place.repairsOnPane': 1 },
      'view-neighbour',
      { ...BEFORE_DRIVER, 'place.earlierRepairMm': 99, 'place.repairsOnPane': 1 },
    ],
    [
      'ca-bc-mva-division-7',
      '6 mm before the driver',
      { ...at(300, 600), ...ring(6) },
      'driver-marks',
      { ...at(300, 600), ...ring(7) },
    ],
    ['ca-bc-mva-division-7', '40 mm elsewhere', ring(40), 'mark', ring(41)],
    [
      'ca-sk-inspection',
      'chip',
      { ...at(1200, 600), ...ring(13) },
      'chip',
      { ...at(1200, 600), ...ring(14) },
    ],
    [
      'ca-sk-inspection',
      'crack',
      { ...at(1200, 600), ...crack(50) },
      'crack',
      { ...at(1200, 600), ...crack(51) },
    ],
    [
      'us-ny-inspection',
      'crack, 11 in',
      { ...at(1200, 600), ...crack(279) },
      'crack',
      { ...at(1200, 600), ...crack(280) },
    ],
    [
      'nl-rdw-2005',
      'circle of 20 mm before the driver',
      { ...ring(20), ...BEFORE_DRIVER },
      'direct-field',
      { ...ring(21), ...BEFORE_DRIVER },
    ],
    ['nl-rdw-2005', 'circle of 50 mm elsewhere', ring(50), 'outside', ring(51)],
    // A level line 500 mm above the lower edge: the field is 500 to 900 mm from the top.
    [
      'nl-rdw-2005-over-3500kg',
      'field of 400 by 400 mm',
      { ...truck, ...ring(30), ...at(600, 484) },
      'direct-field',
      { ...truck, ...ring(30), ...at(600, 486) },
    ],
  ])('%s: %s', (id, _what, inside, rule, outside) => {
    const permitted = CAN_PERMIT.includes(id) ? 'allowed' : 'needs-a-person';
    expect(here(inside, id).answer).toBe(permitted);
    expect(ruleIds(inside, id)).toEqual([]);
    expect(brokenIds(outside, id)).toEqual([rule]);
  });
});
