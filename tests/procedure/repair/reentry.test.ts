import { describe, expect, test } from 'vitest';
import { ENTRY_PHASES, PHASE_IDS, type PhaseId, partOf } from '../../../src/core/phases.ts';
import { PROCEDURE_START } from '../../../src/procedure/phase.ts';
import { pressureGaugePaOf } from '../../../src/procedure/repair/loads.ts';
import { PHASE_TABLE } from '../../../src/procedure/repair/phase-table.ts';
import {
  cureOnlyEntry,
  enteredWith,
  goOnEntry,
  isResinLiquid,
} from '../../../src/procedure/repair/reentry.ts';
import { nextRemedy } from '../../../src/procedure/repair/remedies.ts';
import { stepProcedure } from '../../../src/procedure/repair/repair-phases.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { CONTEXT } from './phase-context.ts';

/** A first attempt has no resin in the break before its first cycle. */
const lastIn = (phase: PhaseId, cycle = 2) => ({
  ...PROCEDURE_START,
  phase,
  cycle,
  cycleOver: false,
  resinInBreak: cycle > 0,
  loadRatio: 0.5,
  pressureRatio: 0.7,
  tried: ['longer-vacuum', 'lower-pressure'] as const,
});
const resumesAt = (phase: PhaseId, cycle?: number): PhaseId | null =>
  goOnEntry(lastIn(phase, cycle))?.at ?? null;
const curesAt = (phase: PhaseId, cycle?: number): PhaseId | null =>
  cureOnlyEntry(lastIn(phase, cycle))?.at ?? null;

describe('another attempt of a job', () => {
  test.each([
    ['vacuum-dwell', 'set-bridge'],
    ['release', 'set-bridge'],
    ['pressurise', 'set-bridge'],
    ['pressure-dwell', 'set-bridge'],
    ['offer-cycle', 'set-bridge'],
    // The seal was tested again with resin in the break.
    ['reseat', 'set-bridge'],
    ['seal-watch', 'set-bridge'],
    ['injector-off', 'injector-off'],
    ['cure-fill', 'cover-fill'],
    ['uncover-fill', 'uncover-fill'],
    ['place-lamp', 'cover-film'],
    ['cure', 'cover-film'],
    ['polish', 'scrape'],
    ['result', 'final-look'],
  ] as const)('of one that ended at %s goes on at %s', (ended, at) => {
    expect(resumesAt(ended)).toBe(at);
  });

  test('begins again from nothing where no cycle was begun', () => {
    for (const phase of ['job-sheet', 'connect-hose', 'seal-watch', 'charge-injector'] as const) {
      expect([phase, resumesAt(phase, 0)]).toEqual([phase, null]);
    }
  });

  test('never begins with the chamber closed or the lamp on, and waits for a person', () => {
    for (const phase of ENTRY_PHASES) {
      const { kind, air, lamp } = PHASE_TABLE[phase];
      expect([phase, kind === 'automatic']).toEqual([phase, false]);
      expect([phase, air(PROCEDURE_START, DEFAULT_PROFILE)]).toEqual([phase, { air: 'vented' }]);
      expect([phase, lamp(PROCEDURE_START)]).toEqual([phase, false]);
    }
  });

  test('carries on the cycles begun, the loads lowered, and the remedies tried', () => {
    const entry = goOnEntry(lastIn('pressure-dwell'));
    // The second cycle is begun again: the seal test that follows counts it.
    expect(entry).toEqual({
      at: 'set-bridge',
      cycle: 1,
      position: 1,
      cyclesBefore: 0,
      loadRatio: 0.5,
      pressureRatio: 0.7,
      tried: ['longer-vacuum', 'lower-pressure'],
      outcome: null,
      legGrew: false,
    });
    if (entry === null) return;
    const walk = enteredWith(entry);
    const { phase, cycle, loadRatio, atmospherePa } = walk;
    expect([phase, cycle, loadRatio, atmospherePa]).toEqual(['self-test', 1, 0.5, null]);
    // Half for the leg, and seven tenths of it for the remedy, of 138 kPa.
    expect(pressureGaugePaOf(walk, DEFAULT_PROFILE)).toBeCloseTo(48_300, 6);
    expect(nextRemedy(walk, DEFAULT_PROFILE, 'star-break')).toBe('probe-and-flex');
  });
});

describe('an attempt that is lost before it came to its own work', () => {
  const { cycle, ...entered } = {
    at: 'cover-film',
    cycle: 1,
    position: 1,
    cyclesBefore: 0,
    loadRatio: 0.5,
    pressureRatio: 1,
    tried: [],
    legGrew: false,
  } as const;
  const entry = { ...entered, cycle, outcome: 'mark-remains' } as const;
  const lost = (phase: PhaseId) => ({ ...enteredWith(entry), phase });

  test.each(['self-test', 'air-jump', 'job-sheet', 'protect'] as const)(
    'in %s leaves the job where it was: it goes on, and its resin is cured, from the same step',
    (phase) => {
      expect(goOnEntry(lost(phase), entry)).toEqual(entry);
      expect(cureOnlyEntry(lost(phase), entry)).toEqual(entry);
      expect(isResinLiquid(lost(phase), entry)).toBe(true);
      expect(isResinLiquid(lost(phase), { ...entry, at: 'scrape' })).toBe(false);
    },
  );

  test('keeps the resin and the number of the cycle, however often the seal is tested', () => {
    const first = goOnEntry(lastIn('pressure-dwell', 1));
    expect(first).toMatchObject({ at: 'set-bridge', cycle: 0 });
    if (first === null) return;
    for (const phase of ['set-bridge', 'seal-watch', 'charge-injector'] as const) {
      const second = goOnEntry({ ...enteredWith(first), phase }, first);
      expect([phase, second]).toEqual([phase, first]);
      expect(cureOnlyEntry({ ...enteredWith(first), phase }, first)?.at).toBe('injector-off');
    }
  });
});

describe('an attempt that went back to an earlier step', () => {
  test('leaves soft resin at the film of its further dose, not at the scraping that it began with', () => {
    const scraped = goOnEntry(lastIn('scrape'));
    expect(scraped?.at).toBe('scrape');
    if (scraped === null) return;
    for (const phase of ['cover-film', 'place-lamp', 'cure'] as const) {
      const soft = { ...enteredWith(scraped), phase };
      expect([phase, goOnEntry(soft, scraped)?.at]).toEqual([phase, 'cover-film']);
      expect([phase, cureOnlyEntry(soft, scraped)?.at]).toEqual([phase, 'cover-film']);
      expect([phase, isResinLiquid(soft, scraped)]).toEqual([phase, true]);
    }
  });
});

describe('a leg that grew and was not measured', () => {
  test.each([
    ['while it was measured', lastIn('measure-leg')],
    ['before it was measured', { ...lastIn('pressure-dwell'), legGrew: true }],
  ])('when the attempt ended %s, comes before anything loads the pane again', (_, last) => {
    const entry = goOnEntry(last);
    expect(entry?.legGrew).toBe(true);
    if (entry === null) return;
    const protect = { ...enteredWith(entry), phase: 'protect' } as const;
    const context = { ...CONTEXT, entryAt: entry.at, answer: 'yes' } as const;
    const asked = stepProcedure(protect, context).state;
    expect(asked).toMatchObject({ phase: 'measure-leg', legGrew: false, goesOnAt: entry.at });
    expect(stepProcedure(asked, { ...CONTEXT, answer: 'no' }).state.phase).toBe(entry.at);
    expect(stepProcedure(asked, { ...CONTEXT, answer: 'yes' }).lead).toBe('stop');
  });

  test('does not keep its resin from being set', () => {
    expect(cureOnlyEntry(lastIn('measure-leg'))?.legGrew).toBe(false);
  });
});

test('a leg that is measured leaves the job where the leg grew', () => {
  const measuring = (goesOnAt: PhaseId) => ({ ...lastIn('measure-leg'), goesOnAt });
  expect(goOnEntry(measuring('cure'))?.at).toBe('cover-film');
  expect(cureOnlyEntry(measuring('cure'))?.at).toBe('cover-film');
  expect(goOnEntry(measuring('evacuate'))).toMatchObject({ at: 'set-bridge', cycle: 1 });
});

describe('to cure only', () => {
  test('takes the way to the cure from any cycle, and a cure that was begun from its film on', () => {
    for (const phase of PHASE_IDS.filter((one) => partOf(one) === 'cycles')) {
      expect([phase, curesAt(phase)]).toEqual([phase, 'injector-off']);
    }
    expect(curesAt('cure')).toBe('cover-film');
  });

  test('is not to be had before resin was pressed in', () => {
    for (const phase of ['dry-pit', 'seal-watch', 'charge-injector'] as const) {
      expect([phase, curesAt(phase, 0)]).toEqual([phase, null]);
    }
  });

  test('cures resin that was in the break while the seal was tested again', () => {
    for (const phase of ['reseat', 'dry-again', 'seal-watch'] as const) {
      expect([phase, curesAt(phase, 1)]).toEqual([phase, 'injector-off']);
      expect([phase, isResinLiquid(lastIn(phase, 1))]).toEqual([phase, true]);
    }
    expect(isResinLiquid(lastIn('charge-injector', 0))).toBe(false);
    expect(isResinLiquid(lastIn('scrape'))).toBe(false);
  });
});
