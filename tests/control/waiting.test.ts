/** Where a person must look or act, the job waits for them: in every phase of every procedure. */
import { describe, expect, test } from 'vitest';
import { STEP_IDS } from '../../src/core/guided-events.ts';
import { PHASE_IDS } from '../../src/core/phases.ts';
import { GUIDED_STEPS } from '../../src/procedure/guided/progress.ts';
import { PHASE_TABLE } from '../../src/procedure/repair/phase-table.ts';
import { pass, tick } from '../steered-unit.ts';
import { guidedIn, repairIn } from '../steering.ts';

/** Of these only the world decides; typed once more, so that none is left to itself unseen. */
const BY_ITSELF = [
  'self-test',
  'glass-gate',
  'seal-pull',
  'seal-watch',
  'long-pull',
  'seal-open',
  'seal-press',
  'press-watch',
  'press-off',
  'evacuate',
  'vacuum-dwell',
  'release',
  'pressurise',
  'pressure-dwell',
  'vent',
  'cure-fill',
  'cure',
];
const ASKING = PHASE_IDS.filter((phase) => !BY_ITSELF.includes(phase));

describe.each(ASKING)('in %s', (phase) => {
  const start = repairIn(phase);
  const there = { batch: 'running', ended: false, procedure: { phase } };

  test('a repair waits for an answer, however long, and MORE is none', () => {
    expect(PHASE_TABLE[phase].kind).not.toBe('automatic');
    const waited = pass(start, 30);
    expect(waited.state).toMatchObject(there);
    const read = pass(tick(waited, { pressed: ['more'] }), 5);
    expect(read.state).toMatchObject(there);
  });
});

const ENTERED_OR_READ = STEP_IDS.filter((step) => GUIDED_STEPS[step].kind !== 'automatic');

test.each(ENTERED_OR_READ)('a guided procedure waits in %s', (step) => {
  const waited = pass(guidedIn(step), 30);
  expect(waited.state).toMatchObject({ batch: 'running', ended: false, procedure: { step } });
});
