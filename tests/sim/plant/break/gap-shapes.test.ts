import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  apertureM,
  filledM3,
  type Gap,
  type GapSizes,
  gapOf,
  resistancePerM3,
  seenM2,
  wideningPerM,
  widthM,
} from '../../../../sim/plant/break/gap-shapes.ts';
import { sumOver } from '../../../evidence/measuring/quadrature.ts';

const sizes: fc.Arbitrary<GapSizes> = fc
  .record({
    kind: fc.constantFrom('disc', 'leg', 'crack'),
    count: fc.integer({ min: 1, max: 6 }),
    lengthM: fc.double({ min: 0.001, max: 0.1, noNaN: true }),
    mouthApertureM: fc.double({ min: 3e-7, max: 5e-5, noNaN: true }),
    endRatio: fc.double({ min: 0.1, max: 1, noNaN: true }),
    widthM: fc.double({ min: 2e-4, max: 0.01, noNaN: true }),
    fingerRatio: fc.constant(0.2),
  })
  // A pit of 0.3 mm and more, so that the sum below is good to the last digits compared.
  .map((drawn) =>
    drawn.kind === 'disc'
      ? { ...drawn, widthM: 10 * drawn.widthM, pitRadiusM: (10 * drawn.widthM) / 6 }
      : { ...drawn, pitRadiusM: 0 },
  );
const place = fc.double({ min: 1e-4, max: 1, noNaN: true });

const close = (actual: number, expected: number, ratio: number): void =>
  expect(Math.abs(actual / expected - 1)).toBeLessThan(ratio);

describe('a gap of any shape', () => {
  test('has the volume that its cross-sections add up to', () => {
    fc.assert(
      fc.property(sizes, place, (drawn, ratio) => {
        const gap = gapOf(drawn);
        const toM = ratio * gap.lengthM;
        const summed = sumOver(toM, (xM) => apertureM(gap, xM) * widthM(gap, xM));
        close(filledM3(gap, toM), summed, 1e-11);
        if (ratio === 1) close(gap.volumeM3, summed, 1e-11);
      }),
      { numRuns: 60 },
    );
  });

  test('has the resistance that 12 / (w h³) adds up to', () => {
    fc.assert(
      fc.property(sizes, place, (drawn, ratio) => {
        const gap = gapOf(drawn);
        const toM = ratio * gap.lengthM;
        const local = (xM: number): number => 12 / (widthM(gap, xM) * apertureM(gap, xM) ** 3);
        // The short form of the logarithm near the mouth is good to some parts in 1e10.
        close(resistancePerM3(gap, toM), sumOver(toM, local), 1e-9);
      }),
      { numRuns: 60 },
    );
  });

  test('shows the area that its widths add up to', () => {
    fc.assert(
      fc.property(sizes, place, (drawn, ratio) => {
        const gap = gapOf(drawn);
        const toM = ratio * gap.lengthM;
        close(
          seenM2(gap, toM),
          sumOver(toM, (xM) => widthM(gap, xM)),
          1e-11,
        );
      }),
      { numRuns: 60 },
    );
  });

  test('widens and narrows as its cross-section does', () => {
    fc.assert(
      fc.property(sizes, place, (drawn, ratio) => {
        const gap = gapOf(drawn);
        const xM = 0.9 * ratio * gap.lengthM;
        const stepM = 1e-5 * gap.lengthM;
        const area = (atM: number): number => apertureM(gap, atM) * widthM(gap, atM);
        const slope = (area(xM + stepM) - area(xM)) / stepM / area(xM + stepM / 2);
        expect(wideningPerM(gap, xM + stepM / 2) * gap.lengthM).toBeCloseTo(slope * gap.lengthM, 3);
      }),
      { numRuns: 60 },
    );
  });
});

describe('a gap with parallel faces', () => {
  const flat: GapSizes = {
    kind: 'crack',
    count: 1,
    lengthM: 0.02,
    mouthApertureM: 50e-6,
    endRatio: 1,
    widthM: 0.002,
    pitRadiusM: 0,
    fingerRatio: 0.2,
  };

  test('is a slit, whether it is called a crack or a leg', () => {
    for (const kind of ['crack', 'leg'] as const) {
      const gap = gapOf({ ...flat, kind });
      close(gap.volumeM3, 0.02 * 50e-6 * 0.002, 1e-14);
      close(resistancePerM3(gap, 0.02), (12 * 0.02) / (0.002 * 50e-6 ** 3), 1e-14);
    }
  });

  test('as a disc has the volume of a ring and a resistance that grows as the logarithm', () => {
    const disc: Gap = gapOf({ ...flat, kind: 'disc', pitRadiusM: 0.001, widthM: 0.002 * Math.PI });
    close(disc.volumeM3, Math.PI * (0.021 ** 2 - 0.001 ** 2) * 50e-6, 1e-13);
    const wanted = (12 * Math.log(21)) / (2 * Math.PI * 50e-6 ** 3);
    close(resistancePerM3(disc, 0.02), wanted, 1e-13);
  });
});
