/** When faults begin and end: at a time, some time after a step is first seen, or by their remedy. */
import type { SeenStep } from '../people/screen-reading.ts';
import type { Fault, Remedy } from './faults.ts';

export interface FaultClock {
  /** Faults that act now, with this step on the display. */
  readonly active: (timeS: number, step: SeenStep | null) => readonly Fault[];
  /** For how long a fault that acts now has acted, s. */
  readonly actedS: (fault: Fault, timeS: number) => number;
  /** Ends the faults that this remedy cures; true when there was one. */
  readonly mend: (remedies: readonly Remedy[]) => boolean;
}

const stepOf = (from: Exclude<Fault['from'], { atS: number }>): SeenStep =>
  'phase' in from ? from.phase : from.step;

export function createFaultClock(faults: readonly Fault[]): FaultClock {
  const began = new Map<Fault, number>();
  const mended = new Set<Fault>();
  let now: readonly Fault[] = [];
  return {
    active: (timeS, step) => {
      for (const fault of faults) {
        if (began.has(fault)) continue;
        if ('atS' in fault.from) began.set(fault, fault.from.atS);
        else if (stepOf(fault.from) === step) began.set(fault, timeS + fault.from.afterS);
      }
      now = faults.filter((fault) => {
        const from = began.get(fault);
        if (from === undefined || mended.has(fault) || timeS < from) return false;
        return fault.lastsS === undefined || timeS < from + fault.lastsS;
      });
      return now;
    },
    actedS: (fault, timeS) => timeS - (began.get(fault) ?? timeS),
    mend: (remedies) => {
      const ended = now.filter(
        ({ mendedBy }) => mendedBy !== undefined && remedies.includes(mendedBy),
      );
      for (const fault of ended) mended.add(fault);
      return ended.length > 0;
    },
  };
}
