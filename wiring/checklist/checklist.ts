/**
 * The bring-up checklist for a freshly wired unit, in order, channel by channel: from steps that
 * only read to steps that move and light. Safety switches come before anything is driven. It is
 * data; a command guides a person through it, and `checklist-page.ts` prints it.
 */
import type { Step } from './step.ts';
import { AIR_STEPS } from './steps-air.ts';
import { INPUT_STEPS } from './steps-inputs.ts';
import { LAMP_STEPS } from './steps-lamp.ts';
import { hostSilence, SWITCH_STEPS } from './steps-safety.ts';
import { SIGNAL_STEPS } from './steps-signals.ts';

export const CHECKLIST: readonly Step[] = [
  ...INPUT_STEPS,
  ...SWITCH_STEPS,
  ...SIGNAL_STEPS,
  ...AIR_STEPS,
  hostSilence,
  ...LAMP_STEPS,
];
