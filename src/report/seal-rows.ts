/**
 * Rows for the report about the seal check: its findings, and the set-points that the local
 * atmosphere changed. The figures of a test are recorded just before its finding; a finding without
 * figures had too few samples.
 */
import type { AdaptedSetPoint, Event, SealFinding } from '../core/events.ts';
import type { JobMeasurement } from '../core/measurements.ts';

export interface SealTestRow {
  readonly atS: number;
  /** Suction holds the foot down, pressure lifts it. */
  readonly under: 'vacuum' | 'pressure';
  readonly finding: SealFinding;
  readonly why: string;
  /** At the pressure difference of the test under vacuum. */
  readonly leakRatePaM3PerS: number | null;
  /** 95 %, from the scatter of the samples alone. */
  readonly leakRateUncertaintyPaM3PerS: number | null;
  /** Null where the rise did not level off. */
  readonly risePlateauPa: number | null;
}

export interface AdaptedRow {
  readonly what: AdaptedSetPoint;
  readonly askedPa: number;
  readonly givenPa: number;
  readonly why: string;
}

export const sealTestRowsOf = (events: readonly Event[]): readonly SealTestRow[] =>
  events.flatMap((event) => {
    if (event.kind !== 'seal-finding') return [];
    const { timeS: atS, finding, why, under = 'vacuum' } = event;
    const figure = (name: JobMeasurement): number | null => valueAt(events, name, atS);
    return [
      {
        atS,
        under,
        finding,
        why,
        leakRatePaM3PerS: figure('leakRatePaM3PerS'),
        leakRateUncertaintyPaM3PerS: figure('leakRateUncertaintyPaM3PerS'),
        risePlateauPa: figure('risePlateauPa'),
      },
    ];
  });

/** A test and its figures are recorded in the same tick. */
function valueAt(events: readonly Event[], name: JobMeasurement, atS: number): number | null {
  const found = events.find(
    (event) => event.kind === 'measured' && event.name === name && event.timeS === atS,
  );
  return found?.kind === 'measured' ? found.value : null;
}

export const adaptedRowsOf = (events: readonly Event[]): readonly AdaptedRow[] =>
  events.flatMap((event) => {
    if (event.kind !== 'adapted') return [];
    const { what, askedPa, givenPa, why } = event;
    return [{ what, askedPa, givenPa, why }];
  });
