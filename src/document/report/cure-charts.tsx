/**
 * Charts of light and temperature: dose and irradiance during the cure, and the glass temperature
 * over the job with the profile's limits.
 */
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
  type Drawn,
  figureOf,
  GLASS_INK,
  LevelLine,
  LIGHT_INK,
  minutesScale,
  type Point,
  TimeAxis,
  tracePath,
  ValueAxis,
  yScale,
} from './chart-frame.tsx';
import { doseTitle, idOf } from './field-text.ts';

interface ChartData {
  readonly data: ReportData;
  readonly snapshots: readonly Snapshot[];
  readonly words: PaperWords;
}

const paragraph = (text: string): Block => ({ kind: 'paragraph', text });

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
  return figureOf(drawn, <DoseChart {...{ drawn, dose, snapshots, words, fromS, toS }} />);
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
  const { figure } = words.tongue;
  const targetText = figure(doseWords(dose.targetJPerM2 ?? 0));
  const shown = snapshots.filter(({ timeS }) => timeS >= fromS && timeS <= toS);
  const x = minutesScale(fromS, toS);
  const light = shown.map((s) => mWPerCm2FromWPerM2(s.irradianceWPerM2 ?? 0));
  const target = joulesPerCm2(dose.targetJPerM2 ?? 0);
  const most = Math.max(target, joulesPerCm2(dose.doseJPerM2), 0.1);
  const y = yScale(0, most * 1.12, DOSE_BAND);
  const yLight = yScale(0, Math.max(1, ...light) * 1.3, DOSE_BAND);
  return (
    <Chart {...drawn} height={244}>
      <ValueAxis
        y={y}
        band={DOSE_BAND}
        label={texts.axis}
        side="left"
        ink={DOSE_INK}
        figure={figure}
      />
      <ValueAxis
        y={yLight}
        band={DOSE_BAND}
        label="mW/cm²"
        side="right"
        ink={LIGHT_INK}
        count={5}
        figure={figure}
      />
      <TimeAxis x={x} band={DOSE_BAND} label={pressureChart.minutes} figure={figure} />
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

const GLASS_BAND: Band = { top: 20, bottom: 136 };

const glassDrawn = ({ report: { glassChart: texts } }: PaperWords): Drawn => ({
  id: 'glass',
  title: texts.title,
  description: texts.description,
});

export function glassChart(chart: ChartData): Block {
  const seen = chart.snapshots.some(({ glassK }) => glassK !== null);
  if (!seen) return paragraph(chart.words.report.glassChart.none);
  return figureOf(glassDrawn(chart.words), <GlassChart {...chart} />);
}

function GlassChart({ data, snapshots, words }: ChartData) {
  const { glassChart: texts, pressureChart } = words.report;
  const { figure } = words.tongue;
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
      <ValueAxis
        y={y}
        band={GLASS_BAND}
        label={texts.axis}
        side="left"
        ink={GLASS_INK}
        count={5}
        figure={figure}
      />
      <TimeAxis x={x} band={GLASS_BAND} label={pressureChart.minutes} figure={figure} />
      {bounds.map((k) => (
        <LevelLine
          key={k}
          value={celsiusFromK(k)}
          y={y}
          words={filled(texts.limit, { value: figure(celsiusWords(k)) })}
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
