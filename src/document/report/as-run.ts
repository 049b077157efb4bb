/**
 * The profile as run: each set-point and dwell as the profile asks for it, as this unit aimed for
 * it in the day's air, and as the cycles reached it. `seal.ts` gives the reasons for changed
 * set-points. A field that the profile does not state leaves its row out.
 */

import { numberAt } from '../../core/fields.ts';
import { paFromKPa } from '../../core/units.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { CycleRow } from '../../report/timeline.ts';
import { kPaAbs, kPaGauge, secondsWords } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';

type Row = readonly [what: string, asked: string, given: string, reached: string];

export function asRunTable(data: ReportData, words: PaperWords): Block {
  const { asRun, adapted } = words.report;
  const rows: readonly (Row | null)[] = [
    vacuumRow(data, words),
    dwellRow(data, 'vacuum', asRun.vacuumDwell, (c) => c.vacuumHeldS, words),
    pressureRow(data, words),
    dwellRow(data, 'pressure', asRun.pressureDwell, (c) => c.pressureHeldS, words),
  ];
  return {
    kind: 'table',
    wide: true,
    caption: asRun.about,
    heads: [asRun.setPoint, adapted.asked, adapted.given, asRun.reached],
    empty: asRun.none,
    rows: rows.filter((row) => row !== null),
  };
}

function vacuumRow({ inputs, adapted, cycles }: ReportData, words: PaperWords): Row | null {
  const askedKPa = numberAt(inputs.profile, 'vacuum', 'setPointKPaAbs');
  if (askedKPa === null) return null;
  const changed = adapted.findLast(({ what }) => what === 'vacuum');
  const { figure } = words.tongue;
  return [
    words.report.asRun.vacuum,
    figure(kPaAbs(paFromKPa(askedKPa))),
    figure(kPaAbs(changed?.givenPa ?? paFromKPa(askedKPa))),
    reached(cycles, (c) => c.vacuumReachedPa, kPaAbs, words),
  ];
}

function pressureRow(
  { inputs, adapted, atmospherePa, cycles }: ReportData,
  words: PaperWords,
): Row | null {
  const askedKPa = numberAt(inputs.profile, 'pressure', 'setPointKPaGauge');
  if (askedKPa === null) return null;
  const gaugePa = paFromKPa(askedKPa);
  const changed = adapted.findLast(({ what }) => what === 'pressure');
  const { figure } = words.tongue;
  return [
    words.report.asRun.pressure,
    figure(kPaGauge(gaugePa)),
    atmospherePa === null
      ? words.report.said.notKnown
      : figure(kPaAbs(changed?.givenPa ?? atmospherePa + gaugePa)),
    reached(cycles, (c) => c.pressureReachedPa, kPaAbs, words),
  ];
}

function dwellRow(
  { inputs, cycles }: ReportData,
  part: 'vacuum' | 'pressure',
  what: string,
  held: (cycle: CycleRow) => number,
  words: PaperWords,
): Row | null {
  const askedS = numberAt(inputs.profile, part, 'dwellS');
  if (askedS === null) return null;
  const asked = secondsWords(askedS);
  return [what, asked, asked, reached(cycles, held, secondsWords, words)];
}

function reached(
  cycles: readonly CycleRow[],
  pick: (cycle: CycleRow) => number | null,
  write: (value: number) => string,
  { report: { asRun }, tongue }: PaperWords,
): string {
  const values = cycles.map((cycle) => {
    const value = pick(cycle);
    return value === null ? asRun.notReached : tongue.figure(write(value));
  });
  return values.join('; ') || asRun.noCycle;
}
