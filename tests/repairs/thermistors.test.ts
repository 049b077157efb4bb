/** Whole jobs with a thermistor that lies: what is raised, and how hot the plant truly gets. */
import { describe, expect, test } from 'vitest';
import type { Fault } from '../../sim/faults/faults.ts';
import { runRepair } from '../bench.ts';
import { ONE_CYCLE } from './brief.ts';

const celsius = (k: number): number => k - 273.15;

/** The alarms of a job with these faults, and the hottest heat sink and glass of it, C. */
function jobWith(faults: readonly Fault[], until: string | null = null) {
  let [sinkC, glassC] = [0, 0];
  const run = runRepair({
    config: ONE_CYCLE,
    scenario: { faults },
    watch: ({ events }, board) => {
      const { truth } = board.view();
      sinkC = Math.max(sinkC, celsius(truth.heatSinkK));
      glassC = Math.max(glassC, celsius(truth.glassK));
      return events.some((event) => event.kind === 'alarm' && event.alarm === until);
    },
  });
  return { alarms: run.alarms, sinkC, glassC, events: run.events };
}

const inCure = (afterS: number) => ({ phase: 'cure', afterS }) as const;
/** Wherever its count happens to stand; the last digit still moves. */
const dithers = (channel: 'glassTemperature' | 'heatSinkTemperature', afterS: number): Fault => ({
  kind: 'sensor-dither',
  channel,
  from: inCure(afterS),
});

describe('a heat sink whose thermistor lies', () => {
  test('is told within the first minute of light, with 60 W too much before it is at 70 C', () => {
    const sixty: Fault = { kind: 'heat-sink-hot', amount: 60, from: inCure(0) };
    const { alarms, sinkC } = jobWith([dithers('heatSinkTemperature', 0), sixty], 'heat-sink-cold');
    expect(alarms).toEqual(['heat-sink-cold']);
    expect(sinkC).toBeLessThan(70);
  });

  // Stuck in mid-cure it looks like a warm lamp: only the cut-out is left.
  test('is kept under 90 C by the cut-out where nobody can tell', () => {
    const sixty: Fault = { kind: 'heat-sink-hot', amount: 60, from: inCure(200) };
    const { sinkC } = jobWith([dithers('heatSinkTemperature', 200), sixty], 'lamp-no-light');
    expect(sinkC).toBeGreaterThan(79);
    expect(sinkC).toBeLessThan(90.5);
  });

  test('holds the job too when it hangs in the air', () => {
    const off: Fault = { kind: 'sink-thermistor-off', from: { atS: 0 } };
    expect(jobWith([off], 'heat-sink-cold').alarms).toEqual(['heat-sink-cold']);
  });
});

describe('a glass thermistor that lies', () => {
  test('is told by the lamp when it is off the glass', () => {
    const off: Fault = { kind: 'glass-thermistor-off', from: { atS: 0 } };
    const { alarms, glassC } = jobWith([off], 'glass-not-warmed');
    expect(alarms).toEqual(['glass-not-warmed']);
    expect(glassC).toBeLessThan(40);
  });
});
