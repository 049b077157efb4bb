/**
 * Encodes outputs as the board's message, each with a number of its own. A value outside its range
 * is not repaired: the whole message becomes the safe one, which also ends the lease.
 */
import { type Actuators, type Outputs, SAFE } from '../../src/core/frame.ts';
import { isSound } from '../board.ts';
import { encodeFields, FULL_DUTY, KINDS, OUTPUT_FLAGS, OUTPUTS_LAYOUT } from './protocol.ts';

/** Numbers of messages begin again after the last one. */
const SEQUENCES = 128 ** 2;

export const sequenceAfter = (sequence: number): number => (sequence + 1) % SEQUENCES;

/** The later of two numbers: at most half the range ahead of the other, as the board judges. */
export const laterSequence = (a: number, b: number): number =>
  (a - b + SEQUENCES) % SEQUENCES < SEQUENCES / 2 ? a : b;

export const encodeOutputs = (outputs: Outputs, sequence: number): readonly number[] =>
  isSound(outputs) ? encode(outputs, outputs.clearTrips === true, sequence) : safeMessage(sequence);

export const safeMessage = (sequence: number): readonly number[] => encode(SAFE, false, sequence);

function encode(actuators: Actuators, clearTrips: boolean, sequence: number): readonly number[] {
  const { pumpRatio, selector, ventOpen, lampEnabled, lampRatio } = actuators;
  const flags =
    (selector === 'pressure' ? OUTPUT_FLAGS.selectorPressure : 0) +
    (ventOpen ? OUTPUT_FLAGS.ventOpen : 0) +
    (lampEnabled ? OUTPUT_FLAGS.lampEnabled : 0) +
    (clearTrips ? OUTPUT_FLAGS.clearTrips : 0);
  return encodeFields(KINDS.outputs, OUTPUTS_LAYOUT, {
    sequence,
    flags,
    pump: Math.round(pumpRatio * FULL_DUTY),
    lamp: Math.round(lampRatio * FULL_DUTY),
  });
}
