/**
 * Shaded stretches that name what was done when: seal check, vacuum, pressure, with brackets for
 * the cycles. Neighbouring phases that do the same thing form one stretch. A stretch that is too
 * narrow for its name gets a shorter one or none, so that names never collide.
 */

import { filled } from '../../core/phrases.ts';
import type { PhaseRow } from '../../report/timeline.ts';
import type { PaperWords } from '../paper-words.ts';
import { type Band, INK, QUIET_INK, type Scale } from './chart-frame.tsx';

/** Generous for the charts' text size. */
export const LETTER_WIDTH = 6.4;

interface Stretch {
  readonly names: readonly string[];
  readonly fromS: number;
  readonly toS: number;
  readonly fill: string | null;
}

interface StretchesProps {
  readonly stretches: readonly Stretch[];
  readonly x: Scale;
  readonly band: Band;
  readonly nameY: number;
}

export function Stretches({ stretches, x, band, nameY }: StretchesProps) {
  return (
    <g fill={INK}>
      {stretches.map(({ names, fromS, toS, fill }) => {
        const left = x(fromS / 60);
        const width = Math.max(0, x(toS / 60) - left);
        const name = names.find((words) => words.length * LETTER_WIDTH + 6 <= width);
        return (
          <g key={fromS}>
            {fill === null ? (
              <line
                x1={left + 1}
                x2={left + width - 1}
                y1={nameY + 5}
                y2={nameY + 5}
                stroke={QUIET_INK}
              />
            ) : (
              <rect
                x={left}
                y={band.top}
                width={width}
                height={band.bottom - band.top}
                fill={fill}
              />
            )}
            {name !== undefined && (
              <text x={left + width / 2} y={nameY} text-anchor="middle">
                {name}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

const STRETCH_NAMES: Readonly<Partial<Record<PhaseRow['phase'], 'seal' | 'vacuum' | 'pressure'>>> =
  {
    'seal-pull': 'seal',
    'seal-watch': 'seal',
    'long-pull': 'seal',
    'seal-press': 'seal',
    'press-watch': 'seal',
    evacuate: 'vacuum',
    'vacuum-dwell': 'vacuum',
    'ask-bubbles': 'vacuum',
    pressurise: 'pressure',
    'pressure-dwell': 'pressure',
  };
const STRETCH_FILLS = { seal: '#eef0f2', vacuum: '#e2eef5', pressure: '#f9ece0' } as const;
const STRETCH_WORDS = { seal: 'seal', vacuum: 'vacuum', pressure: 'pressed' } as const;

/** Joins neighbouring phases that do the same thing into one shaded stretch. */
export function stretchesOf(
  rows: readonly PhaseRow[],
  { report: { pressureChart } }: PaperWords,
): readonly Stretch[] {
  return grouped(rows, ({ phase, cycle }) =>
    STRETCH_NAMES[phase] === undefined ? null : `${STRETCH_NAMES[phase]} ${cycle}`,
  ).map(({ first, toS }) => {
    const done = STRETCH_NAMES[first.phase] ?? 'seal';
    const names = pressureChart[STRETCH_WORDS[done]];
    return { names, fill: STRETCH_FILLS[done], fromS: first.fromS, toS };
  });
}

/** The cycles as brackets over the stretches. */
export function sectionsOf(
  rows: readonly PhaseRow[],
  { report: { pressureChart } }: PaperWords,
): readonly Stretch[] {
  return grouped(rows, ({ cycle }) => (cycle === 0 ? null : String(cycle))).map(
    ({ first: { cycle, fromS }, toS }) => ({
      names: [filled(pressureChart.cycleBracket, { number: String(cycle) }), `${cycle}`],
      fromS,
      toS,
      fill: null,
    }),
  );
}

function grouped(rows: readonly PhaseRow[], keyOf: (row: PhaseRow) => string | null) {
  const groups: { key: string; first: PhaseRow; toS: number }[] = [];
  let open = false;
  for (const row of rows) {
    const key = keyOf(row);
    const last = groups.at(-1);
    if (key === null) open = false;
    else if (open && last?.key === key) last.toS = row.toS;
    else {
      groups.push({ key, first: row, toS: row.toS });
      open = true;
    }
  }
  return groups;
}
