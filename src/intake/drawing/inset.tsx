/**
 * The damage magnified in a square of its own: its type at a glance, its width as a dimension line,
 * and a scale bar.
 */
import { filled } from '../../core/phrases.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { DamageFigure, endsMm } from './damage-figure.tsx';
import type { Circle } from './distances.ts';
import { type DrawingWords, mmText } from './drawing-words.ts';
import type { Frame as PaneFrame } from './frame.ts';
import { Arrow, Frame, Ground, Line, Text } from './ink.tsx';
import type { Layout } from './layout.ts';
import type { Box } from './text-box.ts';
import type { TextLine } from './text-line.ts';

interface Props {
  readonly sheet: IntakeSheet;
  readonly layout: Pick<Layout, 'inset' | 'frame' | 'circle'>;
  readonly words: DrawingWords;
}

export function Inset({ sheet, layout: { inset, frame, circle }, words }: Props) {
  const { box, figureSide } = inset;
  const size = frame.paper.labelSize;
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 - 4 };
  const radiusMm = reachMm(sheet, circle);
  const known = radiusMm !== null;
  const unitsPerMm = known ? figureSide / (2 * radiusMm) : 1;
  const title = known ? titleOf(unitsPerMm, frame, words) : words.inset.damage;
  return (
    <g>
      <Frame box={box} width={1} fill="#ffffff" />
      <Text {...centred(title, box.y + 13, box, size)} bold />
      {known ? (
        <g>
          <DamageFigure
            damage={sheet.damage}
            at={middle}
            unitsPerMm={unitsPerMm}
            line={1.4}
            along={0}
          />
          <Width {...{ sheet, box, unitsPerMm, size, words }} />
        </g>
      ) : (
        <Text {...centred(words.inset.sizeNotKnown, middle.y, box, size)} />
      )}
    </g>
  );
}

const centred = (text: string, y: number, box: Box, size: number): TextLine => ({
  text,
  x: box.x + box.width / 2,
  y,
  size,
  anchor: 'middle',
});

/** Relative to the pane beside it, which stays true at whichever size both are printed. */
function titleOf(unitsPerMm: number, frame: PaneFrame, { inset, decimal }: DrawingWords): string {
  const ratio = unitsPerMm / frame.unitsPerMm;
  const round = (value: number): string =>
    String(value < 3 ? Math.round(value * 10) / 10 : Math.round(value)).replace('.', decimal);
  if (round(ratio) === '1') return inset.damage;
  return ratio > 1
    ? filled(inset.larger, { times: round(ratio) })
    : filled(inset.smaller, { times: round(1 / ratio) });
}

interface WidthProps {
  readonly sheet: IntakeSheet;
  readonly box: Box;
  readonly unitsPerMm: number;
  readonly size: number;
  readonly words: DrawingWords;
}

/** For a crack its length; an unknown width has no line. */
function Width({ sheet: { damage }, box, unitsPerMm, size, words }: WidthProps) {
  const mm = damage.type === 'crack' ? damage.longestLegMm : damage.diameterMm;
  if (mm === 'unknown') return null;
  const y = box.y + box.height - 14;
  const [leftMm, rightMm] = endsMm(damage);
  const middle = box.x + box.width / 2;
  const ends = [middle - leftMm * unitsPerMm, middle + rightMm * unitsPerMm] as const;
  const text = { ...centred(mmText(mm, words), y + 3, box, size), x: (ends[0] + ends[1]) / 2 };
  return (
    <g>
      {ends.map((x) => (
        <Line key={x} a={{ x, y: y - 14 }} b={{ x, y: y + 4 }} width={0.5} faint />
      ))}
      <Arrow a={{ x: ends[0], y }} b={{ x: ends[1], y }} />
      <Ground {...text} />
      <Text {...text} />
    </g>
  );
}

/** From the middle to the outermost point of the figure; null where no size is known. */
function reachMm({ damage }: IntakeSheet, circle: Circle | null): number | null {
  const reach = Math.max(circle?.radiusMm ?? 0, ...endsMm(damage));
  return reach > 0 ? reach : null;
}
