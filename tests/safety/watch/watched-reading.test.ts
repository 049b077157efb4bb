import { describe, expect, test } from 'vitest';
import { LADDER_READINGS } from '../../../src/core/frame.ts';
import { watchedIn } from '../../../src/safety/watch/watch.ts';
import { HEALTHY_READING } from '../../frames.ts';

const PROCEDURE = { atmospherePa: 100_600, leakM3PerS: 1e-8, dwelling: false, handWork: true };
const seen = (change: object) => watchedIn({ ...HEALTHY_READING, ...change }, 12, PROCEDURE);

describe('what the watches take of a reading', () => {
  test.each(LADDER_READINGS)('a button counts as down at every reading but two: %s', (ladder) => {
    const down = !['released', 'open'].includes(ladder);
    expect(seen({ ladder }).buttonDown).toBe(down);
    // What a board that is silent last said of its buttons is not how they stand now.
    expect(seen({ ladder, link: 'mute' }).buttonDown).toBe(false);
  });

  test('a ladder that the board does not read has no button down', () => {
    expect(seen({ ladder: null }).buttonDown).toBe(false);
  });

  test('the shield counts as open while the board says so, and not on what it said before', () => {
    const { switches } = HEALTHY_READING;
    const open = { switches: { ...switches, shieldClosed: false } };
    const closed = { switches: { ...switches, shieldClosed: true } };
    expect(seen(open).shieldOpen).toBe(true);
    expect(seen(closed).shieldOpen).toBe(false);
    expect(seen({ ...open, link: 'mute' }).shieldOpen).toBe(false);
  });

  test('frames follow each other where the link is up and none is missing', () => {
    expect(seen({ link: 'up', gap: false }).unbroken).toBe(true);
    expect(seen({ link: 'up', gap: true }).unbroken).toBe(false);
    expect(seen({ link: 'mute', gap: false }).unbroken).toBe(false);
  });

  test('what the procedure knows is passed on', () => {
    expect(seen({})).toMatchObject({ ...PROCEDURE, lightCounts: 12 });
  });
});
