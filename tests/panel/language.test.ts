import { expect, test } from 'vitest';
import type { ControllerStep } from '../../src/control/controller.ts';
import type { Catalogue } from '../../src/panel/catalogue.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { createDriver, driveTo } from '../drive.ts';
import { ENGLISH, SPANISH } from './catalogues.ts';

/** Pages turned past their end, a hold and a restart, on to the vacuum, and an emergency stop in it. */
function drive(catalogue: Catalogue): readonly ControllerStep<Repair>[] {
  const driver = createDriver({ ...DEFAULT_CONFIG, catalogue });
  driver.pass(3);
  const more = Array.from({ length: 12 }, () => driver.press('more'));
  const held = [driver.press('yes'), driver.press('hold'), driver.pass(1), driver.press('more')];
  const why = [driver.press('no'), driver.press('more'), driver.press('no')];
  const again = [driver.press('yes'), driver.pass(2), driveTo(driver, 'evacuate')];
  const stopped = driver.pass(1, { switches: { emergencyStopPressed: true } });
  const told = Array.from({ length: 5 }, () => driver.press('more'));
  return [
    ...more,
    ...held,
    ...why,
    ...again,
    stopped,
    ...told,
    driver.press('yes'),
    driver.pass(1),
  ];
}

const ENGLISH_STEPS = drive(ENGLISH);
const SPANISH_STEPS = drive(SPANISH);

test('which language is shown decides nothing: all but the display is the same', () => {
  const decided = (steps: readonly ControllerStep<Repair>[]) =>
    steps.map(
      ({ events, snapshot, outputs: { display, ...outputs }, state: { shown, ...state } }) => ({
        events,
        snapshot,
        outputs,
        state,
      }),
    );
  expect(decided(SPANISH_STEPS)).toEqual(decided(ENGLISH_STEPS));
});

test('the display is in its language where the record is in English', () => {
  const lastOf = (steps: readonly ControllerStep<Repair>[]) => {
    const last = steps.at(-1);
    return [last?.outputs.display[1].trim(), last?.state.why?.record.slice(0, 32)];
  };
  expect(lastOf(ENGLISH_STEPS)).toEqual(['Emergency stop.', 'Emergency stop. Expected button ']);
  expect(lastOf(SPANISH_STEPS)).toEqual(['Parada emergencia.', 'Emergency stop. Expected button ']);
});
