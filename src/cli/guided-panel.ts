/**
 * Shows a guided procedure on a terminal: the unit's display in its frame, status lamp, readings,
 * and what is being typed; without a terminal a line for each event. It only shows.
 */
import picocolors from 'picocolors';
import type { Signals } from '../frame.ts';
import { QUANTITIES, writtenValue } from '../guided/quantities.ts';
import { RECORD_WORDS } from '../guided/record-words.ts';
import { STEP_MARKS } from '../guided/step.ts';
import type { GuidedEvent, GuidedSnapshot, GuidedStepResult } from '../guided-state.ts';
import { escapedValue } from '../plain-text.ts';
import { celsiusFromK, kPaFromPa, mWPerCm2FromWPerM2 } from '../units.ts';
import { eventLine } from './event-lines.ts';
import { createLiveDrawing, type LiveDrawing } from './live-drawing.ts';

const LABEL_CELLS = 11;

export interface GuidedPicture {
  readonly title: string;
  readonly signals: Signals;
  readonly snapshot: GuidedSnapshot;
  /** Of a simulated reference, with its unit; null where a real one is looked at. */
  readonly reference: string | null;
  readonly typed: string;
  readonly keys: string | null;
}

export function drawGuided(picture: GuidedPicture, colour: boolean): string {
  const paint = picocolors.createColors(colour);
  const { signals, snapshot, reference, typed, keys } = picture;
  const row = (label: string, words: string): string => `  ${label.padEnd(LABEL_CELLS)}${words}`;
  const status = signals.status.colour;
  const lamp = status === 'off' ? 'o' : paint[status]('●');
  const beside = [
    `${lamp} ${status}${signals.status.flashing ? ' (flashing)' : ''}`,
    `buzzer ${signals.buzzer}`,
  ];
  const lines = [
    paint.bold(picture.title),
    `  ┌${'─'.repeat(22)}┐`,
    ...signals.display.map((line, at) => `  │ ${line} │  ${beside[at] ?? ''}`.trimEnd()),
    `  └${'─'.repeat(22)}┘`,
    row('Pressure', pressureWords(snapshot)),
    row('Light', shown(snapshot.irradianceWPerM2, mWPerCm2FromWPerM2, 'mW/cm²')),
    row('Glass', shown(snapshot.glassK, celsiusFromK, '°C', 1)),
    ...(reference === null ? [] : [row('Reference', `${reference} (simulated)`)]),
    ...(snapshot.asksNumber && keys !== null ? [row('Type', typed)] : []),
    ...(keys === null ? [] : [paint.dim(`  ${keys}`)]),
  ];
  return `${lines.join('\n')}\n`;
}

function pressureWords({ pressurePa, setPointPa }: GuidedSnapshot): string {
  const aim = setPointPa === null ? '' : `, aim ${kPaFromPa(setPointPa).toFixed(0)}`;
  return `${shown(pressurePa, kPaFromPa, 'kPa abs')}${aim}`;
}

const shown = (
  value: number | null,
  fromSI: (value: number) => number,
  unit: string,
  decimals = 2,
): string => (value === null ? 'no reading' : `${fromSI(value).toFixed(decimals)} ${unit}`);

/** `null` for what would only be noise on a terminal. */
export function guidedEventLine(event: GuidedEvent): string | null {
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
      return event.to === 'complete' ? null : `${clock} s  ${event.to}: ${event.why}`;
    case 'end':
      return null;
    default: {
      const line = eventLine(event);
      return line === null ? null : line.replace(/^\S+/, `${clock} s`);
    }
  }
}

export type GuidedPanel = LiveDrawing<GuidedStepResult>;

export async function createGuidedPanel(
  out: NodeJS.WriteStream,
  surroundings: {
    readonly title: string;
    readonly reference: () => string | null;
    readonly typed: () => string;
    readonly keys: string | null;
  },
): Promise<GuidedPanel> {
  if (!out.isTTY) return eventLog(out);
  const { title, keys } = surroundings;
  return createLiveDrawing(out, ({ outputs: signals, snapshot }, colour) => {
    const [reference, typed] = [surroundings.reference(), surroundings.typed()];
    return drawGuided({ title, signals, snapshot, reference, typed, keys }, colour);
  });
}

function eventLog(out: NodeJS.WriteStream): GuidedPanel {
  return {
    take: ({ events }) => {
      for (const event of events) {
        const line = guidedEventLine(event);
        if (line !== null) out.write(`${escapedValue(line)}\n`);
      }
    },
    aside: (write) => write(),
    close: () => undefined,
  };
}
