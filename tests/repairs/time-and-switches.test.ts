/** Faults of time and of switches in a whole repair, held against the plant's truth. */
import { describe, expect, test } from 'vitest';
import type { Fault } from '../../sim/faults/faults.ts';
import { type BenchRun, runRepair } from '../bench.ts';
import { BRIEF } from './brief.ts';
import { doseStatedIn } from './seeded.ts';

const CURING = { phase: 'cure', afterS: 5 } as const;

/** Until two minutes after the first alarm, in which a person lets the job go on if it can. */
const AFTERWARDS_TICKS = 2_400;

function withFault(fault: Fault): BenchRun {
  let ticksLeft = Number.POSITIVE_INFINITY;
  return runRepair({
    config: BRIEF,
    scenario: { faults: [fault] },
    watch: ({ events }) => {
      const raised = events.some(({ kind }) => kind === 'alarm');
      if (raised && ticksLeft > AFTERWARDS_TICKS) ticksLeft = AFTERWARDS_TICKS;
      return ticksLeft-- <= 0;
    },
  });
}
const trueDoseJPerM2 = ({ board }: BenchRun): number => board.view().truth.doseJPerM2;
const heldIn = ({ snapshots }: BenchRun): boolean => snapshots.some((s) => s.batch === 'held');

describe('a board clock', () => {
  test.each([1.34, 1.02])('at %s of true time ends no cure as met', (amount) => {
    const run = withFault({ kind: 'board-clock', amount, from: { atS: 0 } });
    expect(run.alarms[0]).toBe('board-clock');
    expect(run.end).not.toBe('completed');
    expect(doseStatedIn(run)).toBe(false);
  });
});

test('frames 0.19 s apart are held within two seconds of light, and cure nothing', () => {
  const run = withFault({ kind: 'link-late', amount: 0.14, from: CURING });
  expect(run.alarms).toContain('frames-rare');
  expect(run.end).not.toBe('completed');
  expect(doseStatedIn(run)).toBe(false);
  // 5 s of light before the fault, at some 200 W/m2, and a second to notice it.
  expect(trueDoseJPerM2(run)).toBeLessThan(200 * 7);
});

test('a converter that stalls for good holds the job by the host’s time, and the lamp goes out', () => {
  const run = withFault({ kind: 'board-stall', from: CURING });
  expect(run.alarms).toContain('frames-stand-still');
  expect(heldIn(run)).toBe(true);
  expect(run.end).not.toBe('completed');
  expect(trueDoseJPerM2(run)).toBeLessThan(200 * 7);
});

test('a board that sends nothing any more holds the job, and the lamp goes out', () => {
  const run = withFault({ kind: 'link-mute', from: CURING });
  expect(run.alarms).toContain('link-lost');
  expect(run.end).not.toBe('completed');
  expect(trueDoseJPerM2(run)).toBeLessThan(200 * 7);
});

test('a shorted contact of the shield that is read is found before the lamp burns for the first time', () => {
  const run = withFault({ kind: 'shield-read-shorted', from: { atS: 0 } });
  expect(run.alarms).toEqual(['shield-not-shown']);
  expect(run.end).not.toBe('completed');
  expect(trueDoseJPerM2(run)).toBe(0);
});
