/** A clamp that was not turned home, on the plant: suction hides it, pressure shows it. */
import { describe, expect, test } from 'vitest';
import { runRepair } from '../bench.ts';
import { BRIEF } from './brief.ts';

describe('a foot that pressure lifts', () => {
  let screen: readonly string[] = [];
  const run = runRepair({
    config: BRIEF,
    faults: ['loose-clamp'],
    watch: ({ snapshot, state }) => {
      if (snapshot.phase === 'foot-lifts' && screen.length === 0) {
        screen = state.shown.signals.display;
      }
      return false;
    },
  });
  const told = run.events.flatMap((event) => {
    if (event.kind === 'seal-finding') return [`${event.under ?? 'vacuum'}: ${event.finding}`];
    return event.kind === 'answer' && event.phase === 'charge-injector' ? ['resin in'] : [];
  });

  test('is found before there is resin behind it, and told by name', () => {
    expect(told).toEqual([
      ...['vacuum: tight', 'pressure: leak', 'vacuum: tight', 'pressure: tight', 'resin in'],
    ]);
    expect(screen[0]?.trimEnd()).toMatch(/Foot lifts$/);
    expect(screen.slice(1, 3).map((line) => line.trimEnd())).toEqual([
      'Wipe, turn down a',
      'little. YES: test',
    ]);
  });

  test('once turned down leaves nothing behind', () => {
    expect([run.end, run.alarms]).toEqual(['completed', []]);
  });
});
