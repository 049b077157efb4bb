/**
 * Draws the unit's panel for a terminal: the display in its frame, the status lamp, live bars for
 * pressure and dose, and the look of the simulated break. A pure function from values to lines;
 * `live-panel.ts` decides when and where they appear.
 */
import picocolors from 'picocolors';
import type { JobWords, PanelWords } from '../../app/prepare/terminal-words.ts';
import type { Snapshot } from '../../core/events.ts';
import type { Signals, StatusColour } from '../../core/frame.ts';
import { filled } from '../../core/phrases.ts';
import {
  celsiusFromK,
  kPaFromPa,
  mJPerCm2FromJPerM2,
  mWPerCm2FromWPerM2,
} from '../../core/units.ts';

export interface PanelPicture {
  readonly title: string;
  readonly signals: Signals;
  readonly snapshot: Snapshot;
  /** Ends of the pressure bar, Pa absolute. */
  readonly lowestPa: number;
  readonly highestPa: number;
  /** The view through the glass; null on a real board, where it is not known. */
  readonly seen: string | null;
  readonly keys: string;
}

const BAR_CELLS = 30;
const LABEL_CELLS = 10;

export function drawPanel(picture: PanelPicture, words: JobWords, colour: boolean): string {
  const paint = picocolors.createColors(colour);
  const { signals, snapshot, seen } = picture;
  const { panel } = words.terminal;
  const { tongue } = words;
  const beside = [
    filled(panel.glass, { temperature: degrees(snapshot.glassK) }),
    filled(panel.lamp, {
      temperature: degrees(snapshot.heatSinkK),
      light: tongue.figure(light(snapshot.irradianceWPerM2)),
    }),
  ];
  const rows = [
    pressureBar(picture, words, paint),
    doseBar(snapshot, words, paint),
    ...(seen === null ? [] : [`${labelled(panel.labels.break)}${seen}`]),
  ];
  const { title, keys } = picture;
  return drawAround(signals, { title, beside, rows, keys }, panel, paint);
}

export type Paint = ReturnType<typeof picocolors.createColors>;

/** The unit's display in its frame, status lamp and buzzer, with the procedure's own lines. */
export function drawAround(
  { display, status, buzzer }: Signals,
  own: {
    readonly title: string;
    /** Beside the display, below status lamp and buzzer. */
    readonly beside: readonly string[];
    readonly rows: readonly string[];
    readonly keys: string;
  },
  panel: PanelWords,
  paint: Paint,
): string {
  const named = panel.status[status.colour];
  const told = status.flashing ? filled(panel.flashing, { status: named }) : named;
  const beside = [`${lamp(status.colour, paint)} ${told}`, panel.buzzer[buzzer], ...own.beside];
  const lines = [
    paint.bold(own.title),
    `  ┌${'─'.repeat(22)}┐`,
    ...display.map((line, row) => `  │ ${line} │  ${beside[row] ?? ''}`),
    `  └${'─'.repeat(22)}┘`,
    ...own.rows,
    paint.dim(`  ${own.keys}`),
  ];
  return `${lines.join('\n')}\n`;
}

function lamp(colour: StatusColour, paint: Paint): string {
  return colour === 'off' ? 'o' : paint[colour]('●');
}

const labelled = (label: string): string => `  ${label.padEnd(LABEL_CELLS)}`;

const degrees = (k: number | null): string =>
  k === null ? '--' : `${celsiusFromK(k).toFixed(0)} °C`;

const light = (wPerM2: number | null): string =>
  wPerM2 === null ? '-- mW/cm²' : `${mWPerCm2FromWPerM2(wPerM2).toFixed(1)} mW/cm²`;

/** A bar from vacuum to pressure, with marks for the atmosphere and the set-point. */
function pressureBar(
  picture: PanelPicture,
  { terminal: { panel }, tongue }: JobWords,
  paint: Paint,
): string {
  const { pressurePa, setPointPa, atmospherePa } = picture.snapshot;
  const cellOf = (pa: number): number => {
    const share = (pa - picture.lowestPa) / (picture.highestPa - picture.lowestPa);
    return Math.min(BAR_CELLS - 1, Math.max(0, Math.round(share * (BAR_CELLS - 1))));
  };
  const cells = Array.from({ length: BAR_CELLS }, () => paint.dim('·'));
  if (atmospherePa !== null && pressurePa !== null) {
    const [from, to] = [cellOf(atmospherePa), cellOf(pressurePa)].sort((a, b) => a - b);
    for (let cell = from ?? 0; cell <= (to ?? 0); cell++) cells[cell] = paint.cyan('━');
  }
  if (atmospherePa !== null) cells[cellOf(atmospherePa)] = '┼';
  if (setPointPa !== null) cells[cellOf(setPointPa)] = paint.yellow('◆');
  const reading =
    pressurePa === null
      ? panel.noReading
      : tongue.figure(`${kPaFromPa(pressurePa).toFixed(1)} kPa abs`);
  const setPoint =
    setPointPa === null ? '' : filled(panel.setPoint, { kPa: kPaFromPa(setPointPa).toFixed(0) });
  return `${labelled(panel.labels.pressure)}${cells.join('')} ${reading}${setPoint}`;
}

function doseBar(
  { doseJPerM2, targetJPerM2 }: Snapshot,
  { terminal: { panel }, tongue }: JobWords,
  paint: Paint,
): string {
  const full = Math.min(BAR_CELLS, Math.floor((doseJPerM2 / targetJPerM2) * BAR_CELLS));
  const bar = paint.magenta('█'.repeat(full)) + paint.dim('·'.repeat(BAR_CELLS - full));
  const joules = (jPerM2: number): string =>
    tongue.figure((mJPerCm2FromJPerM2(jPerM2) / 1000).toFixed(2));
  const dose = filled(panel.dose, { dose: joules(doseJPerM2), target: joules(targetJPerM2) });
  return `${labelled(panel.labels.dose)}${bar} ${dose}`;
}
