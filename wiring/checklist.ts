/**
 * The bring-up checklist: what to check on a freshly wired unit, in this order, channel by channel,
 * from what only looks to what moves and shines. Safety switches come before anything is driven. It
 * is data; a command walks a person through it, and `checklist-page.ts` prints it.
 */
import type { Step } from './checklist/step.ts';
import { AIR_STEPS } from './checklist/steps-air.ts';
import { INPUT_STEPS } from './checklist/steps-inputs.ts';
import { LAMP_STEPS } from './checklist/steps-lamp.ts';
import { hostSilence, SWITCH_STEPS } from './checklist/steps-safety.ts';
import { SIGNAL_STEPS } from './checklist/steps-signals.ts';

export const CHECKLIST: readonly Step[] = [
  ...INPUT_STEPS,
  ...SWITCH_STEPS,
  ...SIGNAL_STEPS,
  ...AIR_STEPS,
  hostSilence,
  ...LAMP_STEPS,
];
