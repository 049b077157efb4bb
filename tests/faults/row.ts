/** One row of the campaign: a single fault of one unit, as it is put into a sound job. */
import type { FaultKind } from '../../sim/faults/fault-kinds.ts';
import type { Fault } from '../../sim/faults/faults.ts';
import type { Channel } from '../../src/core/frame.ts';
import type { PhaseId } from '../../src/core/phases.ts';

export type Place = 'pressure' | 'light' | 'heat' | 'air' | 'lamp' | 'contacts' | 'people' | 'line';

/** A fault without its beginning, which the moment gives. */
export type Begun = Omit<Fault, 'from'> & {
  /** From power-up, whatever the moment; seconds after the moment otherwise. */
  readonly begins?: 'at-power-up' | { readonly afterS: number };
};

export interface Row {
  readonly id: string;
  readonly title: string;
  /** One, or several where only together they are the fault. */
  readonly faults: readonly Begun[];
  /** Phases of a job in which it begins; all of them where absent. */
  readonly phases?: readonly PhaseId[];
}

export const one = (kind: FaultKind, amount?: number, rest: Partial<Begun> = {}): Begun => ({
  kind,
  ...(amount === undefined ? {} : { amount }),
  ...rest,
});

export const ofSensor =
  (channel: Channel) =>
  (kind: FaultKind, amount?: number, rest: Partial<Begun> = {}): Begun => ({
    ...one(kind, amount, rest),
    channel,
  });

/** At power-up alone: one moment is enough. */
export const AT_START: readonly PhaseId[] = ['self-test'];

export const LIGHT_PHASES: readonly PhaseId[] = [
  'self-test',
  'pressure-dwell',
  'place-lamp-fill',
  'cure-fill',
  'uncover-fill',
  'cover-film',
  'place-lamp',
  'cure',
  'scrape',
];
/** The chamber is closed, or about to be. */
export const AIR_PHASES: readonly PhaseId[] = [
  'self-test',
  'close-seal',
  'connect-hose',
  'seal-pull',
  'seal-watch',
  'seal-press',
  'press-watch',
  'evacuate',
  'vacuum-dwell',
  'ask-bubbles',
  'release',
  'pressurise',
  'pressure-dwell',
  'vent',
  'ask-clear',
];
