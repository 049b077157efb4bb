/**
 * A line with a scripted firmware behind it: answers Firmata's questions from hand-made bytes, says
 * to the limits what a test wants it to, and sends the frames that a test tells it to. It models no
 * protection and no plant.
 */
import { EventEmitter } from 'node:events';
import type { Done, Line } from '../../../hal/firmata/line.ts';
import {
  decodeFields,
  encodeFields,
  type Fields,
  FRAME_LAYOUT,
  KINDS,
  LIMITS_LAYOUT,
  LIMITS_REPORT_LAYOUT,
  LIMITS_VERDICTS,
  OUTPUTS_LAYOUT,
  openMessage,
  REFUSAL_LAYOUT,
  UNIT_SYSEX,
} from '../../../hal/firmata/protocol.ts';

export interface Script {
  readonly name: string;
  readonly major: number;
  /** What it says to the limits, in turn; the last one for good. */
  readonly verdicts: readonly (typeof LIMITS_VERDICTS)[number][];
  readonly offender: number;
  /** Sent for every question in place of an answer; null answers properly. */
  readonly noise: readonly number[] | null;
  /** Whether it answers the questions about its pins. */
  readonly tellsPins: boolean;
  /** Messages that it misses at first, as in its boot loader. */
  readonly misses: number;
  /** Number of the last outputs that it says it has taken. */
  readonly taken: number;
}

export const OURS: Script = {
  name: 'meniscus',
  major: 4,
  verdicts: ['accepted'],
  offender: 127,
  noise: null,
  tellsPins: true,
  misses: 0,
  taken: 0,
};

export interface ScriptedLine extends Line {
  /** Whatever the host wrote, as whole messages. */
  readonly heard: number[][];
  readonly outputs: () => Omit<Fields<typeof OUTPUTS_LAYOUT>, 'sequence'>[];
  /** Numbers of the outputs, in the order of their messages. */
  readonly sequences: () => number[];
  readonly texts: () => { readonly row: number; readonly text: string }[];
  readonly sends: (bytes: readonly number[]) => void;
  readonly sendsFrame: (fields?: Partial<FrameFields>) => void;
  readonly breaks: (how: 'close' | 'error') => void;
  /** The next write fails with these words. */
  failsNextWrite: string | null;
  /** Bytes are taken in and never leave. */
  stuck: boolean;
  /** Closing has to wait for this. */
  closable: Promise<void>;
}

export type FrameFields = Fields<typeof FRAME_LAYOUT>;

/** A board at rest: safe, nothing pressed, shield closed; 101 kPa and 21 degrees Celsius, about. */
export const RESTING: FrameFields = {
  sequence: 0,
  timeMs: 1000,
  pressure: 310,
  irradiance: 102,
  glassTemperature: 560,
  heatSinkTemperature: 560,
  supplyVoltage: 614,
  switches: 1,
  presses: 0,
  ladder: 0,
  trips: 0,
  acting: 34,
  pump: 0,
  lamp: 0,
  badMessages: 0,
};

export const unitMessage = (message: readonly number[]): number[] => [
  0xf0,
  UNIT_SYSEX,
  ...message,
  0xf7,
];
export const frameBytes = (fields: Partial<FrameFields> = {}): number[] =>
  unitMessage(encodeFields(KINDS.frame, FRAME_LAYOUT, { ...RESTING, ...fields }));
export const refusalBytes = (refusedKind: number, reason: number): number[] =>
  unitMessage(encodeFields(KINDS.refusal, REFUSAL_LAYOUT, { refusedKind, reason }));

const PIN_COUNT = 22;
const FIRST_ANALOGUE = 14;
/** Two pins with a duty, as on the unit. */
const modesOf = (pin: number): number[] => {
  if (pin >= FIRST_ANALOGUE) return [2, 10];
  return pin === 9 || pin === 10 ? [1, 1, 3, 8] : [0, 1, 1, 1, 0x0b, 1];
};
const capability = Array.from({ length: PIN_COUNT }, (_, pin) => [...modesOf(pin), 0x7f]).flat();
const mapping = Array.from({ length: PIN_COUNT }, (_, pin) =>
  pin < FIRST_ANALOGUE ? 0x7f : pin - FIRST_ANALOGUE,
);

export function createScriptedLine(script: Script = OURS): ScriptedLine {
  const emitter = new EventEmitter();
  const heard: number[][] = [];
  const state = { isOpen: true, sequence: 0, limitsHeard: 0 };
  const sends = (bytes: readonly number[]) => emitter.emit('data', Buffer.from(bytes));
  const later = (bytes: readonly number[]) => setImmediate(() => state.isOpen && sends(bytes));
  const listen = (bytes: Buffer) => {
    const message = [...bytes];
    heard.push(message);
    if (heard.length <= script.misses) return;
    const answer = answerTo(script, message, state);
    if (answer !== null) later(script.noise ?? answer);
  };
  const close = async (done?: Done) => {
    await line.closable;
    state.isOpen = false;
    emitter.emit('close');
    done?.();
  };
  const line: ScriptedLine = Object.assign(emitter, {
    heard,
    sends,
    failsNextWrite: null as string | null,
    stuck: false,
    closable: Promise.resolve(),
    outputs: () => numbered(heard).map(({ sequence: _, ...outputs }) => outputs),
    sequences: () => numbered(heard).map(({ sequence }) => sequence),
    texts: () =>
      unitBodies(heard, KINDS.text).map(([row = -1, ...codes]) => ({
        row,
        text: String.fromCharCode(...codes),
      })),
    sendsFrame: (fields: Partial<FrameFields> = {}) => {
      sends(frameBytes({ sequence: state.sequence++ % 16384, ...fields }));
    },
    breaks: (how: 'close' | 'error') => {
      state.isOpen = false;
      if (how === 'close') emitter.emit('close', new Error('unplugged'));
      else emitter.emit('error', new Error('I/O error'));
    },
    write: (bytes: Buffer, done?: Done) => {
      const failure = line.failsNextWrite;
      line.failsNextWrite = null;
      if (failure === null) listen(bytes);
      if (!line.stuck) setImmediate(() => done?.(failure === null ? null : new Error(failure)));
    },
    drain: (done: Done) => setImmediate(() => done()),
    close,
    isOpen: true,
  });
  Object.defineProperty(line, 'isOpen', { get: () => state.isOpen });
  return line;
}

const numbered = (heard: readonly number[][]) =>
  unitBodies(heard, KINDS.outputs).map((body) => decodeFields(OUTPUTS_LAYOUT, body)!);

/** Bodies of the unit's messages of one kind. */
function unitBodies(heard: readonly number[][], wanted: number): (readonly number[])[] {
  return heard
    .filter(([start, command]) => start === 0xf0 && command === UNIT_SYSEX)
    .map((message) => openMessage(message.slice(2, -1)))
    .flatMap((opened) => (opened.ok && opened.kind === wanted ? [opened.body] : []));
}

function answerTo(
  script: Script,
  message: readonly number[],
  state: { limitsHeard: number },
): number[] | null {
  if (message[0] === 0xf9) {
    const name = [...script.name].flatMap((c) => [c.charCodeAt(0) & 0x7f, c.charCodeAt(0) >> 7]);
    return [0xf9, 2, 5, 0xf0, 0x79, script.major, 0, ...name, 0xf7];
  }
  if ((message[1] === 0x6b || message[1] === 0x69) && !script.tellsPins) return null;
  if (message[1] === 0x6b) return [0xf0, 0x6c, ...capability, 0xf7];
  if (message[1] === 0x69) return [0xf0, 0x6a, ...mapping, 0xf7];
  const [limits] = unitBodies([[...message]], KINDS.limits);
  if (limits === undefined) return null;
  const said = script.verdicts[Math.min(state.limitsHeard++, script.verdicts.length - 1)];
  if (said === undefined) return null;
  const fields = decodeFields(LIMITS_LAYOUT, limits)!;
  const verdict = LIMITS_VERDICTS.indexOf(said);
  return unitMessage(
    encodeFields(KINDS.limitsReport, LIMITS_REPORT_LAYOUT, {
      verdict,
      offender: script.offender,
      taken: script.taken,
      ...fields,
    }),
  );
}
