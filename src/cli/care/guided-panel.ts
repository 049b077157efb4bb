/**
 * The panel's contents in a guided procedure: readings, the reference, and the number being typed;
 * without a terminal, one line for each event. It only displays.
 */
import picocolors from 'picocolors';
import type { JobWords, PanelWords } from '../../app/prepare/terminal-words.ts';
import type { Event } from '../../core/events.ts';
import type { Signals } from '../../core/frame.ts';
import { STEP_MARKS } from '../../core/guided-events.ts';
import { filled } from '../../core/phrases.ts';
import { celsiusFromK, kPaFromPa, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import type { Guided, GuidedConfig, GuidedSnapshot } from '../../procedure/guided/guided-state.ts';
import { QUANTITIES, writtenValue } from '../../procedure/guided/quantities.ts';
import type { Session } from '../run/session.ts';
import { eventLine } from '../terminal/event-lines.ts';
import { keysLine } from '../terminal/keys.ts';
import type { Showing } from '../terminal/live-panel.ts';
import { drawAround } from '../terminal/panel-drawing.ts';
import { QUANTITY_OF } from './guided-options.ts';

const LABEL_CELLS = 11;

export interface GuidedPicture {
  readonly title: string;
  readonly signals: Signals;
  readonly snapshot: GuidedSnapshot;
  /** Reading of a simulated reference, with its unit; null where a real one is used. */
  readonly reference: string | null;
  /** Null where there is no keyboard. */
  readonly typed: string | null;
  readonly keys: string;
}

export const guidedShowing = (
  config: GuidedConfig,
  session: Session,
  words: JobWords,
): Showing<Guided> => ({
  lineOf: (event) => guidedEventLine(event, config.words, words),
  doseLineOf: null,
  pictureOf: ({ outputs: signals, snapshot }, colour, typed) =>
    drawGuided(
      {
        title: session.title(words),
        signals,
        snapshot,
        reference: referenceText(config, session, words),
        typed: session.keyboard === null ? null : typed,
        keys: keysLine(words.terminal.panel, session.keys, config.catalogue.names),
      },
      words,
      colour,
    ),
});

function referenceText(
  { procedure }: GuidedConfig,
  { reference }: Session,
  { terminal, tongue }: JobWords,
): string | null {
  if (procedure === 'health' || reference === undefined) return null;
  const value = reference();
  const { unit, decimals } = QUANTITIES[QUANTITY_OF[procedure]];
  return value === null
    ? terminal.panel.nothingToMeasure
    : tongue.figure(`${value.toFixed(decimals)} ${unit}`);
}

export function drawGuided(picture: GuidedPicture, words: JobWords, colour: boolean): string {
  const { title, signals, snapshot, reference, typed, keys } = picture;
  const { panel } = words.terminal;
  const { labels } = panel;
  const shown: Shown = (value, fromSI, unit, decimals = 2) =>
    value === null
      ? panel.noReading
      : words.tongue.figure(`${fromSI(value).toFixed(decimals)} ${unit}`);
  const row = (label: string, text: string): string => `  ${label.padEnd(LABEL_CELLS)}${text}`;
  const rows = [
    row(
      labels.pressure,
      `${shown(snapshot.pressurePa, kPaFromPa, 'kPa abs')}${aimed(snapshot, panel)}`,
    ),
    row(labels.light, shown(snapshot.irradianceWPerM2, mWPerCm2FromWPerM2, 'mW/cm²')),
    row(labels.glass, shown(snapshot.glassK, celsiusFromK, '°C', 1)),
    ...(reference === null
      ? []
      : [row(labels.reference, filled(panel.reference, { reading: reference }))]),
    ...(snapshot.asksNumber && typed !== null ? [row(labels.typed, typed)] : []),
  ];
  const paint = picocolors.createColors(colour);
  return drawAround(signals, { title, beside: [], rows, keys }, panel, paint);
}

const aimed = ({ setPointPa }: GuidedSnapshot, { setPoint }: PanelWords): string =>
  setPointPa === null ? '' : filled(setPoint, { kPa: kPaFromPa(setPointPa).toFixed(0) });

type Shown = (
  value: number | null,
  fromSI: (value: number) => number,
  unit: string,
  decimals?: number,
) => string;

/** `null` for events that would only clutter a terminal. */
export function guidedEventLine(
  event: Event,
  guided: GuidedConfig['words'],
  words: JobWords,
): string | null {
  const { terminal, tongue } = words;
  const clock = event.timeS.toFixed(1).padStart(7);
  switch (event.kind) {
    case 'step':
      return `${clock} s  ${STEP_MARKS[event.step]} ${guided.steps[event.step].title}`;
    case 'point': {
      const { at, reference, reading } = event.point;
      const quantity =
        at === 'light' ? 'light' : at === 'ice' || at === 'bath' ? 'temperature' : 'pressure';
      const [ref = '', own = ''] = [reference, reading.mean].map((value) =>
        tongue.figure(writtenValue(quantity, value)),
      );
      const { unit } = QUANTITIES[quantity];
      return `${clock} s     ${filled(terminal.events.point, { reference: ref, own, unit })}`;
    }
    case 'batch':
      // The steps and the result already show start and end.
      return event.from === 'idle' || event.to === 'complete'
        ? null
        : `${clock} s  ${terminal.batch[event.to]}: ${tongue.recorded(event.why)}`;
    case 'end':
      return null;
    default: {
      const line = eventLine(event, words);
      return line === null ? null : line.replace(/^\S+/, `${clock} s`);
    }
  }
}
