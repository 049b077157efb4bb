/** The third line in the cycles, read as a person reads it: over a dozen seconds. */
import { describe, expect, test } from 'vitest';
import { PHASE_IDS, type PhaseId, partOf } from '../../src/core/phases.ts';
import type { CycleCount } from '../../src/panel/cycle-line.ts';
import { CATALOGUES, ENGLISH, SPANISH } from './catalogues.ts';
import { composeSignals, LIVE, view } from './views.ts';

const SECOND_OF_FOUR: CycleCount = { cycle: 2, planned: 2, extra: 2, vacuumLeftS: 60 };

/** Each text that line 3 shows in the first 12 s, once. */
function linesOver12S(phase: PhaseId, cycles: CycleCount, catalogue = ENGLISH): readonly string[] {
  const lines = Array.from({ length: 24 }, (_, half) => {
    const live = { ...LIVE, cycles, phaseElapsedS: half / 2 };
    return composeSignals(view({ catalogue, phase, live })).display[2].trimEnd();
  });
  return [...new Set(lines)];
}

const CYCLE_PHASES = PHASE_IDS.filter((phase) => partOf(phase) === 'cycles');

describe('which cycle of how many', () => {
  test.each(CYCLE_PHASES)('is on the display in %s', (phase) => {
    expect(linesOver12S(phase, SECOND_OF_FOUR)).toContain('Cycle 2/2, max 4');
    expect(linesOver12S(phase, SECOND_OF_FOUR, SPANISH)).toContain('Ciclo 2/2, máx 4');
  });

  test('names only the limit once the planned cycles are over', () => {
    const third = { ...SECOND_OF_FOUR, cycle: 3 };
    expect(linesOver12S('vacuum-dwell', third)).toContain('Cycle 3, max 4');
  });

  test('is cut nowhere with the most cycles that a profile may have', () => {
    const most = { cycle: 10, planned: 10, extra: 10, vacuumLeftS: 900 };
    expect(linesOver12S('vent', most)).toContain('Cycle 10/10, max 20');
    for (const catalogue of CATALOGUES) {
      expect(linesOver12S('vent', most, catalogue).join(' ')).toMatch(/10\/10, m[aá]x 20/);
    }
  });

  test.each(['close-seal', 'seal-watch', 'fill-pit', 'cure'] as const)('is not in %s', (phase) => {
    expect(linesOver12S(phase, SECOND_OF_FOUR).join(' ')).not.toContain('Cycle');
  });
});

describe('the limit of the bubbling', () => {
  test('is said while it is asked: the time that the vacuum may still stand, rounded up', () => {
    const lines = linesOver12S('ask-bubbles', { ...SECOND_OF_FOUR, vacuumLeftS: 56.2 });
    expect(lines).toContain('Vacuum left 57 s');
  });

  test('is said to be reached once no time is left', () => {
    const over = { ...SECOND_OF_FOUR, vacuumLeftS: 0 };
    expect(linesOver12S('ask-bubbles', over)).toContain('Longest time reached');
    expect(linesOver12S('bubbles-stay', over)).toContain('Longest time reached');
    expect(linesOver12S('bubbles-stay', over).join(' ')).not.toContain('left');
  });
});
