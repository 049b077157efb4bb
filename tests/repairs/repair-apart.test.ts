/** A whole job on the simulated board whose fill and pit are cured apart, and its replay. */

import { describe, expect, test } from 'vitest';
import type { Fault } from '../../sim/faults/faults.ts';
import apartFile from '../../src/app/defaults/star-apart.json' with { type: 'json' };
import { replayJournal } from '../../src/app/replay.ts';
import type { Event } from '../../src/core/events.ts';
import type { CureMeasurement, Portion } from '../../src/core/measurements.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import { shownJPerM2 } from '../../src/cure/dose-uncertainty.ts';
import type { JournalTick } from '../../src/journal/tick-line.ts';
import { profileSchema } from '../../src/procedure/profile.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { runRepair } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { FILL_PASSES, PIT_PASSES } from '../light-path.ts';

/** Three times the 2.77 % that the budget of the sensor alone states: any drawn unit keeps it. */
const READING_3_U = 0.083;

const { job, unit } = DEFAULT_CONFIG;
const OPENED_IN_FILL: Fault = {
  kind: 'shield-opened',
  from: { phase: 'cure-fill', afterS: 90 },
  mendedBy: 'close-shield',
};
const PIT_DEPTH_M = 0.4e-3;
const profile = profileSchema.parse(apartFile);
const CONFIG = {
  ...DEFAULT_CONFIG,
  // One cycle: this is about what follows it.
  profile: { ...profile, cycles: { ...profile.cycles, planned: 1, extra: 2 } },
  job: { ...job, damage: { ...job.damage, pitDepthM: PIT_DEPTH_M } },
};

describe('a repair with its pit cured apart', () => {
  const ticks: JournalTick[] = [];
  let pitBeforeItsCureJPerM2 = Number.NaN;
  let lampOnForFill = 0;
  const run = runRepair({
    config: CONFIG,
    scenario: { faults: [OPENED_IN_FILL] },
    watch: ({ frame, requests, state, snapshot }, board) => {
      ticks.push({ frame, requests, actuators: state.commanded });
      if (snapshot.phase === 'place-lamp') {
        pitBeforeItsCureJPerM2 = board.view().truth.pitCuredDepthM;
      }
      if (snapshot.phase === 'cure-fill' && state.commanded.lampEnabled) lampOnForFill += 1;
      return false;
    },
  });
  const measured = (name: CureMeasurement, portion: Portion): number =>
    run.events.findLast(
      (e): e is Event & { kind: 'measured' } =>
        e.kind === 'measured' && e.name === name && e.portion === portion,
    )?.value ?? Number.NaN;

  test('is completed clear and hard, held once by the shield', () => {
    expect(run.end).toBe('completed');
    expect(run.outcome).toBe('clear');
    expect(run.alarms).toEqual(['shield-open']);
    expect(run.board.view().tacky).toBe(false);
  });

  test('cures the fill, then makes the pit of liquid resin, then cures that', () => {
    const order: readonly PhaseId[] = [
      'ask-clear',
      'cure-fill',
      'uncover-fill',
      'fill-pit',
      'cure',
    ];
    const times = order.map((phase) => run.enteredS.get(phase) ?? Number.NaN);
    expect([...times].sort((a, b) => a - b)).toEqual(times);
    expect(lampOnForFill).toBeGreaterThan(240 * 20 - 2);
    expect(pitBeforeItsCureJPerM2).toBe(0);
    expect(run.board.view().truth.pitCuredDepthM).toBeGreaterThan(PIT_DEPTH_M);
    expect(run.board.view().truth.curedDepthM).toBeGreaterThan(job.damage.depthM ?? 0);
  });

  test.each([
    ['fill', profile.cure, FILL_PASSES],
    ['pit', profile.pitCure, PIT_PASSES],
  ] as const)('gives the %s its own dose in its own times', (portion, cure, passes) => {
    const { doses } = run.last.state.scene;
    expect(measured('doseJPerM2', portion)).toBe(doses[portion].doseJPerM2);
    const shown = shownJPerM2(doses[portion], unit.doseUncertaintyTerms);
    expect(shown * passes).toBeGreaterThanOrEqual(
      cure?.targetAtResinJPerM2 ?? Number.POSITIVE_INFINITY,
    );
    const lampOnS = measured('lampOnS', portion);
    expect(lampOnS).toBeGreaterThanOrEqual(cure?.leastS ?? Number.NaN);
    expect(lampOnS).toBeLessThanOrEqual(cure?.longestS ?? Number.NaN);
  });

  test('counts together what the lamp truly gave', () => {
    const { fill, pit } = run.last.state.scene.doses;
    const counted = fill.doseJPerM2 + pit.doseJPerM2;
    const trueDose = run.board.view().truth.doseJPerM2;
    expect(Math.abs(counted - trueDose) / trueDose).toBeLessThan(READING_3_U);
  });

  test('replayed from its frames gives the same decisions', () => {
    const result = replayJournal(REPAIR, CONFIG, { ticks, events: run.events });
    expect(result.ticks).toBeGreaterThan(10_000);
    expect(result.differences).toEqual([]);
  });
});
