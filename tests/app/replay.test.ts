import { expect, test } from 'vitest';
import { replayJournal } from '../../src/app/replay.ts';
import type { JournalTick } from '../../src/journal/tick-line.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { runRepair } from '../bench.ts';
import { DEFAULT_CONFIG, DEFAULT_PROFILE } from '../configs.ts';

const ticks: JournalTick[] = [];
const { events } = runRepair({
  faults: ['shield-opened'],
  watch: ({ frame, requests, state }) => {
    ticks.push({ frame, requests, actuators: state.commanded });
    return false;
  },
});

test('frames replayed through the controller give the same decisions', () => {
  const result = replayJournal(REPAIR, DEFAULT_CONFIG, { ticks, events });
  expect(result.ticks).toBeGreaterThan(10_000);
  expect(result.differences).toEqual([]);
});

test('a changed frame, another profile or a missing event is found', () => {
  const changed = ticks.map((tick, index) =>
    index === 3000
      ? {
          ...tick,
          frame: {
            ...tick.frame,
            switches: { ...tick.frame.switches, emergencyStopPressed: true },
          },
        }
      : tick,
  );
  expect(replayJournal(REPAIR, DEFAULT_CONFIG, { ticks: changed, events }).differences).not.toEqual(
    [],
  );
  const vacuum = { ...DEFAULT_PROFILE.vacuum, dwellS: 61 };
  const other = { ...DEFAULT_CONFIG, profile: { ...DEFAULT_PROFILE, vacuum } };
  expect(replayJournal(REPAIR, other, { ticks, events }).differences).not.toEqual([]);
  const short = { ticks, events: events.slice(1) };
  expect(replayJournal(REPAIR, DEFAULT_CONFIG, short).differences).not.toEqual([]);
});
