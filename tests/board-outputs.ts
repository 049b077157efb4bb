/** Outputs that the board contract writes: gentle ones, and ones that make no sense. */
import { type Actuators, type Outputs, SAFE } from '../src/core/frame.ts';

/** Harmless on any bench: a closed chamber, gently evacuated. Eight bits can say 0.4 exactly. */
export const GENTLE: Outputs = {
  ...SAFE,
  pumpRatio: 0.4,
  ventOpen: false,
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: ['', '', '', ''],
  clearTrips: false,
};

export const UNSOUND: readonly (readonly [string, Partial<Record<keyof Actuators, unknown>>])[] = [
  ['a pump ratio that is not a number', { pumpRatio: Number.NaN }],
  ['a pump ratio over 1', { pumpRatio: 1.000001 }],
  ['a negative pump ratio', { pumpRatio: -0.1 }],
  ['an infinite lamp ratio', { lampRatio: Number.POSITIVE_INFINITY }],
  ['a lamp ratio that is missing', { lampRatio: undefined }],
  ['a vent position that is no switch', { ventOpen: 'no' }],
  ['a lamp enable that is no switch', { lampEnabled: 1 }],
  ['a selector position that does not exist', { selector: 'both' }],
];
