/**
 * Draws the pane from an intake sheet and the chosen rule sets, seen from the driver's seat: edges,
 * zones, damage and distances. The full form is 180 mm wide on paper, the brief form 90 mm. The
 * files beside decide the positions; this file draws them. The SVG is self-contained and is put
 * into pages and PDF files unchanged.
 */
import { render } from 'preact-render-to-string';
import type { RuleSet } from '../rules/rule-set.ts';
import type { IntakeSheet } from '../sheet/intake-sheet.ts';
import { briefLayoutOf } from './brief-layout.ts';
import { ringPath } from './cut-path.ts';
import { DamageFigure, INK } from './damage-figure.tsx';
import type { DrawingWords } from './drawing-words.ts';
import { type Point, UNITS_PER_PAPER_MM } from './frame.ts';
import { Arrow, dashOf, Frame, Ground, Hatch, Line, Text } from './ink.tsx';
import { Inset } from './inset.tsx';
import { type Layout, layoutOf } from './layout.ts';
import { runsUpright } from './on-pane.ts';
import type { Box } from './text-box.ts';
import { textIn } from './text-line.ts';

const LAYOUTS = { whole: layoutOf, brief: briefLayoutOf } as const;

export function paneDrawing(
  sheet: IntakeSheet,
  ruleSets: readonly RuleSet[],
  words: DrawingWords,
  form: keyof typeof LAYOUTS = 'whole',
): string {
  const layout = LAYOUTS[form](sheet, ruleSets, words);
  return render(<Drawing sheet={sheet} layout={layout} words={words} />);
}

interface Props {
  readonly sheet: IntakeSheet;
  readonly layout: Layout;
}

function Drawing({ sheet, layout, words }: Props & { readonly words: DrawingWords }) {
  const { width } = layout.frame.paper;
  const height = Math.ceil(layout.height);
  return (
    <svg
      xmlns="http://www.w3.org/2000/svg"
      viewBox={`0 0 ${width} ${height}`}
      width={`${width / UNITS_PER_PAPER_MM}mm`}
      height={`${height / UNITS_PER_PAPER_MM}mm`}
      role="img"
      aria-label={words.label}
    >
      <Frame box={{ x: 0, y: 0, width, height }} fill="#ffffff" />
      <Areas layout={layout} />
      <PaneOutline layout={layout} />
      <CentreLines layout={layout} />
      <Distances layout={layout} />
      <Damage sheet={sheet} layout={layout} />
      <Words layout={layout} />
      <Inset sheet={sheet} layout={layout} words={words} />
    </svg>
  );
}

function Areas({ layout }: { readonly layout: Layout }) {
  const { hatched, shapes, samples } = layout;
  return (
    <g>
      {shapes.map(({ letter, box }, index) => (
        <g key={letter}>
          {hatched.includes(letter) && <Hatch box={box} index={hatched.indexOf(letter)} />}
          <Frame box={box} width={1.2} dash={dashOf(index)} />
        </g>
      ))}
      {samples.map(({ letter, box }, index) => (
        <g key={letter}>
          {hatched.includes(letter) && <Hatch box={box} index={hatched.indexOf(letter)} close />}
          <Frame box={box} width={1.2} dash={dashOf(index)} />
          <LetterBox
            letter={letter}
            box={{ ...box, y: box.y + 1.5, x: box.x + 11, width: 14, height: 11 }}
            bare
          />
        </g>
      ))}
    </g>
  );
}

interface LetterProps {
  readonly letter: string;
  readonly box: Box;
  readonly bare?: boolean;
}

function LetterBox({ letter, box, bare = false }: LetterProps) {
  return (
    <g>
      <Frame box={box} fill="#ffffff" width={bare ? 0 : 0.8} />
      <Text {...textIn(letter, box, 9.5)} bold />
    </g>
  );
}

/** A side in an unknown position is drawn broken. */
function PaneOutline({ layout: { frame, sizeLines } }: { readonly layout: Layout }) {
  const { x, y, width, height } = frame.box;
  const [right, bottom] = [x + width, y + height];
  const broken = '14 5';
  const side = (a: Point, b: Point, known: boolean) => (
    <Line a={a} b={b} width={2} {...(known ? {} : { dash: broken })} />
  );
  return (
    <g>
      {side({ x, y }, { x: right, y }, true)}
      {side({ x, y }, { x, y: bottom }, true)}
      {side({ x: right, y }, { x: right, y: bottom }, frame.widthKnown)}
      {side({ x, y: bottom }, { x: right, y: bottom }, frame.heightKnown)}
      {sizeLines !== null && frame.widthKnown && (
        <Arrow a={{ x, y: sizeLines.y }} b={{ x: right, y: sizeLines.y }} />
      )}
      {sizeLines !== null && frame.heightKnown && (
        <Arrow a={{ x: sizeLines.x, y }} b={{ x: sizeLines.x, y: bottom }} />
      )}
    </g>
  );
}

function CentreLines({ layout: { centreLines, frame } }: { readonly layout: Layout }) {
  const { y, height } = frame.box;
  return (
    <g>
      {centreLines.map(({ x, of }) => (
        <Line
          key={of}
          a={{ x, y: y - 4 }}
          b={{ x, y: y + height }}
          width={of === 'wheel' ? 1 : 0.6}
          dash={of === 'wheel' ? '12 3 2 3' : '4 3 1 3'}
        />
      ))}
    </g>
  );
}

function Distances({ layout: { dimensions, slants } }: { readonly layout: Layout }) {
  return (
    <g>
      {dimensions.map(({ distance, a, b, carriedFrom }) => (
        <g key={distance.label}>
          <Line a={carriedFrom[0]} b={a} width={0.5} faint />
          <Line a={carriedFrom[1]} b={b} width={0.5} faint />
          <Arrow a={a} b={b} />
        </g>
      ))}
      {slants.map(({ distance, a, b }) => (
        <Arrow key={distance.label} a={a} b={b} />
      ))}
    </g>
  );
}

function Damage({ sheet, layout }: Props) {
  const { frame, damageAt, finder, circle } = layout;
  if (damageAt === null) return null;
  const { type } = sheet.damage;
  const reach = type === 'crack' && circle !== null ? circle.radiusMm : null;
  return (
    <g>
      {reach === null && (
        <path d={ringPath(damageAt, finder, frame.box)} fill="#ffffff" stroke={INK} />
      )}
      {reach !== null && (
        <path
          d={ringPath(damageAt, reach * frame.unitsPerMm, frame.box)}
          fill="none"
          stroke={INK}
          stroke-dasharray="3 3"
        />
      )}
      <DamageFigure
        damage={sheet.damage}
        at={damageAt}
        unitsPerMm={frame.unitsPerMm}
        line={type === 'crack' ? 1.6 : 0.9}
        along={runsUpright(sheet) ? Math.PI / 2 : 0}
        within={frame.box}
      />
      {circle === null && <Cross at={damageAt} />}
    </g>
  );
}

/** Marks the place of damage of unknown size. */
function Cross({ at: { x, y } }: { readonly at: Point }) {
  return (
    <g>
      <Line a={{ x: x - 6, y: y - 6 }} b={{ x: x + 6, y: y + 6 }} />
      <Line a={{ x: x - 6, y: y + 6 }} b={{ x: x + 6, y: y - 6 }} />
    </g>
  );
}

function Words({ layout: { texts, letters } }: { readonly layout: Layout }) {
  return (
    <g>
      {texts.map((line) => (
        <Ground key={`${line.x} ${line.y}`} {...line} />
      ))}
      {letters.map(({ letter, box }) => (
        <LetterBox key={letter} letter={letter} box={box} />
      ))}
      {texts.map((line) => (
        <Text key={`${line.x} ${line.y}`} {...line} />
      ))}
    </g>
  );
}
