import { describe, expect, test } from 'vitest';
import { DEMO_LAMP_BAND } from '../../sim/plant/light/spectrum.ts';
import careDemo from '../../src/app/defaults/care-demo.json' with { type: 'json' };
import resinFile from '../../src/app/defaults/resin.json' with { type: 'json' };
import unitFile from '../../src/app/defaults/unit.json' with { type: 'json' };
import { wiringFiles } from '../../wiring/drawing/files.ts';
import { LAMP_HEAD } from '../../wiring/parts/lamp-head.ts';

describe('one wavelength', () => {
  test('for lamp, light sensor, reference radiometer and model', () => {
    const { lamp, channels } = unitFile;
    expect(LAMP_HEAD.peakNm).toBe(365);
    expect([lamp.peakNm, channels.irradiance.adjustedAtNm]).toEqual([365, 365]);
    const references = careDemo.entries.flatMap((entry) =>
      'reference' in entry && entry.channel === 'irradiance' ? [entry.reference] : [],
    );
    expect(references.map((reference) => 'atNm' in reference && reference.atNm)).toEqual([365]);
    const { nm, weights } = DEMO_LAMP_BAND;
    expect(nm[weights.indexOf(Math.max(...weights))]).toBe(365);
  });

  test('which the demo resin is set by', () => {
    const { fromNm, toNm } = resinFile.light;
    expect(fromNm).toBeLessThan(365);
    expect(toNm).toBeGreaterThan(365);
  });

  test('on the parts list, for the lamp and for its sensor, and on both sheets', () => {
    const { 'parts.md': list = '', 'light.svg': sheet, 'drives.svg': drives } = wiringFiles();
    const rows = list.split('\n');
    for (const part of ['E1', 'U4']) {
      const row = rows.find((one) => one.startsWith(`| ${part} |`)) ?? '';
      const said = [...row.matchAll(/(\d+) nm/g)].map(([, nm]) => nm);
      expect(said.length, part).toBeGreaterThan(0);
      expect(new Set(said), part).toEqual(new Set(['365']));
    }
    for (const drawn of [sheet, drives]) expect(drawn).toContain('UV LED 365 nm');
  });
});

test('the lamp head is drawn as the unit file states it', () => {
  const { lightPath, heating } = unitFile;
  expect(LAMP_HEAD).toMatchObject({
    lampToGlass: lightPath.lampToGlassMm,
    lampToGlassWithin: lightPath.lampToGlassWithinMm,
    spotDiameter: lightPath.spotDiameterMm,
    spotEdgePercent: lightPath.spotEdgePercent,
    spotEdgeWithinPercent: lightPath.spotEdgeWithinPercent,
    sensorFromAxis: lightPath.sensorFromCentreMm,
    outerPly: heating.outerPlyMm,
  });
  expect(lightPath.source).toContain('wiring/light.svg');
});

test('the film covers the spot, and sensor and thermistor sit beside both, inside the shield', () => {
  const { sensorFromAxis, thermistorFromAxis, spotDiameter, filmWidth, shieldInside } = LAMP_HEAD;
  expect(filmWidth).toBeGreaterThanOrEqual(spotDiameter);
  expect(sensorFromAxis - LAMP_HEAD.sensorWidth / 2).toBeGreaterThan(filmWidth / 2);
  for (const fromAxis of [sensorFromAxis, thermistorFromAxis]) {
    expect(fromAxis).toBeGreaterThan(Math.max(spotDiameter, filmWidth) / 2);
    expect(fromAxis).toBeLessThan(shieldInside / 2);
  }
});
