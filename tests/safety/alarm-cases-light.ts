/** The cases of lamp and light, as in `alarm-cases.ts`. */
import { type AlarmCase, inCure, reads, sets, switched, YES_NO } from './alarm-cases.ts';

export const LIGHT_CASES: readonly AlarmCase[] = [
  {
    id: 'lamp-weak',
    armed: inCure,
    at: (context, s) => sets('cureNeedsS')(reads('irradianceWPerM2')(context, 100), s),
    justUnder: 599,
    justOver: 601,
  },
  {
    id: 'lamp-was-weak',
    armed: { phase: 'self-test' },
    at: sets('lampForecastS'),
    justUnder: 599,
    justOver: 601,
  },
  {
    id: 'lamp-no-light',
    armed: inCure,
    at: reads('irradianceWPerM2'),
    justUnder: 20.1,
    justOver: 19.9,
  },
  {
    id: 'light-too-bright',
    armed: inCure,
    at: (context, share) => sets('lightShareRatio')(reads('irradianceWPerM2')(context, 195), share),
    justUnder: 1.14,
    justOver: 1.16,
  },
  {
    id: 'light-too-dim',
    armed: inCure,
    at: (context, share) => sets('lightShareRatio')(reads('irradianceWPerM2')(context, 195), share),
    justUnder: 0.86,
    justOver: 0.84,
  },
  {
    id: 'light-unsteady',
    armed: inCure,
    at: (context, s) => sets('lightOddS')(reads('irradianceWPerM2')(context, 195), s),
    justUnder: 0.74,
    justOver: 0.76,
  },
  {
    id: 'light-gap-failed',
    armed: { phase: 'cure', lampOffForS: 1 },
    at: (context, bad) => ({ ...context, gapFailed: bad > 0 ? 'not-dark' : null }),
    ...YES_NO,
  },
  {
    id: 'light-shield-open',
    armed: { phase: 'scrape', lampOffForS: 5 },
    at: (context, valueSI) =>
      switched({ shieldClosed: false })(reads('irradianceWPerM2')(context, valueSI), 1),
    justUnder: 89.9,
    justOver: 90.1,
  },
  {
    id: 'light-not-dark',
    armed: { phase: 'cure', lampOffForS: 3.2, darkLookS: 3.2 },
    at: reads('irradianceWPerM2'),
    justUnder: 2.9,
    justOver: 3.1,
  },
  {
    id: 'light-lamp-off',
    armed: { phase: 'scrape', lampOffForS: 5 },
    at: reads('irradianceWPerM2'),
    justUnder: 29.9,
    justOver: 30.1,
  },
];
