/**
 * False accepts of units whose radiometer was adjusted at another wavelength than the lamp's: the
 * errors of sensor and light path are drawn from the budget that the unit file states, the mismatch
 * from the demo radiometer's responsivity. A cure ends where the dose is shown to be met; wrong is a
 * unit whose resin then had less than its target.
 */
import { describe, expect, test } from 'vitest';
import { drawLightErrors, drawWayToResin } from '../../sim/board/light-errors.ts';
import { createChance } from '../../sim/random.ts';
import unitFile from '../../src/app/defaults/unit.json' with { type: 'json' };
import { statedLightOf } from '../../src/cli/run/stated-light.ts';
import { type UnitSettings, unitSettingsSchema } from '../../src/control/unit-settings.ts';
import { leftUntilShownS } from '../../src/cure/dose-uncertainty.ts';
import { jobTargetsOf } from '../../src/procedure/repair/cure/job-target.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

const UNITS = 4000;
const LAMP_W_PER_M2 = 195;

function unitOf(peakNm: number, adjustedAtNm: number): UnitSettings {
  const { lamp, channels } = unitFile;
  const irradiance = { ...channels.irradiance, adjustedAtNm };
  return unitSettingsSchema.parse({
    ...unitFile,
    lamp: { ...lamp, peakNm },
    channels: { ...channels, irradiance },
  });
}

/** The share of drawn units that say "met" over resin that had less. */
function wronglyMet(unit: UnitSettings): number {
  const config = { ...DEFAULT_CONFIG, unit };
  const stated = statedLightOf(config);
  const { targetJPerM2, atResinJPerM2 } = jobTargetsOf(config).fill;
  const { filmRatio } = config.profile.cure;
  const dark = { doseJPerM2: 0, lampOnS: 0, pieces: 0 };
  let wrong = 0;
  for (let seed = 1; seed <= UNITS; seed++) {
    const errors = drawLightErrors(createChance(seed, 'light'), stated);
    const way = drawWayToResin(createChance(seed, 'way'), stated);
    const gain = errors.irradianceGain * errors.irradianceSeat * errors.irradianceSpectralRatio;
    const readWPerM2 = gain * LAMP_W_PER_M2 + errors.irradianceDarkWPerM2;
    const s = leftUntilShownS(dark, readWPerM2, targetJPerM2, unit.doseUncertaintyTerms);
    const trueJPerM2 = s * LAMP_W_PER_M2 * filmRatio * way.filmFactor * way.fillRatio;
    if (trueJPerM2 < atResinJPerM2) wrong += 1;
  }
  return wrong / UNITS;
}

describe.each([
  [365, 365],
  [365, 360],
  [365, 355],
  [375, 365],
  [365, 375],
  [355, 365],
])('a lamp of %d nm under a radiometer adjusted at %d nm', (lampNm, adjustedNm) => {
  test('is wrongly said to have met its dose by at most the stated 5 % of units', () => {
    expect(wronglyMet(unitOf(lampNm, adjustedNm))).toBeLessThanOrEqual(0.05);
  });
});

test('a mismatch that nobody stated would be wrong far more often than that', () => {
  const blind = unitOf(365, 365).doseUncertaintyTerms;
  expect(wronglyMet({ ...unitOf(365, 355), doseUncertaintyTerms: blind })).toBeGreaterThan(0.3);
});
