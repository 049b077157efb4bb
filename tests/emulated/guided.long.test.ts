/**
 * A calibration on the real firmware, emulated: its own limits and its display, from which the
 * scripted person reads, and the buttons' ladder. Slow, so one procedure stands for them all.
 */
import { expect, test } from 'vitest';
import { createCalibratingPerson } from '../../sim/people/calibrating-person.ts';
import { createReferenceInstrument } from '../../sim/people/reference-instruments.ts';
import { createChance } from '../../sim/random.ts';
import { stepController } from '../../src/control/controller.ts';
import { kPaFromPa } from '../../src/core/units.ts';
import { GUIDED } from '../../src/procedure/guided/guided.ts';
import { guidedResultOf } from '../../src/procedure/guided/guided-result.ts';
import { guidedConfig, REFERENCES } from '../procedure/guided/guided-bench.ts';
import { scenarioWith } from '../sim/board/lock-step.ts';
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
