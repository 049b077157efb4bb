import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import rulesFile from '../../../src/app/defaults/advice.json' with { type: 'json' };
import demoResin from '../../../src/app/defaults/resin.json' with { type: 'json' };
import { type Advice, advise } from '../../../src/intake/advice/advice.ts';
import { adviceRulesSchema } from '../../../src/intake/advice/advice-rules.ts';
import { resinSchema } from '../../../src/intake/resin.ts';
import type { IntakeSheet } from '../../../src/intake/sheet/intake-sheet.ts';
import { deepestPa } from '../../../src/procedure/altitude.ts';
import { profileSchema } from '../../../src/procedure/profile.ts';
import { sheetOf } from '../sheet.ts';

const rules = adviceRulesSchema.parse(rulesFile);
const resin = resinSchema.parse(demoResin);
const PUMP = 12.5;

const adviseOn = (
  change: Parameters<typeof sheetOf>[0],
  resins = [resin],
  permitted = true,
): Advice =>
  advise({
    sheet: sheetOf(change),
    rules,
    resins,
    today: '2000-01-01',
    permitted,
    deepestPa: (atmospherePa) => deepestPa(atmospherePa, PUMP),
    heatingKPerS: 10 / 60,
    lampPeakNm: 365,
    spotRadiusM: 0.015,
  });
const fileOf = (advice: Advice) => {
  const file = profileSchema.parse(advice.profile?.file);
  return file;
};
const ask = (conditions: Partial<IntakeSheet['conditions']>) => adviseOn({ conditions });

it('a break wider than the lamp’s spot is left to a person, and told what to do', () => {
  const { damage } = sheetOf({});
  const across = (diameterMm: number, longestLegMm: number): Advice =>
    adviseOn({ damage: { ...damage, diameterMm, longestLegMm } });
  expect(across(30, 15).reasons.join(' ')).not.toContain('even spot');
  for (const [diameterMm, legMm] of [
    [30.2, 10],
    [22, 15.1],
  ] as const) {
    const { answer, reasons } = across(diameterMm, legMm);
    expect(answer).toBe('person');
    expect(reasons).toContain(
      "The break is 30.2 mm across the pit, the lamp's even spot 30.0 mm, and this unit cures one spot a job. Do not fill it with this unit: use a lamp with a larger spot, or refer the pane for replacement.",
    );
  }
});

describe('advice on a star break at 23 C and sea level', () => {
  const advice = adviseOn({});

  it('lets the work begin, with the bottle at hand', () => {
    expect(advice.answer).toBe('go');
    expect(advice.take).toBe(0);
    expect(advice.resins[0]?.viscosityPaS).toBeGreaterThan(0.03);
  });

  it('holds pressure 2 to 4 min and vacuum 30 s to 2 min (common practice, no source)', () => {
    const { pressure, vacuum } = fileOf(advice);
    expect(pressure.dwellS).toBeGreaterThanOrEqual(120);
    expect(pressure.dwellS).toBeLessThanOrEqual(240);
    expect(vacuum.dwellS).toBeGreaterThanOrEqual(30);
    expect(vacuum.longestDwellS).toBeLessThanOrEqual(120);
  });
});

describe('advice on a repair that a person must decide about', () => {
  it('never says that it can begin, and says all the rest', () => {
    const advice = adviseOn({}, [resin], false);
    expect(advice).toEqual({ ...adviseOn({}), answer: 'decide' });
  });

  it('tells what would come first', () => {
    const advice = adviseOn({ conditions: { glassC: 4 } }, [resin], false);
    expect(advice.answer).toBe('decide');
    expect(advice.first.map((step) => step.do)).toContain('warm');
  });

  it('has no profile where none could be advised in any case', () => {
    expect(adviseOn({ damage: { type: 'unknown' } }, [resin], false).answer).toBe('person');
  });
});

describe('advice on what comes first', () => {
  it.each<[string, Partial<IntakeSheet['conditions']>, string]>([
    ['cold glass', { glassC: 11.9 }, 'warm'],
    ['hot glass', { glassC: 40.1 }, 'shade'],
    ['glass of unknown temperature', { glassC: 'unknown' }, 'measure'],
    // Dew point of 22 C at 90 % is 20.3 C.
    ['glass near the dew point', { glassC: 23, airC: 22, humidityPercent: 90 }, 'dry'],
  ])('keeps %s from beginning and says why', (_, conditions, first) => {
    const advice = ask(conditions);
    expect(advice.answer).toBe('first');
    expect(advice.first.map((step) => step.do)).toContain(first);
  });

  it.each<[number, 'go' | 'first']>([
    [12, 'go'],
    [40, 'go'],
  ])('lets glass at %s C, the edge of the window, begin', (glassC, answer) => {
    expect(ask({ glassC, humidityPercent: 20 }).answer).toBe(answer);
  });

  it('dries a damp break and cleans a dirty one', () => {
    for (const damage of [{ moisture: 'damp' }, { contamination: 'can-be-removed' }] as const)
      expect(adviseOn({ damage }).answer).toBe('first');
  });
});

describe('advice on set-points', () => {
  it('holds longer or runs more cycles for a longer leg, by the square of its length', () => {
    const timeS = (longestLegMm: number): number => {
      const { pressure, cycles } = fileOf(adviseOn({ damage: { longestLegMm, diameterMm: 60 } }));
      return pressure.dwellS * cycles.planned;
    };
    expect(timeS(14)).toBeGreaterThanOrEqual(timeS(10) * 1.9);
    expect(timeS(14)).toBeLessThanOrEqual(timeS(10) * 2.2);
  });

  it('leaves to a person what no dwell of practice fills', () => {
    const advice = adviseOn({ damage: { longestLegMm: 30, diameterMm: 62 } });
    expect(advice.answer).toBe('person');
    expect(advice.reasons.join(' ')).toContain('section by section');
  });

  it('presses a long crack less than a short one', () => {
    const pressurePa = (longestLegMm: number): number =>
      fileOf(adviseOn({ damage: { type: 'crack', longestLegMm, diameterMm: 150, legs: 1 } }))
        .pressure.setPointGaugePa;
    expect(pressurePa(50)).toBe(138_000);
    // 0.3 x 0.25 MPa sqrt(m) / (1.12 sqrt(pi x 0.15 m)) = 97.5 kPa, worked out by hand.
    expect(pressurePa(150)).toBe(97_000);
  });

  it('asks no more of the pump than it reaches at 3000 m, and runs one more cycle there', () => {
    // 70.1 kPa at 3000 m (US Standard Atmosphere 1976, quoted by a secondary page).
    const high = ask({ airKPa: 70.1 });
    const low = ask({ airKPa: 101.3 });
    expect(fileOf(high).cycles.planned).toBe(fileOf(low).cycles.planned + 1);
    expect(fileOf(high).vacuum.setPointPa).toBeGreaterThanOrEqual(deepestPa(70_100, PUMP));
    expect(high.reasons.join(' ')).toContain('leaves 36 % of it');
  });

  it('has no profile for a surface pit or an unknown kind of damage', () => {
    for (const type of ['surface-pit', 'unknown'] as const) {
      const advice = adviseOn({ damage: { type, legs: 0 } });
      expect(advice.profile).toBeNull();
      expect(advice.answer).toBe('person');
    }
  });

  it('names no bottle where none suits', () => {
    const old = { ...resin, expiresOn: '1999-12-31' };
    const advice = adviseOn({}, [old]);
    expect(advice.take).toBeNull();
    expect(advice.reasons).toContain('No bottle at hand suits this job.');
  });

  it('gives a profile that loads, whatever is asked', () => {
    const type = fc.constantFrom(
      'bullseye',
      'half-moon',
      'star-break',
      'combination-break',
      'crack',
    );
    fc.assert(
      fc.property(
        type,
        fc.double({ min: 1, max: 400, noNaN: true }),
        fc.double({ min: -20, max: 60, noNaN: true }),
        fc.double({ min: 55, max: 110, noNaN: true }),
        (kind, mm, glassC, airKPa) => {
          const advice = adviseOn({
            damage: { type: kind as 'crack', diameterMm: mm, longestLegMm: mm },
            conditions: { glassC, airKPa },
          });
          expect(profileSchema.safeParse(advice.profile?.file).error).toBeUndefined();
        },
      ),
    );
  });
});
