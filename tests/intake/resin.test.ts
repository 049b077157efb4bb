import { describe, expect, it } from 'vitest';
import demoResin from '../../src/app/defaults/resin.json' with { type: 'json' };
import { checkSettings } from '../../src/core/settings.ts';
import { resinSchema, viscosityAtPaS } from '../../src/intake/resin.ts';

const resin = resinSchema.parse(demoResin);
const problems = (change: object): readonly string[] => {
  const checked = checkSettings(resinSchema, { ...demoResin, ...change }, 'r.json');
  return checked.ok ? [] : checked.problems.map(({ path }) => path);
};

describe('viscosity of a resin', () => {
  it('is the table’s own at its points', () => {
    for (const { temperatureK, viscosityPaS } of resin.viscosity)
      expect(viscosityAtPaS(resin, temperatureK)).toBeCloseTo(viscosityPaS, 12);
  });

  it('falls between and beyond the points as the resin warms', () => {
    const series = [268, 283, 300, 320].map((k) => viscosityAtPaS(resin, k));
    expect(series).toEqual([...series].sort((one, other) => other - one));
  });

  // Glycerol with 20 % of water by Cheng, Ind. Eng. Chem. Res. 47 (2008) 3285, quoted by a secondary
  // page: 117.85, 60.86, 34.51 mPa s at 10, 20, 30 C. Andrade's straight line misses by a few percent.
  it('meets a published liquid half way between two of its points', () => {
    const glycerol = resinSchema.parse({
      ...demoResin,
      viscosity: [
        { atC: 10, mPaS: 117.85 },
        { atC: 30, mPaS: 34.51 },
      ],
    });
    expect(Math.abs((viscosityAtPaS(glycerol, 293.15) * 1000) / 60.86 - 1)).toBeLessThan(0.05);
  });
});

describe('a resin file', () => {
  it.each([
    ['one figure of the working curve alone', { penetrationDepthMm: null }, 'penetrationDepthMm'],
    [
      'a table that thickens as it warms',
      {
        viscosity: [
          { atC: 5, mPaS: 10 },
          { atC: 20, mPaS: 50 },
        ],
      },
      'viscosity.1.mPaS',
    ],
    [
      'a temperature named twice',
      {
        viscosity: [
          { atC: 5, mPaS: 10 },
          { atC: 5, mPaS: 9 },
        ],
      },
      'viscosity.1.mPaS',
    ],
    ['a table of one point', { viscosity: [{ atC: 5, mPaS: 10 }] }, 'viscosity'],
    ['a window upside down', { glass: { lowestC: 30, highestC: 20 } }, 'glass.lowestC'],
    ['a band of light upside down', { light: { fromNm: 400, toNm: 340 } }, 'light.fromNm'],
    ['a band of one wavelength', { light: { fromNm: 365, toNm: 365 } }, 'light.fromNm'],
    ['a band in micrometres', { light: { fromNm: 0.34, toNm: 400 } }, 'light.fromNm'],
    ['half a band', { light: { fromNm: 340 } }, 'light.toNm'],
    ['a bottle opened after it expired', { openedOn: '2100-01-01' }, 'openedOn'],
    ['a day that there is not', { expiresOn: '2000-02-30' }, 'expiresOn'],
  ])('with %s is refused with its path', (_, change, path) => {
    expect(problems(change)).toContain(path);
  });
});
