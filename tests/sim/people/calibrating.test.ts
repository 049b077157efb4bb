import { describe, expect, test } from 'vitest';
import { bathK, createProbe, stepProbe } from '../../../sim/board/probe.ts';
import { createCalibratingPerson, GUIDED_HABITS } from '../../../sim/people/calibrating-person.ts';
import { GUIDED_HAND_WORK } from '../../../sim/people/guided-hands.ts';
import { createReferenceInstrument } from '../../../sim/people/reference-instruments.ts';
import { createChance } from '../../../sim/random.ts';
import type { DisplayLines } from '../../../src/core/frame.ts';
import { STEP_IDS } from '../../../src/core/guided-events.ts';
import { GUIDED_STEPS } from '../../../src/procedure/guided/progress.ts';

describe('the person', () => {
  test('has a habit for every step that asks somebody, and for none that asks nobody', () => {
    const asked = STEP_IDS.filter((id) => GUIDED_STEPS[id].kind !== 'automatic');
    expect(Object.keys(GUIDED_HABITS).sort()).toEqual([...asked].sort());
  });

  test('hands work only in steps that somebody confirms', () => {
    const habits = Object.keys(GUIDED_HABITS);
    for (const step of Object.keys(GUIDED_HAND_WORK)) expect(habits).toContain(step);
  });

  test('dials the number that the reference showed when it was read, and then takes it', () => {
    const person = createCalibratingPerson(createChance(3, 'technician'));
    const reference = 101.37;
    let dialled = 10_055;
    let steps = 1;
    let taken = false;
    let reading = true;
    let lastS = Number.NEGATIVE_INFINITY;
    let run = 0;
    for (let timeS = 0; timeS < 400 && !taken; timeS += 0.05) {
      const display: DisplayLines = reading
        ? ['P4 Read the air', '', '', '']
        : ['P5 Enter the air', `> ${(dialled / 100).toFixed(2)} kPa abs`, '', ''];
      const button = person.look(timeS, display, () => reference);
      if (button === null) continue;
      if (reading) {
        reading = false;
        continue;
      }
      if (button === 'yes') {
        taken = true;
        continue;
      }
      run = timeS - lastS <= 0.8 ? run + 1 : 1;
      lastS = timeS;
      steps = run >= 13 ? 100 : run >= 6 ? 10 : 1;
      dialled += button === 'more' ? steps : -steps;
    }
    expect(taken).toBe(true);
    expect(dialled).toBe(10_137);
  });
});

describe('reference instruments', () => {
  const stated = { expandedUncertainty: 50, coverageFactor: 2, resolution: 10 };
  const truth = { pressurePa: 40_000, irradianceWPerM2: 195, bathK: null };

  test('err by what their certificate states: a quarter of it squared, over many of them', () => {
    let squares = 0;
    for (let seed = 0; seed < 400; seed++) {
      const gauge = createReferenceInstrument('gauge', stated, createChance(seed, 'reference'));
      squares += ((gauge.show(truth) ?? 0) - 40_000) ** 2;
    }
    // 25 Pa, and what rounding to 10 Pa adds; a variance of 400 is known to 7 %.
    const expected = 25 ** 2 + 10 ** 2 / 12;
    expect(squares / 400 / expected).toBeGreaterThan(0.79);
    expect(squares / 400 / expected).toBeLessThan(1.21);
  });

  test('one instrument errs alike each time, and a thermometer in no bath shows nothing', () => {
    const gauge = createReferenceInstrument('gauge', stated, createChance(1, 'reference'));
    expect(gauge.show(truth)).toBe(gauge.show(truth));
    const thermometer = createReferenceInstrument(
      'thermometer',
      { ...stated, resolution: 0.01 },
      createChance(1, 'reference'),
    );
    expect(thermometer.show(truth)).toBeNull();
  });
});

describe('the glass sensor', () => {
  test('is at the pane’s temperature on the glass, and comes to a bath’s with a lag', () => {
    const probe = createProbe(createChance(1, 'reference'));
    stepProbe(probe, null, 296, 1);
    expect(probe.sensorK).toBe(296);
    const ice = bathK(probe, 'ice');
    stepProbe(probe, 'ice', 296, 6);
    expect(probe.sensorK - ice).toBeCloseTo((296 - ice) / Math.E, 9);
  });

  test('one long step is as good as many short ones', () => {
    const [long, short] = [1, 1].map((seed) => createProbe(createChance(seed, 'reference')));
    if (long === undefined || short === undefined) throw new Error('no probe');
    for (const probe of [long, short]) stepProbe(probe, null, 296, 1);
    stepProbe(long, 'ice', 296, 10);
    for (let i = 0; i < 200; i++) stepProbe(short, 'ice', 296, 0.05);
    expect(short.sensorK).toBeCloseTo(long.sensorK, 9);
  });

  test('a warm bath cools slower than a calibration minds', () => {
    const probe = createProbe(createChance(1, 'reference'));
    const before = bathK(probe, 'warm');
    stepProbe(probe, 'warm', 296, 60);
    const kPerMin = before - bathK(probe, 'warm');
    expect(kPerMin).toBeGreaterThan(0.01);
    expect(kPerMin).toBeLessThan(0.05);
  });
});
