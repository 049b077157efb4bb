import { describe, expect, test } from 'vitest';
import unitFile from '../../../../src/app/defaults/unit.json' with { type: 'json' };
import { unitSettingsSchema } from '../../../../src/control/unit-settings.ts';
import { problemLine } from '../../../../src/core/settings.ts';
import { lightChainProblems } from '../../../../src/procedure/repair/cure/light-chain.ts';
import { DEFAULT_CONFIG } from '../../../configs.ts';

const FILES = { unit: 'unit.json', job: 'job.json', profile: 'profile.json' };

const against = (change: object, job = DEFAULT_CONFIG.job): readonly string[] => {
  const unit = unitSettingsSchema.parse({ ...unitFile, ...change });
  return lightChainProblems({ ...DEFAULT_CONFIG, unit, job }, FILES).map(problemLine);
};
const lampAt = (peakNm: number) => ({ lamp: { ...unitFile.lamp, peakNm } });
const radiometerAt = (adjustedAtNm: number | null) => ({
  channels: {
    ...unitFile.channels,
    irradiance: { ...unitFile.channels.irradiance, adjustedAtNm },
  },
});

describe('lamp and radiometer', () => {
  test('of the demo unit mean one light', () => {
    expect(against({})).toEqual([]);
  });

  test('a radiometer adjusted at 365 nm is refused under a lamp of 395 nm', () => {
    expect(against(lampAt(395))).toEqual([
      "unit.json: channels.irradiance.adjustedAtNm is 365 nm; accepted: from 385 to 405 nm, because the lamp peaks at 395 nm; calibrate against a radiometer that is certified for this lamp's light",
    ]);
  });

  test.each([
    [375, 0],
    [355, 0],
    [376, 1],
    [354, 1],
  ])('are taken up to 10 nm apart: a radiometer for %d nm under 365 nm', (nm, refused) => {
    expect(against(radiometerAt(nm))).toHaveLength(refused);
  });

  test('a radiometer that nobody stated a wavelength for is refused', () => {
    expect(against(radiometerAt(null))).toEqual([
      expect.stringMatching(/^unit\.json: channels\.irradiance\.adjustedAtNm is not stated; /),
    ]);
  });
});

describe('the way of the light', () => {
  test('must be stated', () => {
    expect(against({ lightPath: null })).toEqual([
      'unit.json: lightPath is not stated; accepted: distances of lamp, spot and sensor, which the dose at the resin rests on',
    ]);
  });

  test('must light the whole break: 30 mm by the spot, a longest leg counted from the pit', () => {
    const { job } = DEFAULT_CONFIG;
    const broken = (diameterM: number, longestLegM: number) =>
      against({}, { ...job, damage: { ...job.damage, diameterM, longestLegM } });
    expect(broken(30e-3, 15e-3)).toEqual([]);
    expect(broken(20e-3, 15.1e-3)).toEqual([
      "job.json: damage.diameterMm is 30.2 mm across the pit; accepted: at most 30.0 mm, the lamp's even spot: the light beyond it is not known. One spot is cured here; do not fill this break so, but work a crack by a profile that says how it is worked along its length (along) with a unit that states its lamp's field (lightPath.fieldMm), use a lamp with a larger spot and state it in lightPath.spotDiameterMm, or refer the pane for replacement",
    ]);
  });
});
