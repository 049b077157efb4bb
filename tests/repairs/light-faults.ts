/**
 * Faults of lamp and light sensor in a whole job: what the unit says of the dose, against the light
 * that the plant gave. A dose may be called met only where the break got it.
 */
import { expect } from 'vitest';
import type { Fault } from '../../sim/faults/faults.ts';
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { type BenchRun, runRepair } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { FILL_PASSES } from '../light-path.ts';

const { profile, job } = DEFAULT_CONFIG;
const TARGET_J_PER_M2 = 20_000;
/** One short cycle, and 20 kJ/m2: 105 s of the sound lamp, with four or five gaps. */
const SHORT: RepairConfig = {
  ...DEFAULT_CONFIG,
  profile: {
    ...profile,
    vacuum: { ...profile.vacuum, dwellS: 5 },
    pressure: { ...profile.pressure, dwellS: 5, restS: 1 },
    cycles: { ...profile.cycles, planned: 1, extra: 0 },
    cure: { ...profile.cure, targetAtResinJPerM2: TARGET_J_PER_M2 * FILL_PASSES, leastS: 60 },
  },
  job: { ...job, damage: { ...job.damage, depthM: 0.5e-3 } },
};

export const run = (faults: readonly Fault[], config = SHORT): BenchRun =>
  runRepair({ config, scenario: { faults } });

export const stated = ({ events }: BenchRun, name: string): number | null => {
  const found = events.findLast((event) => event.kind === 'measured' && event.name === name);
  return found?.kind === 'measured' ? found.value : null;
};

/** Whether the record calls the dose shown, by what the unit measured of it and by its alarms. */
export function saysShown(job: BenchRun): boolean {
  const shownJPerM2 = stated(job, 'shownDoseJPerM2');
  const unconfirmedJPerM2 = stated(job, 'unconfirmedDoseJPerM2');
  if (shownJPerM2 === null || unconfirmedJPerM2 === null) return false;
  return shownJPerM2 - unconfirmedJPerM2 >= TARGET_J_PER_M2;
}
export const trueShare = ({ board }: BenchRun): number =>
  board.view().truth.doseJPerM2 / TARGET_J_PER_M2;

const light = { channel: 'irradiance' } as const;
const inCure = (afterS: number): Fault['from'] => ({ phase: 'cure', afterS });
const before: Fault['from'] = { phase: 'place-lamp', afterS: 0 };

interface Row {
  readonly fault: string;
  readonly faults: readonly Fault[];
  /** The alarm that names it. */
  readonly alarm: string;
  readonly config?: RepairConfig;
  /** Each was called met once: it runs in every test run. */
  readonly liesWell?: true;
}

/** Half the drive is asked for. */
const dimmed: RepairConfig = {
  ...SHORT,
  profile: { ...SHORT.profile, cure: { ...SHORT.profile.cure, lampRatio: 0.5 } },
};

export const FALSE_LIGHT: readonly Row[] = [
  {
    fault: 'the lamp dies 10 s into the cure, and the sensor stays but for its last digit',
    faults: [
      { kind: 'lamp-dead', from: inCure(10) },
      { kind: 'sensor-dither', ...light, from: inCure(9) },
    ],
    alarm: 'light-gap-failed',
    liesWell: true,
  },
  {
    fault: 'the lamp dies 10 s into the cure, and the sensor stays',
    faults: [
      { kind: 'lamp-dead', from: inCure(10) },
      { kind: 'sensor-stuck', ...light, from: inCure(9) },
    ],
    alarm: 'irradiance-sensor',
  },
  {
    fault: 'a lamp at 35 % and a sensor that reads twice as much',
    faults: [
      { kind: 'lamp-aged', amount: 0.35, from: before },
      { kind: 'sensor-gain', amount: 2, ...light, from: before },
    ],
    alarm: 'light-too-dim',
    liesWell: true,
  },
  {
    fault: 'a sensor that jumps by 250 counts for 175 s over a lamp at 45 %',
    faults: [
      { kind: 'lamp-aged', amount: 0.45, from: before },
      { kind: 'sensor-offset', amount: 250, ...light, from: inCure(12), lastsS: 175 },
    ],
    alarm: 'light-unsteady',
    liesWell: true,
  },
  {
    fault: 'a zero 2.5 mW/cm2 off over a lamp at 60 %',
    faults: [
      { kind: 'lamp-aged', amount: 0.6, from: before },
      { kind: 'sensor-offset', amount: 51, ...light, from: before },
    ],
    alarm: 'light-not-dark',
    liesWell: true,
  },
  {
    fault: 'a zero that moves off within the cure',
    faults: [{ kind: 'sensor-offset', amount: 30, ...light, from: inCure(12) }],
    alarm: 'light-gap-failed',
  },
  {
    fault: 'light from elsewhere that comes in under the shield',
    faults: [{ kind: 'stray-light', amount: 20, from: inCure(12) }],
    alarm: 'light-gap-failed',
  },
  {
    fault: 'a lamp that flickers, off for a third of the time',
    faults: [{ kind: 'lamp-flickers', amount: 0.4, from: inCure(12) }],
    alarm: 'light-unsteady',
  },
  {
    fault: 'a sensor that cannot show more than 12 mW/cm2, and stands still there',
    faults: [{ kind: 'sensor-saturates', amount: 350, ...light, from: inCure(0) }],
    alarm: 'light-gap-failed',
  },
  {
    fault: 'a lamp at full where half is asked for',
    faults: [{ kind: 'lamp-undimmed', from: before }],
    config: dimmed,
    alarm: 'light-too-bright',
  },
  {
    fault: 'a lamp that stays on in the gap',
    faults: [{ kind: 'lamp-stuck-on', from: inCure(12) }],
    alarm: 'light-gap-failed',
  },
];

/** The unit names it, and does not say that the dose is shown: in none of them did the break get it. */
export function expectNotShown({ faults, alarm, config }: Row): void {
  const faulty = run(faults, config);
  expect(faulty.alarms).toContain(alarm);
  expect(trueShare(faulty)).toBeLessThan(0.6);
  expect(saysShown(faulty)).toBe(false);
}
