/** Resin that runs out, on the plant: who sees it, what is asked, and what the record says. */
import { describe, expect, test } from 'vitest';
import type { Fault } from '../../sim/faults/faults.ts';
import type { RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { runRepair } from '../bench.ts';
import { BRIEF } from './brief.ts';

/** Too short to clear the demo break at once. */
const TWO_AND_TWO: RepairConfig = {
  ...BRIEF,
  profile: { ...BRIEF.profile, cycles: { planned: 2, extra: 2, rechargeAfter: 2 } },
};
const SHORT_CHARGE: Fault = {
  kind: 'short-charge',
  amount: 1.5,
  from: { atS: 0 },
  mendedBy: 'recharge',
};

const rechargesOf = ({ events }: ReturnType<typeof runRepair>) =>
  events.flatMap((event) => (event.kind === 'recharge' ? [[event.cycle, event.why]] : []));

describe('an injector that runs dry in the first cycle', () => {
  let dryAtS = Number.NaN;
  let screen: readonly string[] = [];
  const run = runRepair({
    config: TWO_AND_TWO,
    scenario: { faults: [SHORT_CHARGE] },
    watch: ({ frame, snapshot, state }, board) => {
      const charged = snapshot.cycle > 0;
      if (charged && Number.isNaN(dryAtS) && !board.view().resinLeft) dryAtS = frame.timeS;
      if (snapshot.phase === 'recharge' && screen.length === 0)
        screen = state.shown.signals.display;
      return false;
    },
  });

  test('is seen by the person who is asked, is charged again with its reason, and the job completes', () => {
    expect(dryAtS).toBeGreaterThan(0);
    const asked = run.events.filter((e) => e.kind === 'answer' && e.phase === 'ask-resin');
    expect(asked[0]).toMatchObject({ answer: 'no' });
    expect(rechargesOf(run)[0]).toEqual([2, 'injector-dry']);
    expect(screen[1]?.trimEnd()).toBe('The injector is dry');
    expect(run.end).toBe('completed');
    expect(run.alarms).toEqual([]);
  });

  test('is charged with the pressure off', () => {
    const entered = run.enteredS.get('recharge') ?? Number.NaN;
    const before = run.snapshots.filter(({ timeS }) => timeS <= entered).at(-1);
    expect(Math.abs((before?.pressurePa ?? 0) - 100_600)).toBeLessThan(3_000);
  });
});

test('a sound charge is not found dry by whoever looks', () => {
  const run = runRepair({ config: TWO_AND_TWO });
  const asked = run.events.flatMap((e) =>
    e.kind === 'answer' && e.phase === 'ask-resin' ? [e.answer] : [],
  );
  expect(asked[0]).toBe('yes');
  expect(asked).not.toContain('no');
  expect(rechargesOf(run).map(([, why]) => why)).not.toContain('injector-dry');
});
