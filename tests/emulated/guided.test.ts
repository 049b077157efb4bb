/**
 * A calibration on the real firmware, emulated: its own limits and its display, from which the
 * scripted person reads, and the buttons' ladder. Slow, so one procedure stands for them all.
 */
import { expect, test } from 'vitest';
import { createCalibratingPerson } from '../../sim/calibrating-person.ts';
import { createChance } from '../../sim/random.ts';
import { createReferenceInstrument } from '../../sim/reference-instruments.ts';
import { GUIDED } from '../../src/control/guided.ts';
import { stepController } from '../../src/controller.ts';
import { guidedResultOf } from '../../src/guided-result.ts';
import { kPaFromPa } from '../../src/units.ts';
import { guidedConfig, REFERENCES } from '../guided/guided-bench.ts';
import { scenarioWith } from '../sim/lock-step.ts';
import { openEmulatedBoard } from './emulated-board.ts';

const LONGEST_S = 400;

test('pressure is calibrated by the display and the buttons of the emulated board', async () => {
  const { board, bench, clock } = await openEmulatedBoard(scenarioWith());
  const config = guidedConfig('pressure');
  const gauge = createReferenceInstrument(
    'gauge',
    REFERENCES.pressure.stated,
    createChance(9, 'reference'),
  );
  const person = createCalibratingPerson(createChance(1, 'technician'));
  let state = GUIDED.start(config);
  const trips = new Set<string>();
  board.frames$.subscribe((frame) => {
    if (state.ended) return;
    const step = stepController(GUIDED, config, state, frame, []);
    state = step.state;
    if (state.procedure.step !== 'pressure-look') for (const trip of frame.trips) trips.add(trip);
    board.write(step.outputs);
    const shown = (): number => kPaFromPa(gauge.show(bench.view().truth) ?? Number.NaN);
    const button = person.look(frame.timeS, bench.display(), shown);
    if (button !== null) bench.press(button);
  });
  while (!state.ended && bench.timeS() < LONGEST_S) await clock.sleep(0.5);
  await board.close();
  expect(state.endReason).toBe('completed');
  expect([...trips]).toEqual([]);
  expect(guidedResultOf(config, state.procedure)?.passed).toBe(true);
});
