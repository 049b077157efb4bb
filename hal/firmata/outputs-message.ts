/**
 * Outputs as the message that the board takes. A value outside its range is not repaired: the whole
 * message becomes the safe one, which ends the lease as well.
 */
import { type Actuators, type Outputs, SAFE } from '../../src/frame.ts';
import { encodeFields, FULL_DUTY, KINDS, OUTPUT_FLAGS, OUTPUTS_LAYOUT } from './protocol.ts';

export const encodeOutputs = (outputs: Outputs): readonly number[] =>
  isSound(outputs) ? encode(outputs, outputs.clearTrips === true) : SAFE_MESSAGE;

function encode(actuators: Actuators, clearTrips: boolean): readonly number[] {
  const { pumpRatio, selector, ventOpen, lampEnabled, lampRatio } = actuators;
  const flags =
    (selector === 'pressure' ? OUTPUT_FLAGS.selectorPressure : 0) +
    (ventOpen ? OUTPUT_FLAGS.ventOpen : 0) +
    (lampEnabled ? OUTPUT_FLAGS.lampEnabled : 0) +
    (clearTrips ? OUTPUT_FLAGS.clearTrips : 0);
  return encodeFields(KINDS.outputs, OUTPUTS_LAYOUT, {
    flags,
    pump: Math.round(pumpRatio * FULL_DUTY),
    lamp: Math.round(lampRatio * FULL_DUTY),
  });
}

export const SAFE_MESSAGE = encode(SAFE, false);

/** Types do not bind what comes from outside: not a number is no ratio, a word is no switch. */
function isSound({ pumpRatio, selector, ventOpen, lampEnabled, lampRatio }: Outputs): boolean {
  const isRatio = (value: number): boolean => value >= 0 && value <= 1;
  const isSwitch = (value: unknown): boolean => value === true || value === false;
  return (
    isRatio(pumpRatio) &&
    isRatio(lampRatio) &&
    isSwitch(ventOpen) &&
    isSwitch(lampEnabled) &&
    (selector === 'vacuum' || selector === 'pressure')
  );
}
