/** Fill and pit cured apart, from the judged break to the scraped pit, on hand-made frames. */
import { describe, expect, test } from 'vitest';
import type { Event } from '../../src/core/events.ts';
import { PORTIONS } from '../../src/core/measurements.ts';
import { DEFAULT_UNIT as unit } from '../configs.ts';
import { driveTo, type FrameChange } from '../drive.ts';
import { PIT_PASSES } from '../light-path.ts';
import {
  APART,
  dosesOf,
  LIT,
  phasesOf,
  recorded,
  stated,
  TICK_J_PER_M2,
  TOGETHER,
} from './apart-driver.ts';

describe('fill and pit apart', () => {
  const { driver, events } = recorded(APART);
  driveTo(driver, 'scrape');

  test('are cured one after the other, the fill first', () => {
    const lamp = phasesOf(events).slice(phasesOf(events).indexOf('ask-clear'));
    expect(lamp).toEqual([
      'ask-clear',
      'injector-off',
      'cover-fill',
      'place-lamp-fill',
      'cure-fill',
      'uncover-fill',
      'fill-pit',
      'cover-film',
      'place-lamp',
      'cure',
      'scrape',
    ]);
  });

  test.each([
    ['fill', 3500],
    ['pit', 2000],
  ] as const)(
    'the %s ends when its own dose is shown to be met, not a tick before',
    (portion, target) => {
      const dose = stated(events, 'doseJPerM2', portion);
      const margin =
        stated(events, 'doseCoverageFactor') * stated(events, 'doseUncertaintyJPerM2', portion);
      expect(margin).toBeGreaterThan(0);
      expect(dose - margin).toBeGreaterThanOrEqual(target);
      expect(dose - margin - TICK_J_PER_M2).toBeLessThan(target);
      expect(stated(events, 'targetJPerM2', portion)).toBeCloseTo(target, 9);
      const lampOnS = stated(events, 'lampOnS', portion);
      expect(stated(events, 'irradianceMeanWPerM2', portion)).toBeCloseTo(dose / lampOnS, 9);
    },
  );

  test('light on the pit is not counted towards the fill, and what came through is told apart', () => {
    const [fill, pit] = dosesOf(driver.last());
    expect(fill).toBe(stated(events, 'doseJPerM2', 'fill'));
    expect(pit).toBe(stated(events, 'doseJPerM2', 'pit'));
    // Half a millimetre of a resin that lets 1/e through a whole one.
    const through = stated(events, 'throughPitJPerM2', 'fill');
    expect(through).toBeCloseTo((pit ?? 0) * Math.exp(-0.5), 6);
  });

  test('a dose of one exposure for both is nowhere', () => {
    for (const name of ['doseJPerM2', 'lampOnS', 'targetJPerM2'] as const) {
      expect(stated(events, name)).toBeNaN();
    }
  });

  test('the snapshot follows the portion in hand', () => {
    const { driver: other } = recorded(APART);
    expect(driveTo(other, 'uncover-fill').snapshot.targetJPerM2).toBeCloseTo(3500, 9);
    const { targetJPerM2, doseJPerM2 } = driveTo(other, 'fill-pit').snapshot;
    expect(targetJPerM2).toBeCloseTo(2000, 9);
    expect(doseJPerM2).toBe(0);
  });
});

describe('fill and pit together', () => {
  test('get the same count from one exposure, which is of neither portion alone', () => {
    const { driver, events } = recorded(TOGETHER);
    driveTo(driver, 'scrape');
    const [fill, pit] = dosesOf(driver.last());
    expect(fill).toBe(pit);
    expect(stated(events, 'doseJPerM2')).toBe(fill);
    for (const portion of PORTIONS) expect(stated(events, 'doseJPerM2', portion)).toBeNaN();
    expect(stated(events, 'throughPitJPerM2', 'fill')).toBeNaN();
    expect(phasesOf(events)).not.toContain('cure-fill');
  });
});

describe('alarms of lamp and light', () => {
  const raised = (events: readonly Event[]): readonly string[] =>
    events.flatMap((e) => (e.kind === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
  /** 20 W/m2. */
  const WEAK: FrameChange = { lit: 143 };

  test.each(['cure-fill', 'cure'] as const)('a weak lamp holds the job in %s', (phase) => {
    const { driver, events } = recorded(APART);
    driveTo(driver, phase);
    driver.pass(10, WEAK);
    // A tenth of what this lamp is known to give is too dim before it is too weak.
    expect(raised(events)).toEqual(['light-too-dim', 'lamp-weak']);
    expect(driver.last().outputs.lampEnabled).toBe(false);
    const limit = phase === 'cure' ? 60 : 120;
    const alarm = events.find((e) => e.kind === 'alarm' && e.alarm === 'lamp-weak');
    expect(alarm).toMatchObject({ cause: expect.stringContaining(`a cure in ${limit} s`) });
  });

  test.each(['cure-fill', 'cure'] as const)('no light at all holds the job in %s', (phase) => {
    const { driver, events } = recorded(APART);
    driveTo(driver, phase);
    driver.pass(4, { counts: { irradiance: 103 } });
    expect(raised(events)).toEqual(['lamp-no-light']);
  });

  test.each(['cure-fill', 'cure'] as const)('the shield opened holds the job in %s', (phase) => {
    const { driver, events } = recorded(APART);
    driveTo(driver, phase);
    const step = driver.tick({ ...LIT, switches: { shieldClosed: false } });
    expect(step.outputs.lampEnabled).toBe(false);
    expect(raised(events)).toEqual(['shield-open']);
  });

  test('before the job the lamp is judged by the cure that asks more of it', () => {
    const warned = (lampWPerM2: number) => {
      const { driver, events } = recorded({
        ...APART,
        unit: { ...unit, lampLastKnownWPerM2: lampWPerM2 },
      });
      driver.pass(2);
      return events.flatMap((e) => (e.kind === 'alarm' ? [e.cause] : []));
    };
    // 4 kJ/m2 in 120 s and 2 kJ/m2 in 60 s alike ask for 33 W/m2, and for their margins.
    expect(warned(60)).toEqual([]);
    expect(warned(30)[0]).toMatch(/^Expected a cure in (60|120) s/);
    const pitCure = { targetAtResinJPerM2: 2000 * PIT_PASSES, leastS: 5, longestS: 15 };
    const fast = { ...APART.profile, pitCure };
    const { driver, events } = recorded({
      ...APART,
      profile: fast,
      unit: { ...unit, lampLastKnownWPerM2: 60 },
    });
    driver.pass(2);
    const causes = events.flatMap((e) => (e.kind === 'alarm' ? [e.cause] : []));
    expect(causes[0]).toMatch(/^Expected a cure in 15 s/);
  });
});

describe('daylight on resin that waits, apart', () => {
  const SUN: FrameChange = { counts: { irradiance: 143 }, switches: { shieldClosed: false } };

  test('is counted anew for the pit’s drop, and each is in the record', () => {
    const { driver, events } = recorded(APART);
    driveTo(driver, 'cover-fill');
    driver.pass(10, SUN);
    driveTo(driver, 'cure-fill');
    const ofFill = stated(events, 'openResinDoseJPerM2', 'fill');
    expect(ofFill).toBeGreaterThan(150);
    expect(stated(events, 'openResinShareRatio', 'fill')).toBeCloseTo(ofFill / 1000, 9);
    driveTo(driver, 'uncover-fill');
    driver.pass(10, SUN);
    expect(driver.last().state.scene.openResin.doseJPerM2).toBe(0);
    driveTo(driver, 'fill-pit');
    driver.pass(5, SUN);
    driveTo(driver, 'cure');
    const ofPit = stated(events, 'openResinDoseJPerM2', 'pit');
    expect(ofPit).toBeGreaterThan(50);
    expect(ofPit).toBeLessThan(ofFill);
  });

  test('is shown as its share once it matters, by turns with the prompt', () => {
    const { driver } = recorded(APART);
    driveTo(driver, 'charge-injector');
    const seen = new Set<string>();
    // 20 W/m2 of the 1 kJ/m2 that set the demo resin: a fifth after ten seconds.
    for (let tick = 0; tick < 9 * 20; tick++) seen.add(driver.tick(SUN).outputs.display[2]);
    expect(seen.size).toBe(1);
    for (let tick = 0; tick < 8 * 20; tick++) seen.add(driver.tick(SUN).outputs.display[2]);
    const told = [...seen].filter((line) => /\d+ ?%/.test(line));
    expect(told.length).toBeGreaterThan(0);
    expect(seen.size).toBeGreaterThan(told.length);
    for (const line of told) expect(Number(/(\d+) ?%/.exec(line)?.[1])).toBeGreaterThanOrEqual(20);
  });
});
