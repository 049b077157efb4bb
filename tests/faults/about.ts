/**
 * What goes with the jobs of the campaign beside their settings, all in order: a sheet that was
 * assessed, bottles in date, calibrations and care in force. So a sound job shows every claim, and
 * one that is left open was left open for the fault.
 */
import { ATMOSPHERE_PA } from './jobs.ts';

export const DAY = '2000-01-20';

const BOTTLE = {
  name: 'demo resin',
  lot: 'demo-lot-7',
  glass: { lowestC: 12, highestC: 40 },
  light: { fromNm: 345, toNm: 385 },
  expiresOn: '2000-12-31',
  openedOn: '2000-01-01',
  usableAfterOpeningDays: 31,
};

const CLEANED = {
  item: 'cleaning',
  what: 'cleaning',
  state: 'done on 2000-01-18',
  due: 'in-order',
};
const PROVED = {
  item: 'interlocks',
  what: 'stop and pressure switch',
  state: 'proved on 2000-01-02, due 2000-02-01',
  due: 'in-order',
};

/**
 * `proved`: the proof of stop and over-pressure switch is in force. It cannot be where a contact of
 * either was shorted before it.
 */
export const aboutJob = (proved: boolean): unknown => ({
  day: DAY,
  resin: BOTTLE,
  pitResin: BOTTLE,
  intake: {
    sheet: {
      lookedOn: DAY,
      damage: { moisture: 'dry' },
      conditions: { airKPa: ATMOSPHERE_PA / 1000 },
    },
    assessment: {
      answer: 'allowed',
      ruleSets: [{ name: 'Demo rules', edition: 'edition of 1999' }],
      reasons: [],
      technical: { answer: 'can', reasons: [] },
    },
  },
  calibrations: ['pressure', 'irradiance', 'temperature'].map((channel) => ({
    channel,
    on: '1999-12-01',
    due: '2000-12-01',
  })),
  care: proved ? [CLEANED, PROVED] : [CLEANED],
  overrides: [],
});
