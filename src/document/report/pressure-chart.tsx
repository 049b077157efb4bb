/**
 * Pressure over the part of the job in which the chamber was worked: measured line, stepped
 * set-point, local atmosphere, and shaded stretches that name each part. The left axis is absolute,
 * the right one gauge. `stretches.tsx` decides which stretches there are.
 */
import type { Snapshot } from '../../core/events.ts';
import { partOf } from '../../core/phases.ts';
import { filled } from '../../core/phrases.ts';
import type { Tongue } from '../../core/sayings.ts';
import { kPaFromPa } from '../../core/units.ts';
import type { ReportData } from '../../report/report-data.ts';
import type { PhaseRow } from '../../report/timeline.ts';
import { kPaAbs } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';
import {
  type Band,
  Chart,
  type Drawn,
  figureOf,
  INK,
  LEFT,
  minutesScale,
  type Point,
  PRESSURE_INK,
  QUIET_INK,
  RIGHT,
  type Scale,
  SET_POINT_INK,
  TimeAxis,
  tracePath,
  ValueAxis,
  yScale,
} from './chart-frame.tsx';
import { LETTER_WIDTH, Stretches, sectionsOf, stretchesOf } from './stretches.tsx';

const HEIGHT = 346;
/** Time shown after the last phase, so that a stop under pressure shows its venting. */
const AFTER_S = 10;
const BAND: Band = { top: 52, bottom: 300 };

interface PressureChartData {
  readonly data: ReportData;
  readonly snapshots: readonly Snapshot[];
  readonly words: PaperWords;
}

/** The chamber is worked in these. */
const WORKED_PARTS: readonly string[] = ['seal', 'cycles'];

export function pressureChart({ data, snapshots, words }: PressureChartData): Block {
  const { pressureChart: texts } = words.report;
  const worked = data.phases.filter(({ phase }) => WORKED_PARTS.includes(partOf(phase)));
  const fromS = worked[0]?.fromS;
  const endS = worked.at(-1)?.toS;
  if (fromS === undefined || endS === undefined) return { kind: 'paragraph', text: texts.none };
  const toS = Math.min(endS + AFTER_S, data.lastsS);
  const letters = [texts.seal, texts.vacuum, texts.pressed].map((names) => names.at(-1)).join(', ');
  const drawn = {
    id: 'pressure',
    title: texts.title,
    description: descriptionOf(data, words),
    caption: filled(texts.caption, { letters }),
  };
  const props = { drawn, data, snapshots, words, worked, fromS, toS };
  return figureOf(drawn, <PressureChart {...props} />);
}

interface PressureChartProps extends PressureChartData {
  readonly drawn: Drawn;
  readonly worked: readonly PhaseRow[];
  readonly fromS: number;
  readonly toS: number;
}

function PressureChart(props: PressureChartProps) {
  const { drawn, data, snapshots, words, worked, fromS, toS } = props;
  const { pressureChart: texts } = words.report;
  const { figure } = words.tongue;
  const shown = snapshots.filter(({ timeS }) => timeS >= fromS && timeS <= toS);
  const x = minutesScale(fromS, toS);
  const highestKPa = Math.max(120, ...shown.map((s) => kPaFromPa(s.pressurePa ?? 0)));
  const y = yScale(0, highestKPa * 1.06, BAND);
  const kPa = (pick: (snapshot: Snapshot) => number | null): readonly Point[] =>
    shown.map((snapshot) => {
      const pa = pick(snapshot);
      return { x: snapshot.timeS / 60, y: pa === null ? null : kPaFromPa(pa) };
    });
  return (
    <Chart id={drawn.id} title={drawn.title} description={drawn.description} height={HEIGHT}>
      <Stretches stretches={stretchesOf(worked, words)} x={x} band={BAND} nameY={44} />
      <Stretches stretches={sectionsOf(worked, words)} x={x} band={BAND} nameY={24} />
      <Held data={data} x={x} fromS={fromS} toS={toS} name={texts.held} />
      <ValueAxis y={y} band={BAND} label={texts.absolute} side="left" figure={figure} />
      <GaugeAxis data={data} y={y} label={texts.gauge} figure={figure} />
      <TimeAxis x={x} band={BAND} label={texts.minutes} figure={figure} />
      <path
        d={tracePath(
          kPa((s) => s.pressurePa),
          x,
          y,
        )}
        fill="none"
        stroke={PRESSURE_INK}
        stroke-width="2.2"
        stroke-linejoin="round"
      />
      <path
        d={tracePath(
          kPa((s) => s.setPointPa),
          x,
          y,
          true,
        )}
        fill="none"
        stroke={SET_POINT_INK}
        stroke-width="1.6"
        stroke-dasharray="7 4"
      />
    </Chart>
  );
}

/** The job's gauge zero as a line, and the gauge axis that starts from it. */
function GaugeAxis({
  data: { atmospherePa },
  y,
  label,
  figure,
}: {
  readonly data: ReportData;
  readonly y: Scale;
  readonly label: string;
  readonly figure: Tongue['figure'];
}) {
  if (atmospherePa === null) return null;
  const zeroKPa = kPaFromPa(atmospherePa);
  const [lowest = 0, highest = 0] = y.domain();
  const gauge = yScale(lowest - zeroKPa, highest - zeroKPa, BAND);
  return (
    <g>
      <line
        x1={LEFT}
        x2={RIGHT}
        y1={y(zeroKPa)}
        y2={y(zeroKPa)}
        stroke={INK}
        stroke-width="1.2"
        stroke-dasharray="1.5 3.5"
      />
      <ValueAxis y={gauge} band={BAND} label={label} side="right" ink={QUIET_INK} figure={figure} />
    </g>
  );
}

interface HeldProps {
  readonly data: ReportData;
  readonly x: Scale;
  readonly fromS: number;
  readonly toS: number;
  readonly name: string;
}

function Held({ data: { holds }, x, fromS, toS, name }: HeldProps) {
  return (
    <g fill={INK}>
      {holds
        .filter((hold) => hold.toS > fromS && hold.fromS < toS)
        .map((hold) => {
          const left = x(Math.max(hold.fromS, fromS) / 60);
          const width = x(Math.min(hold.toS, toS) / 60) - left;
          return (
            <g key={hold.fromS}>
              <rect
                x={left}
                y={BAND.top}
                width={width}
                height={BAND.bottom - BAND.top}
                fill="#e6e6e6"
              />
              {width > name.length * LETTER_WIDTH + 6 && (
                <text x={left + width / 2} y={BAND.bottom - 8} text-anchor="middle">
                  {name}
                </text>
              )}
            </g>
          );
        })}
    </g>
  );
}

function descriptionOf(
  { cycles, atmospherePa }: ReportData,
  { report: { pressureChart: texts }, tongue }: PaperWords,
): string {
  const written = cycles.map(({ cycle, lowestPa, highestPa }) => {
    const [low, high] = [lowestPa, highestPa].map((pa) =>
      pa === null ? texts.unknown : tongue.figure(kPaAbs(pa)),
    ) as [string, string];
    return filled(texts.cycle, { cycle: String(cycle), low, high });
  });
  const zero =
    atmospherePa === null
      ? []
      : [filled(texts.zero, { pressure: tongue.figure(kPaAbs(atmospherePa)) })];
  return [...zero, ...written, texts.lines].join(' ');
}
