/**
 * Reference instruments of a simulated bench: a gauge, a radiometer and a thermometer that show the
 * plant's true state with an error of their own, drawn once from their certificate, and rounded to
 * the resolution of their display. They know nothing of the unit's sensors.
 */
import type { Chance } from '../random.ts';

export interface StatedInstrument {
  /** From the certificate, in the unit of the quantity; a share of the reading for a radiometer. */
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
  readonly resolution: number;
}

export type ReferenceKind = 'gauge' | 'radiometer' | 'thermometer';

/** The true state at the instrument, SI; null where it measures nothing. */
export interface ReferenceTruth {
  readonly pressurePa: number;
  readonly irradianceWPerM2: number;
  readonly bathK: number | null;
}

export interface ReferenceInstrument {
  /** SI; null where there is nothing to measure. */
  readonly show: (truth: ReferenceTruth) => number | null;
}

export function createReferenceInstrument(
  kind: ReferenceKind,
  { expandedUncertainty, coverageFactor, resolution }: StatedInstrument,
  chance: Chance,
): ReferenceInstrument {
  const error = (expandedUncertainty / coverageFactor) * chance.gaussian();
  const rounded = (value: number): number => Math.round(value / resolution) * resolution;
  return {
    show: ({ pressurePa, irradianceWPerM2, bathK }) => {
      switch (kind) {
        case 'gauge':
          return rounded(pressurePa + error);
        case 'radiometer':
          return rounded(irradianceWPerM2 * (1 + error));
        case 'thermometer':
          // Kelvin and the display's degrees have different zeros, but steps of a hundredth fit
          // both.
          return bathK === null ? null : rounded(bathK + error);
      }
    },
  };
}
