/**
 * What hands do at the bench when a step is confirmed: seal, hose, resin, pit, shield. The same for
 * the scripted technician and for a person at the keyboard, who can only press buttons.
 */
import type { Bench } from './plant/bench.ts';

export const HAND_WORK: Readonly<Record<string, Partial<Bench>>> = {
  '3.6': { sealed: true },
  '3.7': { charged: true },
  '3.8': { hoseOn: true },
  '4.3': { sealed: true },
  '4.4': { sealed: true },
  '4.6': { sealed: true },
  '6.1': { filmOn: true, injectorOff: true, sealed: false, hoseOn: false },
  '6.2': { shieldClosed: true },
  '6.4': { shieldClosed: false, filmOn: false },
  '6.5': { pitFilled: true, injectorOff: true, sealed: false, hoseOn: false },
  '6.6': { filmOn: true },
  '6.7': { shieldClosed: true },
  '7.1': { shieldClosed: false, filmOn: false },
};

export function doHandWork(bench: Bench, step: string): void {
  Object.assign(bench, HAND_WORK[step]);
}
