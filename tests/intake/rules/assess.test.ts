import { describe, expect, test } from 'vitest';
import { assess, DISCLAIMER } from '../../../src/intake/rules/assess.ts';
import { reasonLines } from '../../../src/intake/rules/rule-words.ts';
import { sheetWith } from '../sheets.ts';
import { at, BEFORE_DRIVER, builtIn, here, reasonIds, shopSet, truck } from './rule-sheets.ts';

describe('an assessment', () => {
  test('without a rule set of the place asks for a person, even if the shop has one of its own', () => {
    const shop = shopSet([]);
    for (const sets of [[], [shop]]) {
      const { answer, reasons } = assess(sheetWith(), sets);
      expect(answer).toBe('needs-a-person');
      expect(reasons.map(({ id }) => id)).toEqual(['no-rule-set']);
    }
  });

  test('with a rule set that does not cover the vehicle asks for a person', () => {
    const heavy = { 'vehicle.class': 'van', 'vehicle.grossMassKg': 5000 };
    const { answer, reasons, checked } = here(heavy, 'de-verkehrsblatt-1986');
    expect(answer).toBe('needs-a-person');
    expect(reasons.map(({ id }) => id)).toEqual(['not-covered']);
    expect(checked.every(({ outcome }) => outcome === 'does-not-apply')).toBe(true);
    const other = here(heavy, 'de-verkehrsblatt-1986', 'us-wv-inspection');
    expect(other.answer).toBe('allowed');
  });

  test('of a vehicle whose mass is unknown names the question', () => {
    const { answer, reasons } = here({ 'vehicle.grossMassKg': 'unknown' }, 'gb-mot-up-to-3500kg');
    expect(answer).toBe('needs-a-person');
    expect(reasons).toMatchObject([{ id: 'perhaps-not-covered', open: ['vehicle.grossMassKg'] }]);
  });

  test('at 3500 kg exactly is the lighter set, over it the heavier', () => {
    for (const [grossMassKg, light] of [
      [3500, true],
      [3501, false],
    ] as const) {
      const van = { 'vehicle.class': 'van', 'vehicle.grossMassKg': grossMassKg };
      expect(reasonIds(van, 'gb-mot-up-to-3500kg').includes('not-covered')).toBe(!light);
      expect(reasonIds(van, 'gb-mot-over-3500kg').includes('not-covered')).toBe(light);
    }
  });

  test.each([
    ['us-49-cfr-393-60-c', { 'vehicle.grossMassKg': 4536, 'vehicle.commercialUse': true }, false],
    ['us-49-cfr-393-60-c', { 'vehicle.grossMassKg': 4537, 'vehicle.commercialUse': true }, true],
    ['us-49-cfr-393-60-c', { 'vehicle.grossMassKg': 4537, 'vehicle.commercialUse': false }, false],
    // Under 15 seats and under 18,001 lb.
    ['us-ny-inspection', { 'vehicle.seats': 14, 'vehicle.grossMassKg': 8164 }, true],
    ['us-ny-inspection', { 'vehicle.seats': 15, 'vehicle.grossMassKg': 8164 }, false],
    ['us-ny-inspection', { 'vehicle.seats': 14, 'vehicle.grossMassKg': 8166 }, false],
    // A bus and a motor home of 3.4 t are held to the German strip, a van of 5 t is not.
    ['de-verkehrsblatt-1986', { 'vehicle.class': 'bus', 'vehicle.grossMassKg': 3400 }, true],
    ['de-verkehrsblatt-1986', { 'vehicle.class': 'other', 'vehicle.grossMassKg': 3400 }, true],
    ['de-verkehrsblatt-1986', { 'vehicle.class': 'van', 'vehicle.grossMassKg': 5000 }, false],
  ])('by %s of a vehicle %j: bound %s', (id, vehicle, binds) => {
    const ids = here(vehicle, id).reasons.map((reason) => reason.id);
    expect(ids.includes('not-covered')).toBe(!binds);
  });

  test('by a shop of its own adds a refusal and takes none away', () => {
    const strict = shopSet([6]);
    const place = builtIn('us-wv-inspection');
    expect(assess(sheetWith(), [place]).answer).toBe('allowed');
    expect(assess(sheetWith(), [place, strict]).answer).toBe('not-allowed-here');
    const germany = [builtIn('de-verkehrsblatt-1986'), shopSet([400])];
    expect(assess(sheetWith(BEFORE_DRIVER), germany).answer).toBe('not-allowed-here');
  });

  test.each(['cameraField', 'headUpDisplay', 'heatedField', 'antenna'])(
    'with %s unknown stops for a person',
    (field) => {
      const { technical } = here({ [`place.${field}`]: 'unknown' }, 'nl-rdw-2005');
      expect(technical.answer).toBe('needs-a-person');
      expect(technical.reasons).toMatchObject([{ id: `field-${field}`, open: [`place.${field}`] }]);
    },
  );

  test('keeps "not allowed here" apart from "cannot be repaired"', () => {
    const before = here(BEFORE_DRIVER, 'de-verkehrsblatt-1986');
    expect([before.answer, before.technical.answer]).toEqual(['not-allowed-here', 'can']);
    const dirty = here({ 'damage.contamination': 'stays' }, 'us-wv-inspection');
    expect([dirty.answer, dirty.technical.answer]).toEqual(['allowed', 'cannot']);
  });

  test('prints a reason with measure, limit, zone, edition and how the figure is known', () => {
    const [reason] = here({ 'damage.pitMm': 6 }, 'de-verkehrsblatt-1986').reasons;
    expect(reason && reasonLines(reason)).toEqual([
      'The crater may be up to 5 mm across.',
      'pit 6 mm; accepted: at most 5 mm',
      'Germany: Ministry conditions for repairing laminated windscreens, up to 3.5 t (Verkehrsblatt 1986, issue 4, no. 55, p. 130 (BMV/StV 13/36.20.10-01 of 6 February 1986))',
      'read in a copy of the text, looked at on 2026-11-26: annex of the notice, in a reprint on a trade page; three more reprints agree',
      '"Krater der Einschlagstelle darf Durchmesser von 5 mm nicht ueberschreiten"',
    ]);
  });

  test('names what nobody knows', () => {
    const [reason] = here(
      { ...truck, ...at(1300, 600), 'damage.diameterMm': 'unknown' },
      'us-md-comar-11-22-02-20',
    ).reasons;
    expect(reason && reasonLines(reason)).toEqual([
      'In the wiped area nicks, pits and chips may be up to 1/2 in.',
      'greatest extent unknown; accepted: at most 0.5 in (12.7 mm)',
      "Where: wiped area on the driver's side or rest of the wiped area",
      'Not known: damage.diameterMm',
      expect.stringContaining('COMAR 11.22.02.20'),
      expect.stringContaining('read in the text, looked at on 2026-11-26'),
      expect.stringContaining('"(3) Windshield wiper sweep contains'),
    ]);
  });

  test('always says that local law and the person who may decide under it decide', () => {
    expect(here({}, 'nl-rdw-2005').disclaimer).toBe(DISCLAIMER);
    expect(DISCLAIMER).toContain('Local law decides, and the person who may decide under it.');
  });
});
