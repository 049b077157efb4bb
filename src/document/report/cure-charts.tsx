/**
 * Charts of light and temperature: the dose as a bar against its target, dose and irradiance during
 * the cure, and the glass temperature over the job with the profile's limits.
 */
import type { VNode } from 'preact';
import { render } from 'preact-render-to-string';
import type { Snapshot } from '../../core/events.ts';
import { filled } from '../../core/phrases.ts';
import { celsiusFromK, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import type { ReportData } from '../../report/report-data.ts';
import { celsiusWords, doseWords, joulesPerCm2 } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';
import {
  type Band,
  Chart,
  DOSE_INK,
  GLASS_INK,
  INK,
  LEFT,
  LIGHT_INK,
  minutesScale,
  type Point,
  RIGHT,
  type Scale,
  SET_POINT_INK,
  TimeAxis,
  tracePath,
  ValueAxis,
  yScale,
} from './chart-frame.tsx';
import { doseTitle } from './field-text.ts';

interface ChartData {
  readonly data: ReportData;
  readonly snapshots: readonly Snapshot[];
  readonly words: PaperWords;
}

const paragraph = (text: string): Block => ({ kind: 'paragraph', text });

interface Drawn {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly caption?: string;
}

const figure = (drawn: Drawn, chart: VNode): Block => ({
  kind: 'figure',
  ...drawn,
  svg: render(chart),
});

const BAR_LEFT = 4;
const BAR_RIGHT = 396;

export function doseBar(dose: DoseResult, words: PaperWords): Block {
  const { doseJPerM2, targetJPerM2, verdict } = dose;
  const { doseChart: texts, doseVerdict } = words.report;
  const written = words.tongue.figure(doseWords(doseJPerM2));
  if (targetJPerM2 === null) return paragraph(filled(texts.noTarget, { dose: written }));
  const drawn = {
    id: `dose-bar${idOf(dose)}`,
    title: filled(texts.barTitle, { dose: doseTitle(dose, words) }),
    description: filled(texts.barDescription, {
      dose: written,
      target: words.tongue.figure(doseWords(targetJPerM2)),
      verdict: doseVerdict[verdict],
    }),
  };
  return figure(drawn, <DoseBar {...{ drawn, dose, targetJPerM2, words }} />);
}

/** A figure that is the only one of its kind keeps the plain name. */
const idOf = ({ portion }: DoseResult): string => (portion === 'fill and pit' ? '' : `-${portion}`);

interface DoseBarProps {
  readonly drawn: Drawn;
  readonly dose: DoseResult;
  readonly targetJPerM2: number;
  readonly words: PaperWords;
}

function DoseBar({ drawn, dose, targetJPerM2, words }: DoseBarProps) {
  const { doseChart: texts, doseVerdict } = words.report;
  const written = (jPerM2: number): string => words.tongue.figure(doseWords(jPerM2));
  const { doseJPerM2, verdict, uncertainty } = dose;
  const expandedJPerM2 = uncertainty?.expandedJPerM2 ?? 0;
  const full = Math.max(doseJPerM2 + expandedJPerM2, targetJPerM2) * 1.1;
  const at = (jPerM2: number): number => BAR_LEFT + ((BAR_RIGHT - BAR_LEFT) * jPerM2) / full;
  return (
    <Chart {...drawn} height={90} width={BAR_RIGHT + 4}>
      <rect
        x={BAR_LEFT}
        y="26"
        width={BAR_RIGHT - BAR_LEFT}
        height="22"
        fill="#f2f3f5"
        stroke={INK}
      />
      <rect x={BAR_LEFT} y="26" width={at(doseJPerM2) - BAR_LEFT} height="22" fill={DOSE_INK} />
      {expandedJPerM2 > 0 && (
        <Whisker from={at(doseJPerM2 - expandedJPerM2)} to={at(doseJPerM2 + expandedJPerM2)} />
      )}
      <line
        x1={at(targetJPerM2)}
        x2={at(targetJPerM2)}
        y1="20"
        y2="54"
        stroke={SET_POINT_INK}
        stroke-width="3"
      />
      <text {...placedNear(at(targetJPerM2))} y="15" fill={SET_POINT_INK} font-weight="600">
        {filled(texts.target, { dose: written(targetJPerM2) })}
      </text>
      <text x={BAR_LEFT} y="66" fill={INK} font-weight="600">
        {filled(expandedJPerM2 > 0 ? texts.measuredWithin : texts.measured, {
          dose: written(doseJPerM2),
          expanded: written(expandedJPerM2),
        })}
      </text>
      <text x={BAR_LEFT} y="82" fill={INK} font-weight="600">
        {filled(texts.share, {
          share: String(Math.floor((100 * doseJPerM2) / targetJPerM2)),
          verdict: doseVerdict[verdict],
        })}
      </text>
    </Chart>
  );
}

/** Half the width of the longest target label, with some margin. */
const HALF_LABEL = 64;

/** Centred over its line, or aligned with the end of the bar where it would leave the picture. */
function placedNear(x: number): { readonly x: number; readonly 'text-anchor': Anchor } {
  if (x < BAR_LEFT + HALF_LABEL) return { x: BAR_LEFT, 'text-anchor': 'start' };
  if (x > BAR_RIGHT - HALF_LABEL) return { x: BAR_RIGHT, 'text-anchor': 'end' };
  return { x, 'text-anchor': 'middle' };
}
type Anchor = 'start' | 'middle' | 'end';

interface WhiskerProps {
  readonly from: number;
  readonly to: number;
}

/** The expanded uncertainty on either side of the bar's end, with a light backing to stand out. */
function Whisker({ from, to }: WhiskerProps) {
  const d = `M${from} 31V43M${from} 37H${to}M${to} 31V43`;
  return (
    <>
      <path d={d} fill="none" stroke="#fff" stroke-width="3.5" />
      <path d={d} fill="none" stroke={INK} stroke-width="1.5" />
    </>
  );
}

const DOSE_BAND: Band = { top: 20, bottom: 196 };

function doseDrawn(dose: DoseResult, words: PaperWords): Drawn {
  const { title, description, caption } = words.report.doseChart;
  return {
    id: `dose${idOf(dose)}`,
    title: filled(title, { dose: doseTitle(dose, words) }),
    description,
    caption,
  };
}

/** The cure from its first light to its last, including lamp pauses. */
export function doseChart(dose: DoseResult, { data, snapshots, words }: ChartData): Block {
  const curing = dose.portion === 'fill' ? 'cure-fill' : 'cure';
  const cures = data.phases.filter(({ phase }) => phase === curing);
  const fromS = cures[0]?.fromS;
  const toS = cures.at(-1)?.toS;
  if (fromS === undefined || toS === undefined)
    return paragraph(filled(words.report.doseChart.notUsed, { dose: doseTitle(dose, words) }));
  const drawn = doseDrawn(dose, words);
  return figure(drawn, <DoseChart {...{ drawn, dose, snapshots, words, fromS, toS }} />);
}

interface DoseChartProps {
  readonly drawn: Drawn;
  readonly dose: DoseResult;
  readonly snapshots: readonly Snapshot[];
  readonly words: PaperWords;
  readonly fromS: number;
  readonly toS: number;
}

function DoseChart({ drawn, dose, snapshots, words, fromS, toS }: DoseChartProps) {
  const { doseChart: texts, pressureChart } = words.report;
  const targetText = words.tongue.figure(doseWords(dose.targetJPerM2 ?? 0));
  const shown = snapshots.filter(({ timeS }) => timeS >= fromS && timeS <= toS);
  const x = minutesScale(fromS, toS);
  const light = shown.map((s) => mWPerCm2FromWPerM2(s.irradianceWPerM2 ?? 0));
  const target = joulesPerCm2(dose.targetJPerM2 ?? 0);
  const most = Math.max(target, joulesPerCm2(dose.doseJPerM2), 0.1);
  const y = yScale(0, most * 1.12, DOSE_BAND);
  const yLight = yScale(0, Math.max(1, ...light) * 1.3, DOSE_BAND);
  return (
    <Chart {...drawn} height={244}>
      <ValueAxis y={y} band={DOSE_BAND} label={texts.axis} side="left" ink={DOSE_INK} />
      <ValueAxis
        y={yLight}
        band={DOSE_BAND}
        label="mW/cm²"
        side="right"
        ink={LIGHT_INK}
        count={5}
      />
      <TimeAxis x={x} band={DOSE_BAND} label={pressureChart.minutes} />
      <LevelLine value={target} y={y} words={filled(texts.target, { dose: targetText })} />
      <path
        d={tracePath(shown.map(lightAt), x, yLight)}
        fill="none"
        stroke={LIGHT_INK}
        stroke-dasharray="3 3"
      />
      <path
        d={tracePath(
          shown.map((s) => ({ x: s.timeS / 60, y: joulesPerCm2(s.doseJPerM2) })),
          x,
          y,
        )}
        fill="none"
        stroke={DOSE_INK}
        stroke-width="2.2"
      />
    </Chart>
  );
}

const lightAt = ({ timeS, irradianceWPerM2 }: Snapshot): Point => ({
  x: timeS / 60,
  y: irradianceWPerM2 === null ? null : mWPerCm2FromWPerM2(irradianceWPerM2),
});

interface LevelLineProps {
  readonly value: number;
  readonly y: Scale;
  readonly words: string;
}

function LevelLine({ value, y, words }: LevelLineProps) {
  return (
    <g>
      <line
        x1={LEFT}
        x2={RIGHT}
        y1={y(value)}
        y2={y(value)}
        stroke={SET_POINT_INK}
        stroke-width="2"
        stroke-dasharray="7 4"
      />
      <text x={LEFT + 6} y={y(value) - 5} fill={SET_POINT_INK}>
        {words}
      </text>
    </g>
  );
}

const GLASS_BAND: Band = { top: 20, bottom: 136 };

const glassDrawn = ({ report: { glassChart: texts } }: PaperWords): Drawn => ({
  id: 'glass',
  title: texts.title,
  description: texts.description,
});

export function glassChart(chart: ChartData): Block {
  const seen = chart.snapshots.some(({ glassK }) => glassK !== null);
  if (!seen) return paragraph(chart.words.report.glassChart.none);
  return figure(glassDrawn(chart.words), <GlassChart {...chart} />);
}

function GlassChart({ data, snapshots, words }: ChartData) {
  const { glassChart: texts, pressureChart } = words.report;
  const limits = data.limits.find(({ what }) => what === 'glass temperature');
  const seen = snapshots.flatMap(({ glassK }) => (glassK === null ? [] : [celsiusFromK(glassK)]));
  const bounds = [limits?.lowestAllowed, limits?.highestAllowed].flatMap((k) =>
    k === null || k === undefined ? [] : [k],
  );
  const all = [...bounds.map(celsiusFromK), ...seen];
  const lowest = all.reduce((a, b) => Math.min(a, b));
  const highest = all.reduce((a, b) => Math.max(a, b));
  const y = yScale(lowest - 4, highest + 6, GLASS_BAND);
  const x = minutesScale(snapshots[0]?.timeS ?? 0, snapshots.at(-1)?.timeS ?? 1);
  return (
    <Chart {...glassDrawn(words)} height={184}>
      <ValueAxis y={y} band={GLASS_BAND} label={texts.axis} side="left" ink={GLASS_INK} count={5} />
      <TimeAxis x={x} band={GLASS_BAND} label={pressureChart.minutes} />
      {bounds.map((k) => (
        <LevelLine
          key={k}
          value={celsiusFromK(k)}
          y={y}
          words={filled(texts.limit, { value: words.tongue.figure(celsiusWords(k)) })}
        />
      ))}
      <path
        d={tracePath(
          snapshots.map(({ timeS, glassK }) => ({
            x: timeS / 60,
            y: glassK === null ? null : celsiusFromK(glassK),
          })),
          x,
          y,
        )}
        fill="none"
        stroke={GLASS_INK}
        stroke-width="1.8"
      />
    </Chart>
  );
}
