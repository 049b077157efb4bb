/**
 * Whether a bottle of resin suits a job, row by row: each row states the objection and whether a
 * person may override it by name. The composition root decides on the override and records it.
 */

import { daysFrom } from '../core/calendar.ts';
import { isExpired, isOpenedTooLong } from '../core/shelf-life.ts';
import { celsiusFromK } from '../core/units.ts';
import type { Resin } from './resin.ts';

export interface ResinUse {
  /** The day of the work, YYYY-MM-DD. */
  readonly today: string;
  /** Null where it is not yet known: the advice must hold for both. */
  readonly board: 'real' | 'simulated' | null;
  /** What the resin is to fill. */
  readonly use: 'fill' | 'pit';
  /** Null where it was not measured. */
  readonly glassK: number | null;
  /** Viscosity that this damage needs at the glass temperature, Pa s; null where it needs none. */
  readonly wanted: { readonly leastPaS: number; readonly mostPaS: number } | null;
  readonly viscosityPaS: number | null;
  /** Peak of the unit's lamp, nm. */
  readonly lampPeakNm: number;
}

export const RESIN_FAULTS = [
  'demo-on-real-glass',
  'demo',
  'expired',
  'opened-too-long',
  'opened-in-future',
  'other-use',
  'glass-too-cold',
  'glass-too-hot',
  'too-thick',
  'too-thin',
  'other-light',
  'light-unstated',
] as const;
export type ResinFault = (typeof RESIN_FAULTS)[number];

export interface ResinRemark {
  readonly fault: ResinFault;
  /** `refuse` needs a named override; `note` only informs. */
  readonly weight: 'refuse' | 'note';
  readonly words: string;
}

interface Row {
  readonly fault: ResinFault;
  readonly weight: ResinRemark['weight'];
  readonly words: (resin: Resin, use: ResinUse) => string | null;
}

const daysWords = (days: number): string => `${days} ${days === 1 ? 'day' : 'days'}`;
const celsius = (k: number): string => `${celsiusFromK(k).toFixed(0)} C`;
const milli = (paS: number): string => `${(paS * 1000).toFixed(0)} mPa s`;

const ROWS: readonly Row[] = [
  {
    fault: 'demo-on-real-glass',
    weight: 'refuse',
    words: ({ demo }, { board }) =>
      demo && board === 'real' ? 'an invented demo bottle, not for a real board' : null,
  },
  {
    fault: 'demo',
    weight: 'note',
    words: ({ demo }, { board }) =>
      demo && board === null ? 'an invented demo bottle, for the simulated board only' : null,
  },
  {
    fault: 'expired',
    weight: 'refuse',
    words: (resin, { today }) =>
      isExpired(resin, today)
        ? `expired on ${resin.expiresOn}, ${daysWords(daysFrom(resin.expiresOn, today))} ago`
        : null,
  },
  {
    fault: 'opened-too-long',
    weight: 'refuse',
    words: (resin, { today }) =>
      resin.openedOn !== null && isOpenedTooLong(resin, today)
        ? `opened on ${resin.openedOn}, ${daysWords(daysFrom(resin.openedOn, today))} ago; usable for ${daysWords(resin.usableAfterOpeningDays)}`
        : null,
  },
  {
    fault: 'opened-in-future',
    weight: 'refuse',
    words: ({ openedOn }, { today }) =>
      openedOn !== null && openedOn > today ? `opened on ${openedOn}, which is after today` : null,
  },
  {
    fault: 'other-use',
    weight: 'refuse',
    words: (resin, { use }) =>
      resin.use === use ? null : `made for the ${resin.use}, not for the ${use}`,
  },
  {
    fault: 'glass-too-cold',
    weight: 'refuse',
    words: ({ glass }, { glassK }) =>
      glassK !== null && glassK < glass.lowestK
        ? `glass is ${celsius(glassK)}; this resin needs ${celsius(glass.lowestK)} or more`
        : null,
  },
  {
    fault: 'glass-too-hot',
    weight: 'refuse',
    words: ({ glass }, { glassK }) =>
      glassK !== null && glassK > glass.highestK
        ? `glass is ${celsius(glassK)}; this resin allows ${celsius(glass.highestK)} at most`
        : null,
  },
  {
    fault: 'too-thick',
    weight: 'refuse',
    words: (_, { wanted, viscosityPaS }) =>
      wanted !== null && viscosityPaS !== null && viscosityPaS > wanted.mostPaS
        ? `${milli(viscosityPaS)} on this glass; this damage needs ${milli(wanted.mostPaS)} at most`
        : null,
  },
  {
    fault: 'too-thin',
    weight: 'note',
    words: (_, { wanted, viscosityPaS }) =>
      wanted !== null && viscosityPaS !== null && viscosityPaS < wanted.leastPaS
        ? `${milli(viscosityPaS)} on this glass is thinner than the usual ${milli(wanted.leastPaS)}; watch for creep under the seal`
        : null,
  },
  {
    fault: 'other-light',
    weight: 'refuse',
    words: ({ light }, { lampPeakNm }) =>
      light !== null && (lampPeakNm < light.fromNm || lampPeakNm > light.toNm)
        ? `set by light of ${light.fromNm} to ${light.toNm} nm; this lamp peaks at ${lampPeakNm} nm`
        : null,
  },
  {
    fault: 'light-unstated',
    weight: 'note',
    words: ({ light }, { lampPeakNm }) =>
      light === null
        ? `its file does not say which light sets it (light.fromNm, light.toNm); this lamp peaks at ${lampPeakNm} nm`
        : null,
  },
];

export function resinRemarks(resin: Resin, use: ResinUse): readonly ResinRemark[] {
  return ROWS.flatMap(({ fault, weight, words }) => {
    const said = words(resin, use);
    return said === null ? [] : [{ fault, weight, words: said }];
  });
}

export const isRefused = (remarks: readonly ResinRemark[]): boolean =>
  remarks.some(({ weight }) => weight === 'refuse');
