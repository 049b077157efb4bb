import { describe, expect, test } from 'vitest';
import { type Area, areaSchema, rectOf } from '../../../src/intake/sheet/area.ts';
import {
  edgeGaps,
  footprintOf,
  gapToMm,
  nearestEdgeMm,
  touches,
} from '../../../src/intake/sheet/footprint.ts';
import { sheetWith } from '../sheets.ts';

const area = (input: unknown): Area => areaSchema.parse(input);
const place = (input: unknown, changes = {}) => rectOf(area(input), sheetWith(changes).pane);
const rect = (leftMm: number, topMm: number, rightMm: number, bottomMm: number) => ({
  leftMm,
  topMm,
  rightMm,
  bottomMm,
});

const STRIP = { kind: 'strip', about: 'seat', widthMm: 290 };
const SWEEP = { kind: 'sweep' };
const BOX = { kind: 'box', widthMm: 200, heightMm: 300 };

describe('an area on a pane of 2400 x 1200 mm', () => {
  test.each([
    [{ kind: 'whole' }, rect(0, 0, 2400, 1200)],
    [SWEEP, rect(120, 100, 1700, 1140)],
    [{ kind: 'driver-half' }, rect(0, 0, 1200, 1200)],
    [{ kind: 'driver-band', widthMm: 500 }, rect(0, 0, 500, 1200)],
    [{ kind: 'above-wheel' }, rect(0, 0, 2400, 950)],
    [STRIP, rect(535, 0, 825, 1200)],
    [{ ...STRIP, about: 'wheel' }, rect(455, 0, 745, 1200)],
    // The wiped area is 100 to 1140 mm high, its middle at 620; the driver's half ends at 910.
    [{ kind: 'swept-half' }, rect(120, 100, 910, 1140)],
    [{ kind: 'below-sweep-top' }, rect(0, 100, 2400, 1200)],
    [{ ...BOX, about: 'wheel', level: 'swept-middle' }, rect(500, 470, 700, 770)],
    [{ ...BOX, about: 'swept-half', level: 'swept-middle' }, rect(415, 470, 615, 770)],
    // 500 mm above the lower edge.
    [{ ...BOX, about: 'wheel', level: 'seat-line' }, rect(500, 550, 700, 850)],
    [{ ...BOX, kind: 'across', about: 'wheel', level: 'seat-line' }, rect(500, 550, 1900, 850)],
    [{ kind: 'under-mirror' }, rect(1100, 60, 1300, 200)],
    [{ kind: 'inset', topMm: 51, leftMm: 25 }, rect(25, 51, 2400, 1200)],
    [{ kind: 'both', parts: [STRIP, SWEEP] }, rect(535, 100, 825, 1140)],
  ])('of %j lies where its words say', (input, expected) => {
    expect(place(input)).toEqual(expected);
  });

  test('lies on the other side with the driver on the right', () => {
    const right = { 'pane.driverSide': 'right' };
    expect(place({ kind: 'driver-half' }, right)).toEqual(rect(1200, 0, 2400, 1200));
    expect(place({ kind: 'driver-band', widthMm: 500 }, right)).toEqual(rect(1900, 0, 2400, 1200));
  });

  test('of a driver on the right is the other half of the wiped area', () => {
    const right = { 'pane.driverSide': 'right' };
    expect(place({ kind: 'swept-half' }, right)).toEqual(rect(910, 100, 1700, 1140));
  });

  test('at the bar of a divided pane is none on a pane in one piece', () => {
    const divider = { kind: 'divider', widthMm: 50 };
    expect(place(divider)).toBeNull();
    expect(place(divider, { 'pane.dividedAtMm': 1200 })).toEqual(rect(1175, 0, 1225, 1200));
  });

  test('is cut off at the edges of the pane', () => {
    expect(place(STRIP, { 'pane.seatCentreMm': 100 })).toEqual(rect(0, 0, 245, 1200));
  });

  test('is no place where its parts do not overlap', () => {
    const apart = { kind: 'both', parts: [STRIP, { ...STRIP, about: 'wheel' }] };
    expect(place(apart, { 'pane.wheelCentreMm': 300 })).toBeNull();
  });

  test.each([
    [{ kind: 'whole' }, 'pane.widthMm'],
    [SWEEP, 'pane.sweep'],
    [{ kind: 'driver-half' }, 'pane.driverSide'],
    [{ kind: 'driver-band', widthMm: 500 }, 'pane.driverSide'],
    [{ kind: 'above-wheel' }, 'pane.wheelTopMm'],
    [STRIP, 'pane.seatCentreMm'],
    [{ kind: 'swept-half' }, 'pane.driverSide'],
    [{ kind: 'below-sweep-top' }, 'pane.sweep'],
    [{ ...BOX, about: 'wheel', level: 'swept-middle' }, 'pane.sweep'],
    [{ ...BOX, about: 'wheel', level: 'seat-line' }, 'pane.seatLineMm'],
    [{ ...BOX, kind: 'across', about: 'seat', level: 'seat-line' }, 'pane.seatCentreMm'],
    [{ kind: 'under-mirror' }, 'pane.mirror'],
    [{ kind: 'divider', widthMm: 50 }, 'pane.dividedAtMm'],
    [{ kind: 'both', parts: [STRIP, SWEEP] }, 'pane.sweep'],
  ])('of %j is unknown without %s', (input, path) => {
    expect(place(input, { [path]: 'unknown' })).toBe('unknown');
  });
});

const at = (fromLeftMm: number, fromTopMm: number, changes = {}) =>
  sheetWith({ 'place.fromLeftMm': fromLeftMm, 'place.fromTopMm': fromTopMm, ...changes });
const touching = (sheet: ReturnType<typeof sheetWith>, input: unknown) =>
  touches(footprintOf(sheet), area(input), sheet.pane);

describe('the footprint of a damage', () => {
  test.each([
    ['bullseye', 20, 99, 10],
    ['half-moon', 20, 99, 10],
    ['surface-pit', 20, 99, 10],
    ['star-break', 20, 8, 10],
    ['star-break', 20, 15, 15],
    ['combination-break', 20, 15, 15],
    ['crack', 20, 120, 60],
  ])('of a %s, %d mm across with a leg of %d mm, reaches %d mm', (type, across, leg, reach) => {
    const sheet = sheetWith({
      'damage.type': type,
      'damage.diameterMm': across,
      'damage.longestLegMm': leg,
    });
    expect(footprintOf(sheet).radiusMm).toBe(reach);
  });

  test('touches an area when it reaches its border, and not a hundredth before', () => {
    expect(touching(at(825 + 6, 600), STRIP)).toBe(true);
    expect(touching(at(825 + 6.01, 600), STRIP)).toBe(false);
  });

  test('touches a corner by the distance to the corner, not by the sides', () => {
    const corner = { kind: 'both', parts: [STRIP, SWEEP] };
    expect(touching(at(825 + 3.6, 100 - 4.8), corner)).toBe(true);
    expect(touching(at(825 + 5, 100 - 5), corner)).toBe(false);
  });

  test('whose size is unknown touches what its pit lies in, and nothing else is certain', () => {
    const unknown = { 'damage.diameterMm': 'unknown' };
    expect(touching(at(600, 600, unknown), STRIP)).toBe(true);
    expect(touching(at(1500, 600, unknown), STRIP)).toBe('unknown');
  });

  test('is outside of two overlapping areas when it is outside of the one that is known', () => {
    const both = { kind: 'both', parts: [STRIP, SWEEP] };
    const unknown = { 'pane.sweep': 'unknown' };
    expect(touching(at(1500, 600, unknown), both)).toBe(false);
    expect(touching(at(600, 600, unknown), both)).toBe('unknown');
  });

  test('keeps its distance to an area and to the edges from rim to border', () => {
    const sheet = at(900, 200);
    expect(gapToMm(footprintOf(sheet), rectOf(area(STRIP), sheet.pane))).toBe(69);
    expect(gapToMm(footprintOf(at(600, 200)), rectOf(area(STRIP), sheet.pane))).toBe(0);
    expect(gapToMm(footprintOf(sheet), null)).toBeNull();
    const gaps = edgeGaps(footprintOf(sheet), sheet.pane);
    expect(gaps).toEqual({ leftMm: 894, topMm: 194, rightMm: 1494, bottomMm: 994 });
    expect(nearestEdgeMm(gaps)).toBe(194);
  });

  test('has no nearest edge while one distance is unknown', () => {
    const sheet = at(900, 200, { 'pane.heightMm': 'unknown' });
    expect(nearestEdgeMm(edgeGaps(footprintOf(sheet), sheet.pane))).toBe('unknown');
  });
});
