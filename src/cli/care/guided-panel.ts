/**
 * The panel's contents in a guided procedure: readings, the reference, and the number being typed;
 * without a terminal, one line for each event. It only displays.
 */
import picocolors from 'picocolors';
import { ENGLISH_WORDS } from '../../app/prepare/terminal-words.ts';
import type { Event } from '../../core/events.ts';
import type { Signals } from '../../core/frame.ts';
import { STEP_MARKS } from '../../core/guided-events.ts';
import { celsiusFromK, kPaFromPa, mWPerCm2FromWPerM2 } from '../../core/units.ts';
import type { Guided, GuidedConfig, GuidedSnapshot } from '../../procedure/guided/guided-state.ts';
import { QUANTITIES, writtenValue } from '../../procedure/guided/quantities.ts';
import { RECORD_WORDS } from '../../procedure/guided/record-words.ts';
import type { Session } from '../run/session.ts';
import { eventLine } from '../terminal/event-lines.ts';
import { keysNamed } from '../terminal/keys.ts';
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

export const guidedShowing = (config: GuidedConfig, session: Session): Showing<Guided> => ({
  lineOf: guidedEventLine,
  doseLineOf: null,
  pictureOf: ({ outputs: signals, snapshot }, colour, typed) =>
    drawGuided(
      {
        title: session.title,
        signals,
        snapshot,
        reference: referenceWords(config, session),
        typed: session.keyboard === null ? null : typed,
        keys: keysNamed(session.keysLine, config.catalogue.names),
      },
      colour,
    ),
});

function referenceWords({ procedure }: GuidedConfig, { reference }: Session): string | null {
  if (procedure === 'health' || reference === undefined) return null;
  const value = reference();
  const { unit, decimals } = QUANTITIES[QUANTITY_OF[procedure]];
  return value === null ? 'nothing to measure' : `${value.toFixed(decimals)} ${unit}`;
}

export function drawGuided(picture: GuidedPicture, colour: boolean): string {
  const { title, signals, snapshot, reference, typed, keys } = picture;
  const row = (label: string, words: string): string => `  ${label.padEnd(LABEL_CELLS)}${words}`;
  const rows = [
    row('Pressure', pressureWords(snapshot)),
    row('Light', shown(snapshot.irradianceWPerM2, mWPerCm2FromWPerM2, 'mW/cm²')),
    row('Glass', shown(snapshot.glassK, celsiusFromK, '°C', 1)),
    ...(reference === null ? [] : [row('Reference', `${reference} (simulated)`)]),
    ...(snapshot.asksNumber && typed !== null ? [row('Type', typed)] : []),
  ];
  const paint = picocolors.createColors(colour);
  return drawAround(signals, { title, beside: [], rows, keys }, paint);
}

function pressureWords({ pressurePa, setPointPa }: GuidedSnapshot): string {
  const setPoint = setPointPa === null ? '' : `, set-point ${kPaFromPa(setPointPa).toFixed(0)}`;
  return `${shown(pressurePa, kPaFromPa, 'kPa abs')}${setPoint}`;
}

const shown = (
  value: number | null,
  fromSI: (value: number) => number,
  unit: string,
  decimals = 2,
): string => (value === null ? 'no reading' : `${fromSI(value).toFixed(decimals)} ${unit}`);

/** `null` for events that would only clutter a terminal. */
export function guidedEventLine(event: Event): string | null {
  const clock = event.timeS.toFixed(1).padStart(7);
  switch (event.kind) {
    case 'step':
      return `${clock} s  ${STEP_MARKS[event.step]} ${RECORD_WORDS.steps[event.step].title}`;
    case 'point': {
      const { at, reference, reading } = event.point;
      const quantity =
        at === 'light' ? 'light' : at === 'ice' || at === 'bath' ? 'temperature' : 'pressure';
      const [ref, own] = [reference, reading.mean].map((value) => writtenValue(quantity, value));
      return `${clock} s     reference ${ref}, unit ${own} ${QUANTITIES[quantity].unit}`;
    }
    case 'batch':
      // The steps and the result already show start and end.
      return event.from === 'idle' || event.to === 'complete'
        ? null
        : `${clock} s  ${event.to}: ${event.why}`;
    case 'end':
      return null;
    default: {
      const line = eventLine(event, ENGLISH_WORDS);
      return line === null ? null : line.replace(/^\S+/, `${clock} s`);
    }
  }
}
