/**
 * Encodes outputs as the board's message. A value outside its range is not repaired: the whole
 * message becomes the safe one, which also ends the lease.
 */
import { type Actuators, type Outputs, SAFE } from '../../src/core/frame.ts';
import { isSound } from '../board.ts';
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
