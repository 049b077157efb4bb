/**
 * What goes with a job beside its settings when everything is in order: a sheet that was assessed, a
 * bottle in date, calibrations and care in force. A sound job then shows every claim.
 */

export const BOTTLE = {
  name: 'demo resin',
  lot: 'demo-lot-7',
  glass: { lowestC: 12, highestC: 40 },
  light: { fromNm: 345, toNm: 385 },
  expiresOn: '2000-12-31',
  openedOn: '2000-01-01',
  usableAfterOpeningDays: 31,
};

/** What goes with a job of 2000-01-20 when everything is in order. */
export const ABOUT = {
  day: '2000-01-20',
  resin: BOTTLE,
  pitResin: null,
  intake: {
    sheet: {
      lookedOn: '2000-01-20',
      damage: { moisture: 'dry' },
      conditions: { airKPa: 100.6 },
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
  care: [
    {
      item: 'cleaning',
      what: 'cleaning',
      state: 'done on 2000-01-18, due 2000-01-25',
      due: 'in-order',
    },
    {
      item: 'interlocks',
      what: 'stop and pressure switch',
      state: 'proved on 2000-01-02, due 2000-02-01',
      due: 'in-order',
    },
  ],
  overrides: [],
};
