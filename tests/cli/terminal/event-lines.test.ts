/** A run's lines: English as logs have had them, and every one from the folder of a language. */
import { expect, test } from 'vitest';
import { verdictLines } from '../../../src/app/papers/verdict-lines.ts';
import { paperWordsOf } from '../../../src/app/prepare/paper-words.ts';
import { ENGLISH_WORDS, type JobWords } from '../../../src/app/prepare/terminal-words.ts';
import { seenSafeWords } from '../../../src/cli/run/seen-safe.ts';
import { speedWords } from '../../../src/cli/run/speed-words.ts';
import { doseLine, eventLine } from '../../../src/cli/terminal/event-lines.ts';
import type { Event, UnstampedEvent } from '../../../src/core/events.ts';
import type { MeasuredValue } from '../../../src/core/measurements.ts';
import english from '../../../src/panel/catalogues/en/terminal.json' with { type: 'json' };
import { madeLanguage, outsideWords } from '../../app/prepare/made-language.ts';
import { factsOf } from '../../document/document-data.ts';

function words(language: string): JobWords {
  const read = paperWordsOf(language);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

const at = (event: UnstampedEvent): Event => ({ timeS: 64, ...event });

const EVENTS: readonly Event[] = [
  at({ kind: 'batch', from: 'idle', to: 'running', why: 'The unit was started.' }),
  at({ kind: 'phase', phase: 'clean-pit', cycle: 0 }),
  at({ kind: 'phase', phase: 'vacuum-dwell', cycle: 2 }),
  at({ kind: 'answer', phase: 'clean-pit', answer: 'yes' }),
  at({ kind: 'hold-reason', phase: 'evacuate', reason: 'leg-grew' }),
  at({ kind: 'remedy', cycle: 1, remedy: 'warmth', taken: true }),
  at({ kind: 'remedy', cycle: 1, remedy: 'open-pit', taken: false }),
  at({ kind: 'recharge', cycle: 2, why: 'injector-dry' }),
  at({ kind: 'seal-finding', finding: 'leak', why: 'Rises in a line' }),
  at({ kind: 'adapted', what: 'vacuum', askedPa: 25_000, givenPa: 27_500, why: 'a leg grew' }),
  at({ kind: 'gap-failed', portion: 'pit', why: 'not-dark', lostJPerM2: 5_000 }),
  at({
    kind: 'alarm',
    alarm: 'button-stuck',
    from: 'normal',
    to: 'unacknowledged',
    action: 'hold',
    priority: 'medium',
    cause: 'Expected at most 10.0 s, seen HOLD down for 10.1 s',
    remedy: 'Let go, free the button, dry the panel. Then go on. If it stays, have it mended.',
  }),
  at({
    kind: 'alarm',
    alarm: 'button-stuck',
    from: 'unacknowledged',
    to: 'normal',
    action: 'hold',
    priority: 'medium',
    cause: '',
    remedy: '',
  }),
  at({ kind: 'refused', request: 'yes', why: 'the job is over' }),
  at({ kind: 'end', reason: 'completed', why: 'The repair is done.', outcome: 'clear' }),
  ...Object.keys(english.measured).map((name) =>
    at({ kind: 'measured', name, portion: null, value: 1.25 } as {
      kind: 'measured';
    } & MeasuredValue),
  ),
];

/** Units, symbols and what the display of the made language says in English. */
const GIVEN = 'kPa abs inHg mW mJ cm mPa min yes HOLD at most down for';

test('every line of a run is worded by the folder of its language', () => {
  const made = words(madeLanguage());
  const { report } = factsOf();
  const lines = [
    ...EVENTS.map((event) => eventLine(event, made) ?? 'no line'),
    doseLine({ timeS: 700, doseJPerM2: 10_000, targetJPerM2: 59_000 }, made),
    seenSafeWords({ afterS: 0.4, lightWPerM2: 0, pressurePa: 100_500 }, made),
    seenSafeWords(null, made),
    speedWords(1_030, 5.1, made),
    ...verdictLines(report, made),
  ];
  const left = lines.flatMap(outsideWords).filter((word) => !GIVEN.split(' ').includes(word));
  expect(left.filter((word) => !['demo', 'resin', 'lot'].includes(word))).toEqual([]);
});

test('in English steps and alarms keep the ids that logs are searched by', () => {
  const [, step, cycled] = EVENTS;
  const lines = [step, cycled].map((event) => event && eventLine(event, ENGLISH_WORDS));
  expect(lines).toEqual(['01:04  3.3 clean-pit', '01:04  5.2 vacuum-dwell, cycle 2']);
});

test('in Spanish they are called by name, numbers have a comma and the button its own label', () => {
  const spanish = EVENTS.map((event) => eventLine(event, words('es')));
  expect(spanish).toContain('01:04  3.3 limpiar el cráter');
  expect(spanish).toContain('01:04        vacío: pedido 25,0, dado 27,5 kPa abs: creció una pata');
  expect(spanish).toContain(
    '01:04  ALARMA botón atascado (pausa): Se esperaba: como máximo 10,0 s; visto: ALTO pulsado 10,1 s. Suéltelo, libere el botón, seque el panel y siga. Si continúa, hágalo reparar.',
  );
});
