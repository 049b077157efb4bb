/**
 * Light and warmth: the dose as a bar against its target, dose and irradiance over the cure, and the
 * temperature of the glass over the job with the profile's limits.
 */
import type { Snapshot } from '../events.ts';
import { celsiusFromK, mWPerCm2FromWPerM2 } from '../units.ts';
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
import type { ReportData } from './report-data.ts';
import { celsiusWords, doseWords, joulesPerCm2 } from './report-words.ts';

interface ChartData {
  readonly data: ReportData;
  readonly snapshots: readonly Snapshot[];
}

const BAR_LEFT = 4;
const BAR_RIGHT = 396;

export function DoseBar({ data: { dose } }: { readonly data: ReportData }) {
  const { doseJPerM2, targetJPerM2, verdict, uncertainty } = dose;
  const expandedJPerM2 = uncertainty?.expandedJPerM2 ?? 0;
  if (targetJPerM2 === null)
    return <p>Dose {doseWords(doseJPerM2)}; the profile states no target.</p>;
  const full = Math.max(doseJPerM2 + expandedJPerM2, targetJPerM2) * 1.1;
  const at = (jPerM2: number): number => BAR_LEFT + ((BAR_RIGHT - BAR_LEFT) * jPerM2) / full;
  return (
    <Chart
      id="dose-bar"
      title="Dose against its target"
      description={`Dose ${doseWords(doseJPerM2)}, target ${doseWords(targetJPerM2)}: ${verdict}.`}
      height={74}
      width={BAR_RIGHT + 4}
    >
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
      <text x={at(targetJPerM2)} y="15" text-anchor="middle" fill={SET_POINT_INK} font-weight="600">
        target {doseWords(targetJPerM2)}
      </text>
      <text x={BAR_LEFT} y="66" fill={INK} font-weight="600">
        measured {doseWords(doseJPerM2)}
        {expandedJPerM2 > 0 && ` ± ${doseWords(expandedJPerM2)}`},{' '}
        {Math.floor((100 * doseJPerM2) / targetJPerM2)} % of target: {verdict}
      </text>
    </Chart>
  );
}

interface WhiskerProps {
  readonly from: number;
  readonly to: number;
}

/** The expanded uncertainty on either side of the bar's end; light under it, to show on the bar. */
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

/** The cure from its first light to its last; lamp pauses are part of it. */
export function DoseChart({ data, snapshots }: ChartData) {
  const cures = data.phases.filter(({ phase }) => phase === 'cure');
  const fromS = cures[0]?.fromS;
  const toS = cures.at(-1)?.toS;
  if (fromS === undefined || toS === undefined) return <p>The lamp was not used in this job.</p>;
  const shown = snapshots.filter(({ timeS }) => timeS >= fromS && timeS <= toS);
  const x = minutesScale(fromS, toS);
  const light = shown.map((s) => mWPerCm2FromWPerM2(s.irradianceWPerM2 ?? 0));
  const target = joulesPerCm2(data.dose.targetJPerM2 ?? 0);
  const most = Math.max(target, joulesPerCm2(data.dose.doseJPerM2), 0.1);
  const y = yScale(0, most * 1.12, DOSE_BAND);
  const yLight = yScale(0, Math.max(1, ...light) * 1.3, DOSE_BAND);
  return (
    <Chart
      id="dose"
      title="Dose and irradiance during the cure"
      description="Solid line: dose, read on the left. Long dashes: target. Short dashes: irradiance, read on the right."
      height={244}
    >
      <ValueAxis y={y} band={DOSE_BAND} label="dose, J/cm²" side="left" ink={DOSE_INK} />
      <ValueAxis
        y={yLight}
        band={DOSE_BAND}
        label="mW/cm²"
        side="right"
        ink={LIGHT_INK}
        count={5}
      />
      <TimeAxis x={x} band={DOSE_BAND} />
      <LevelLine value={target} y={y} words={`target ${target.toFixed(2)} J/cm²`} />
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

export function GlassChart({ data, snapshots }: ChartData) {
  const limits = data.limits.find(({ what }) => what === 'glass temperature');
  const seen = snapshots.flatMap(({ glassK }) => (glassK === null ? [] : [celsiusFromK(glassK)]));
  if (seen.length === 0) return <p>No temperature of the glass was measured.</p>;
  const bounds = [limits?.lowestAllowed, limits?.highestAllowed].flatMap((k) =>
    k === null || k === undefined ? [] : [k],
  );
  const all = [...bounds.map(celsiusFromK), ...seen];
  const lowest = all.reduce((a, b) => Math.min(a, b));
  const highest = all.reduce((a, b) => Math.max(a, b));
  const y = yScale(lowest - 4, highest + 6, GLASS_BAND);
  const x = minutesScale(snapshots[0]?.timeS ?? 0, snapshots.at(-1)?.timeS ?? 1);
  return (
    <Chart
      id="glass"
      title="Temperature of the glass over the whole job"
      description="Solid line: measured. Dashed lines: limits of the profile."
      height={184}
    >
      <ValueAxis y={y} band={GLASS_BAND} label="glass, °C" side="left" ink={GLASS_INK} count={5} />
      <TimeAxis x={x} band={GLASS_BAND} />
      {bounds.map((k) => (
        <LevelLine key={k} value={celsiusFromK(k)} y={y} words={`limit ${celsiusWords(k)}`} />
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
