import { describe, expect, it } from 'vitest';
import demoResin from '../../src/app/defaults/resin.json' with { type: 'json' };
import { resinSchema } from '../../src/intake/resin.ts';
import {
  RESIN_FAULTS,
  type ResinFault,
  type ResinUse,
  resinRemarks,
} from '../../src/intake/resin-suitability.ts';

/** Expires on the last day of 2000, opened twelve days before the work. */
const BOTTLE = { ...demoResin, demo: false, expiresOn: '2000-12-31', openedOn: '1999-12-20' };
const resin = resinSchema.parse(BOTTLE);
const USE: ResinUse = {
  today: '2000-01-01',
  board: 'real',
  use: 'fill',
  glassK: 296.15,
  wanted: { leastPaS: 0.01, mostPaS: 0.09 },
  viscosityPaS: 0.043,
  lampPeakNm: 365,
};
const faults = (file: object, use: object): readonly ResinFault[] =>
  resinRemarks(resinSchema.parse({ ...BOTTLE, ...file }), { ...USE, ...use }).map(
    ({ fault }) => fault,
  );

/** For each fault a bottle or job just inside and just outside. */
const CASES: Readonly<Record<ResinFault, { inside: [object, object]; outside: [object, object] }>> =
  {
    'demo-on-real-glass': { inside: [{}, {}], outside: [{ demo: true }, {}] },
    demo: {
      inside: [{ demo: true }, { board: 'simulated' }],
      outside: [{ demo: true }, { board: null }],
    },
    expired: {
      inside: [{ openedOn: null }, { today: '2000-12-31' }],
      outside: [{ openedOn: null }, { today: '2001-01-01' }],
    },
    'opened-too-long': {
      inside: [{ usableAfterOpeningDays: 12 }, {}],
      outside: [{ usableAfterOpeningDays: 11 }, {}],
    },
    'opened-in-future': {
      inside: [{ openedOn: '2000-01-01' }, {}],
      outside: [{ openedOn: '2000-01-02' }, {}],
    },
    'other-use': { inside: [{ use: 'fill' }, {}], outside: [{ use: 'pit' }, {}] },
    'glass-too-cold': { inside: [{}, { glassK: 285.15 }], outside: [{}, { glassK: 285.1 }] },
    'glass-too-hot': { inside: [{}, { glassK: 313.15 }], outside: [{}, { glassK: 313.2 }] },
    'too-thick': { inside: [{}, { viscosityPaS: 0.09 }], outside: [{}, { viscosityPaS: 0.0901 }] },
    'too-thin': { inside: [{}, { viscosityPaS: 0.01 }], outside: [{}, { viscosityPaS: 0.0099 }] },
    'other-light': {
      inside: [{ light: { fromNm: 365, toNm: 400 } }, {}],
      outside: [{ light: { fromNm: 366, toNm: 400 } }, {}],
    },
    'light-unstated': {
      inside: [{ light: { fromNm: 340, toNm: 365 } }, {}],
      outside: [{ light: null }, {}],
    },
  };

describe('a bottle of resin', () => {
  it.each(RESIN_FAULTS)('is told %s just outside the limit and not just inside', (fault) => {
    expect(faults(...CASES[fault].inside)).toEqual([]);
    expect(faults(...CASES[fault].outside)).toEqual([fault]);
  });

  it('says what it is and what it should be', () => {
    const [remark] = resinRemarks(resin, { ...USE, today: '2001-01-03', glassK: null });
    expect(remark?.words).toBe('expired on 2000-12-31, 3 days ago');
  });

  it('for other light is refused with both wavelengths', () => {
    const [remark] = resinRemarks(resin, { ...USE, lampPeakNm: 395 });
    expect(remark).toMatchObject({
      weight: 'refuse',
      words: 'set by light of 345 to 385 nm; this lamp peaks at 395 nm',
    });
  });

  it('that was invented is refused on a real board, and a copy of its file with real figures too until it says so', () => {
    const [remark] = resinRemarks(resinSchema.parse({ ...BOTTLE, demo: true }), USE);
    expect(remark).toMatchObject({ fault: 'demo-on-real-glass', weight: 'refuse' });
  });

  it('is refused for nothing that nobody measured', () => {
    expect(faults({}, { glassK: null, viscosityPaS: null })).toEqual([]);
  });
});
