/** The dose as a bar against its target, with its expanded uncertainty. */
import { filled } from '../../core/phrases.ts';
import type { DoseResult } from '../../report/claimed-dose.ts';
import { doseWords } from '../../report/words.ts';
import type { Block } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';
import { Chart, DOSE_INK, type Drawn, figureOf, INK, SET_POINT_INK } from './chart-frame.tsx';
import { doseTitle, idOf } from './field-text.ts';

const BAR_LEFT = 4;
const BAR_RIGHT = 396;

export function doseBar(dose: DoseResult, words: PaperWords): Block {
  const { doseJPerM2, targetJPerM2, verdict } = dose;
  const { doseChart: texts, doseVerdict } = words.report;
  const written = words.tongue.figure(doseWords(doseJPerM2));
  if (targetJPerM2 === null)
    return { kind: 'paragraph', text: filled(texts.noTarget, { dose: written }) };
  const drawn = {
    id: `dose-bar${idOf(dose)}`,
    title: filled(texts.barTitle, { dose: doseTitle(dose, words) }),
    description: filled(texts.barDescription, {
      dose: written,
      target: words.tongue.figure(doseWords(targetJPerM2)),
      verdict: doseVerdict[verdict],
    }),
  };
  return figureOf(drawn, <DoseBar {...{ drawn, dose, targetJPerM2, words }} />);
}

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
