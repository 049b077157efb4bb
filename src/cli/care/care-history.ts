/**
 * `meniscus care history`: all care on record for a unit, oldest first, one line each. Entries that
 * the demo unit ships with are marked, because the record does not hold them.
 */
import type { CareBody } from '../../care/care-entry.ts';
import { type CareRecord, happened } from '../../care/care-records.ts';
import { celsiusFromK, kPaFromPa, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import { wrapped } from '../terminal/text-columns.ts';

/** Day and entry number stand before the words. */
const WORDS_COLUMN = 18;

export function historyLines(care: readonly CareRecord[], today: string): readonly string[] {
  const records = happened(care, today);
  if (records.length === 0) return ['No care on record.'];
  return records.flatMap(({ seq, body }) => {
    const place = seq > 0 ? String(seq) : 'demo';
    const [first = '', ...rest] = wrapped(wordsOf(body), WORDS_COLUMN);
    return [`${body.on}  ${place.padStart(4)}  ${first.slice(WORDS_COLUMN)}`, ...rest];
  });
}

function wordsOf(body: CareBody): string {
  switch (body.what) {
    case 'calibration':
      return calibrationWords(body);
    case 'health': {
      const leak = `${body.sealLeakPaPerS.toFixed(1)} Pa/s`;
      const down = body.pumpDownS === null ? 'not reached' : `${body.pumpDownS.toFixed(2)} s`;
      const left = `${kPaFromPa(body.ultimatePa).toFixed(1)} kPa abs`;
      return `seal and pump ${passedWords(body.passed)}: leak ${leak}, pump-down ${down}, down to ${left}`;
    }
    case 'lamp': {
      const hours = body.lampOnH === null ? '' : ` after ${body.lampOnH.toFixed(1)} h of light`;
      return `lamp gave ${mWPerCm2FromWPerM2(body.irradianceWPerM2).toFixed(2)} mW/cm2${hours}`;
    }
    case 'service': {
      const films = body.count === null ? '' : `, ${body.count} films`;
      return `${body.service}${films}${body.note === '' ? '' : `: ${body.note}`}`;
    }
  }
}

const passedWords = (passed: boolean): string => (passed ? 'passed' : 'did not pass');

type Of<C> = Extract<CareBody, { what: 'calibration'; channel: C }>;

function calibrationWords(body: Of<'pressure'> | Of<'irradiance'> | Of<'temperature'>): string {
  const { channel, passed, validUntil, refusals, points, reference } = body;
  const worst = points.reduce(
    (most, point) => {
      const off = point.reference - point.reading;
      return Math.abs(off) > Math.abs(most.off) ? { off, at: point.reference } : most;
    },
    { off: 0, at: points[0]?.reference ?? 0 },
  );
  const correction = {
    pressure: `${signed(kPaFromPa(worst.off))} kPa at ${kPaFromPa(worst.at).toFixed(1)} kPa abs`,
    irradiance: `${signed((100 * worst.off) / (worst.at - worst.off))} % at ${mWPerCm2FromWPerM2(worst.at).toFixed(1)} mW/cm2`,
    temperature: `${signed(worst.off)} K at ${celsiusFromK(worst.at).toFixed(1)} C`,
  }[channel];
  const until = passed ? `, good until ${validUntil}` : `: ${refusals.join(' ')}`;
  return `${channel} calibration ${passedWords(passed)}, correction ${correction}, by ${reference.name} (${reference.certificate})${until}`;
}

const signed = (value: number): string => `${value < 0 ? '' : '+'}${value.toFixed(2)}`;
