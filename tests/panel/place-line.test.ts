/** Which position or field of a crack is in hand, as a person reads it on the display. */
import { describe, expect, test } from 'vitest';
import { PHASE_IDS, type PhaseId } from '../../src/core/phases.ts';
import { CATALOGUES, ENGLISH, SPANISH } from './catalogues.ts';
import { composeSignals, LIVE, view } from './views.ts';

const PLACES = {
  position: { place: 2, of: 3, apartM: 0.0125 },
  field: { place: 1, of: 2, apartM: 0.018 },
};

function linesOver12S(phase: PhaseId, line: 1 | 2, catalogue = ENGLISH, places = PLACES) {
  const lines = Array.from({ length: 24 }, (_, half) => {
    const live = { ...LIVE, places, phaseElapsedS: half / 2 };
    return composeSignals(view({ catalogue, phase, live })).display[line].trimEnd();
  });
  return [...new Set(lines)];
}

describe('a crack in three positions and two fields', () => {
  test.each([
    'set-bridge',
    'seal-watch',
    'move-injector',
    'charge-injector',
    'vacuum-dwell',
    'ask-clear',
  ] as const)('says the position in %s', (phase) => {
    expect(linesOver12S(phase, 2)).toContain('Position 2/3');
    expect(linesOver12S(phase, 2, SPANISH)).toContain('Posición 2/3');
  });

  test.each(['place-lamp', 'cure', 'move-lamp'] as const)('says the field in %s', (phase) => {
    expect(linesOver12S(phase, 2)).toContain('Field 1/2');
    expect(linesOver12S(phase, 2, SPANISH)).toContain('Campo 1/2');
  });

  test('says neither before the injector is set up, nor once the lamp is off', () => {
    for (const phase of ['inspect', 'fill-pit', 'scrape', 'result'] as const) {
      expect(linesOver12S(phase, 2).join()).not.toMatch(/Position|Field/);
    }
  });

  test('says how far to move on', () => {
    expect(linesOver12S('move-injector', 1)).toEqual(['Move on by 13 mm']);
    expect(linesOver12S('move-lamp', 1, SPANISH)).toEqual(['Avance 18 mm']);
  });
});

test.each(CATALOGUES)(
  'a break in one place never says a word of places ($language)',
  (catalogue) => {
    const one = { place: 1, of: 1, apartM: 0 };
    for (const phase of PHASE_IDS) {
      const said = linesOver12S(phase, 2, catalogue, { position: one, field: one }).join();
      expect(said, phase).not.toMatch(/Position \d|Field \d|Posición \d|Campo \d/);
    }
  },
);
