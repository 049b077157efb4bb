import { expect, test } from 'vitest';
import {
  DEMO_PANE,
  FLOAT_GLASS,
  PVB,
  paneCapacityJPerM2K,
  paneResistanceM2KPerW,
  paneSchema,
  paneSheetWPerK,
  paneThicknessM,
} from '../../../../sim/plant/pane/pane.ts';
import { checkSettings, problemLine } from '../../../../src/core/settings.ts';

const glass = (thicknessMm: number, sunRatio: number, lampRatio: number) => ({
  ...FLOAT_GLASS,
  thicknessMm,
  sunRatio,
  lampRatio,
});
const SHEET = {
  layers: [
    glass(2.1, 0.1, 0.08),
    { ...PVB, thicknessMm: 0.76, sunRatio: 0.04, lampRatio: 0.6 },
    glass(1.6, 0.07, 0.02),
  ],
  emissivity: 0.837,
  youngGPa: 70,
  poissonRatio: 0.2,
  expansionPerMillionPerK: 9,
  toughnessMPaSqrtM: 0.75,
  slowGrowthMPaSqrtM: 0.25,
};

const problems = (input: unknown): readonly string[] => {
  const checked = checkSettings(paneSchema, input, 'pane.json');
  return checked.ok ? [] : checked.problems.map(problemLine);
};

test('a data sheet in trade units becomes the demo pane in SI units', () => {
  const checked = checkSettings(paneSchema, SHEET, 'pane.json');
  if (!checked.ok) throw new Error('refused');
  expect(checked.value.layers).toHaveLength(3);
  for (const [i, layer] of checked.value.layers.entries()) {
    expect(layer.thicknessM).toBeCloseTo(DEMO_PANE.layers[i]!.thicknessM, 12);
    expect(layer.kind).toBe(DEMO_PANE.layers[i]!.kind);
  }
  const { youngPa, expansionPerK, toughnessPaSqrtM, slowGrowthPaSqrtM } = checked.value;
  expect(youngPa).toBe(70e9);
  expect(expansionPerK).toBeCloseTo(9e-6, 15);
  expect(toughnessPaSqrtM).toBe(750_000);
  expect(slowGrowthPaSqrtM).toBe(250_000);
});

test('every physical nonsense is refused at once and says what is accepted', () => {
  const lines = problems({
    ...SHEET,
    layers: [glass(0, 0, 0)],
    emissivity: 1.2,
    poissonRatio: 0.6,
    youngGPa: 7,
  });
  expect(lines).toEqual([
    'pane.json: layers.0.thicknessMm is 0; accepted: a number from 0.1 to 25 mm',
    'pane.json: emissivity is 1.2; accepted: a number from 0 to 1',
    'pane.json: youngGPa is 7; accepted: a number from 40 to 120 GPa',
    'pane.json: poissonRatio is 0.6; accepted: a number from 0 to 0.45',
  ]);
});

test('layers cannot take up more light than falls in', () => {
  expect(problems({ ...SHEET, layers: [glass(2, 0.6, 0), glass(2, 0.5, 0)] })[0]).toContain(
    'no more sun and no more lamp than falls in',
  );
  expect(problems({ ...SHEET, layers: [glass(2, 0, 0.6), glass(2, 0, 0.5)] })).toHaveLength(1);
});

test('slow growth cannot begin above the toughness', () => {
  expect(problems({ ...SHEET, slowGrowthMPaSqrtM: 0.8 })[0]).toContain(
    'slowGrowthMPaSqrtM is 0.8; accepted: no more than toughnessMPaSqrtM',
  );
});

test('sums over the layers are those of a hand calculation', () => {
  expect(paneThicknessM(DEMO_PANE)).toBeCloseTo(4.46e-3, 12);
  // 3.7 mm of glass at 1.8 MJ/(m3 K) and 0.76 mm of interlayer at 2.033 MJ/(m3 K).
  expect(paneCapacityJPerM2K(DEMO_PANE)).toBeCloseTo(6660 + 1545.08, 6);
  expect(paneResistanceM2KPerW(DEMO_PANE)).toBeCloseTo(3.7e-3 + 3.8e-3, 12);
  expect(paneSheetWPerK(DEMO_PANE)).toBeCloseTo(3.7e-3 + 0.152e-3, 12);
});
