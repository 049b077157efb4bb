import { expect, test } from 'vitest';
import type { Event } from '../../../src/core/events.ts';
import type { JobMeasurement } from '../../../src/core/measurements.ts';
import { eventSchema } from '../../../src/journal/line-schemas.ts';
import { adaptedRowsOf, sealTestRowsOf } from '../../../src/report/seal-rows.ts';

const measured = (timeS: number, name: JobMeasurement, value: number): Event => ({
  kind: 'measured',
  timeS,
  name,
  portion: null,
  value,
});

const ADAPTED: Event = {
  kind: 'adapted',
  timeS: 3,
  what: 'vacuum',
  askedPa: 25_000,
  givenPa: 40_400,
  why: 'this pump reaches 40.4 kPa abs in air of 101.0 kPa',
};
const EVENTS: readonly Event[] = [
  ADAPTED,
  measured(90, 'leakRatePaM3PerS', 0.0004),
  measured(90, 'leakRateUncertaintyPaM3PerS', 0.0001),
  measured(90, 'risePlateauPa', 2_750),
  { kind: 'seal-finding', timeS: 90, finding: 'moisture', why: 'Levels like water' },
  measured(170, 'leakRatePaM3PerS', 0.0005),
  measured(170, 'leakRateUncertaintyPaM3PerS', 0.00005),
  { kind: 'seal-finding', timeS: 170, finding: 'tight', why: 'The vacuum stays' },
  {
    kind: 'seal-finding',
    timeS: 300,
    finding: 'unclear',
    why: 'Too few readings',
    under: 'pressure',
  },
];

test('each seal test has its own figures, and none of another’s', () => {
  expect(sealTestRowsOf(EVENTS)).toEqual([
    {
      atS: 90,
      under: 'vacuum',
      finding: 'moisture',
      why: 'Levels like water',
      leakRatePaM3PerS: 0.0004,
      leakRateUncertaintyPaM3PerS: 0.0001,
      risePlateauPa: 2_750,
    },
    {
      atS: 170,
      under: 'vacuum',
      finding: 'tight',
      why: 'The vacuum stays',
      leakRatePaM3PerS: 0.0005,
      leakRateUncertaintyPaM3PerS: 0.00005,
      risePlateauPa: null,
    },
    {
      atS: 300,
      under: 'pressure',
      finding: 'unclear',
      why: 'Too few readings',
      leakRatePaM3PerS: null,
      leakRateUncertaintyPaM3PerS: null,
      risePlateauPa: null,
    },
  ]);
});

test('what was changed for the air is told: asked, given and why', () => {
  expect(adaptedRowsOf(EVENTS)).toEqual([
    {
      what: 'vacuum',
      askedPa: 25_000,
      givenPa: 40_400,
      why: 'this pump reaches 40.4 kPa abs in air of 101.0 kPa',
    },
  ]);
});

test('a journal takes both kinds of event as they are, and no other finding', () => {
  for (const event of EVENTS) expect(eventSchema.parse(event)).toEqual(event);
  const unknown = { kind: 'seal-finding', timeS: 1, finding: 'ghost', why: '' };
  expect(eventSchema.safeParse(unknown).success).toBe(false);
});
