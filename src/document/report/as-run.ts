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

type Row = readonly [what: string, asked: string, given: string, reached: string];

export function asRunTable(data: ReportData): Block {
  const rows: readonly (Row | null)[] = [
    vacuumRow(data),
    dwellRow(data, 'vacuum', 'Vacuum dwell', (c) => c.vacuumHeldS),
    pressureRow(data),
    dwellRow(data, 'pressure', 'Pressure dwell', (c) => c.pressureHeldS),
  ];
  return {
    kind: 'table',
    wide: true,
    caption:
      'Asked: by the profile. Given: the controller’s set-point for the local atmosphere. Reached: one value a cycle, in order; vacuum dwells include the question about bubbles.',
    heads: ['Set-point', 'Asked', 'Given', 'Reached'],
    empty: 'The profile states no set-points that this report knows.',
    rows: rows.filter((row) => row !== null),
  };
}

function vacuumRow({ inputs, adapted, cycles }: ReportData): Row | null {
  const askedKPa = numberAt(inputs.profile, 'vacuum', 'setPointKPaAbs');
  if (askedKPa === null) return null;
  const changed = adapted.findLast(({ what }) => what === 'vacuum');
  return [
    'Vacuum',
    kPaAbs(paFromKPa(askedKPa)),
    kPaAbs(changed?.givenPa ?? paFromKPa(askedKPa)),
    reached(cycles, (c) => c.vacuumReachedPa, kPaAbs),
  ];
}

function pressureRow({ inputs, adapted, atmospherePa, cycles }: ReportData): Row | null {
  const askedKPa = numberAt(inputs.profile, 'pressure', 'setPointKPaGauge');
  if (askedKPa === null) return null;
  const gaugePa = paFromKPa(askedKPa);
  const changed = adapted.findLast(({ what }) => what === 'pressure');
  return [
    'Pressure',
    kPaGauge(gaugePa),
    atmospherePa === null ? 'not known' : kPaAbs(changed?.givenPa ?? atmospherePa + gaugePa),
    reached(cycles, (c) => c.pressureReachedPa, kPaAbs),
  ];
}

function dwellRow(
  { inputs, cycles }: ReportData,
  part: 'vacuum' | 'pressure',
  what: string,
  held: (cycle: CycleRow) => number,
): Row | null {
  const askedS = numberAt(inputs.profile, part, 'dwellS');
  if (askedS === null) return null;
  return [what, secondsWords(askedS), secondsWords(askedS), reached(cycles, held, secondsWords)];
}

const reached = (
  cycles: readonly CycleRow[],
  pick: (cycle: CycleRow) => number | null,
  write: (value: number) => string,
): string =>
  cycles
    .map((cycle) => {
      const value = pick(cycle);
      return value === null ? 'not reached' : write(value);
    })
    .join('; ') || 'no cycle was begun';
