import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { canonicalJson, sha256Of } from '../../src/core/canonical-json.ts';
import type { Event } from '../../src/core/events.ts';
import { problemLine } from '../../src/core/settings.ts';
import { encodeEvent, encodeHeader, encodeSnapshot } from '../../src/journal/journal-format.ts';
import { type JournalContents, readJournal } from '../../src/journal/read-journal.ts';
import { DONE, headerOf, SNAPSHOT, shortJournal } from '../report/journal-data.ts';

const WHOLE = shortJournal();
const LINES = WHOLE.trimEnd().split('\n');

function contentsOf(text: string): JournalContents {
  const read = readJournal(text, 'demo.jsonl');
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function refusalOf(text: string): string {
  const read = readJournal(text, 'demo.jsonl');
  return read.ok ? 'accepted' : read.problems.map(problemLine).join('\n');
}

const joined = (lines: readonly string[]): string => lines.map((line) => `${line}\n`).join('');

const measuredLine = (fields: object): string =>
  JSON.stringify({ event: { kind: 'measured', timeS: 0, value: 1, ...fields } });

const EVENTS: readonly Event[] = [
  { kind: 'batch', from: 'idle', to: 'running', why: 'started', timeS: 0.1 },
  { kind: 'phase', phase: 'evacuate', cycle: 2, timeS: 0.1 + 0.2 },
  { kind: 'answer', phase: 'ask-clear', answer: 'no', timeS: 2 },
  { kind: 'measured', name: 'leakRatePaM3PerS', portion: null, value: 1 / 3, timeS: 3 },
  { kind: 'measured', name: 'irradianceMeanWPerM2', portion: 'pit', value: Number.NaN, timeS: 3 },
  {
    kind: 'alarm',
    alarm: 'leak',
    from: 'normal',
    to: 'unacknowledged',
    action: 'hold',
    priority: 'high',
    cause: 'expected < 5, seen 7 mPa m³/s',
    remedy: 'reseat',
    timeS: 4,
  },
  { kind: 'refused', request: 'go on', why: 'still stands', timeS: 5 },
  { kind: 'end', ...DONE, timeS: 6 },
];

describe('the reader of journals', () => {
  test('gives back every kind of event exactly', () => {
    const text = joined([encodeHeader(headerOf()), ...EVENTS.map(encodeEvent)]);
    expect(contentsOf(text).events).toStrictEqual(EVENTS);
  });

  test('gives back snapshots, rounded below what the sensors resolve', () => {
    const line = encodeSnapshot({
      ...SNAPSHOT,
      timeS: 0.1 + 0.2,
      pressurePa: 100_600.4,
      glassK: 296.149,
    });
    expect(contentsOf(joined([encodeHeader(headerOf()), line])).snapshots).toStrictEqual([
      { ...SNAPSHOT, timeS: 0.1 + 0.2, pressurePa: 100_600, glassK: 296.15 },
    ]);
  });

  test('reads a journal without a footer as interrupted, and vouches for nothing', () => {
    const contents = contentsOf(joined(LINES.slice(0, -1)));
    expect(contents.end.reason).toBe('interrupted');
    expect(contents).toMatchObject({ footer: null, intact: null, torn: false });
    expect(contents.remarks.join()).toContain('no end');
    expect(contents.ticks).toHaveLength(30);
  });

  test('reads a journal cut anywhere after its header, and says so', () => {
    const footerAt = WHOLE.lastIndexOf('{"end"');
    let cutInLines = 0;
    fc.assert(
      fc.property(fc.integer({ min: WHOLE.indexOf('\n') + 1, max: footerAt }), (length) => {
        const { end, torn, remarks } = contentsOf(WHOLE.slice(0, length));
        expect(end.reason).toBe('interrupted');
        const cutInLine = !/[\n\]}]$/.test(WHOLE.slice(0, length));
        if (cutInLine) {
          cutInLines += 1;
          expect(torn && remarks.join()).toContain('torn');
        }
      }),
    );
    expect(cutInLines).toBeGreaterThan(50);
  });

  test('tells any change of a byte before the footer', () => {
    const footerAt = WHOLE.lastIndexOf('{"end"');
    let readAll = 0;
    fc.assert(
      fc.property(fc.nat(footerAt - 1), fc.constantFrom('0', '7', ' ', 'x'), (at, byte) => {
        fc.pre(WHOLE[at] !== byte);
        const read = readJournal(WHOLE.slice(0, at) + byte + WHOLE.slice(at + 1), 'demo.jsonl');
        if (!read.ok) return;
        readAll += 1;
        expect(read.value.intact).toBe(false);
      }),
      { numRuns: 500 },
    );
    expect(readAll).toBeGreaterThan(25);
  });

  test('tells a removed line three ways', () => {
    const without = LINES.filter((line) => !line.startsWith('[12,'));
    const { intact, remarks } = contentsOf(joined(without));
    expect(intact).toBe(false);
    expect(remarks).toEqual([
      'The file was changed after it was written: checksum differs.',
      'Frames are missing before frame 13.',
      'The end counts other frames or events than the file holds.',
    ]);
  });

  test('tells an end that was rewritten against the last event', () => {
    const body = joined([
      encodeHeader(headerOf()),
      encodeEvent({ kind: 'end', ...DONE, timeS: 9 }),
    ]);
    const end = { ...DONE, frames: 0, events: 1, sha256: sha256Of(body) };
    expect(contentsOf(`${body}${JSON.stringify({ end })}\n`).remarks).toEqual([]);
    const forged = { ...end, outcome: 'mark-remains' };
    expect(contentsOf(`${body}${JSON.stringify({ end: forged })}\n`).remarks).toEqual([
      'The end contradicts the last event.',
    ]);
  });

  test('tells settings that are not those that were hashed', () => {
    const header = headerOf({ job: { reference: 'demo' } });
    const swapped = { ...header, inputs: { ...header.inputs, job: { reference: 'other' } } };
    expect(contentsOf(joined([JSON.stringify(swapped)])).remarks.join()).toContain('hashed: job');
  });

  test.each([
    [
      'an unknown version',
      [LINES[0]!.replace('journal@3', 'journal@99')],
      'line 1 is meniscus/journal@99; accepted: a journal that begins with ' +
        '"schema":"meniscus/journal@1" or "schema":"meniscus/journal@2" or "schema":"meniscus/journal@3"',
    ],
    ['another kind of file', ['{"schema":"meniscus/job@1"}'], '"schema":"meniscus/journal@3"'],
    [
      'an unknown column',
      [LINES[0]!.replace('"irradiance"', '"humidity"')],
      'line 1, header.columns.4 is "humidity"; accepted: one of the columns sequence, timeS',
    ],
    [
      'a column that is missing',
      [LINES[0]!.replace('"irradiance",', '')],
      'line 1, header.columns is ["sequence","timeS","sampledAtS","pressure","glassTempera...; ' +
        'accepted: columns with irradiance among them',
    ],
    [
      'a column that is named twice',
      [LINES[0]!.replace('"irradiance",', '"irradiance","pressure",')],
      'line 1, header.columns.5 is "pressure"; accepted: each column once',
    ],
    [
      'no columns at all',
      [LINES[0]!.replace(/"columns":\[[^\]]*\],/, '')],
      'line 1, header.columns is missing',
    ],
    [
      'columns in a journal of the version that named none',
      [LINES[0]!.replace('journal@3', 'journal@1')],
      'line 1, header.columns of version 1 is ["sequence"',
    ],
    [
      'a tick with a wrong value',
      [LINES[0]!, LINES[1]!.replace('[0,0,null,308', '[0,0,null,"many"')],
      'line 2, tick.pressure is "many"',
    ],
    [
      'an unknown measurement',
      [LINES[0]!, measuredLine({ name: 'fillDoseJPerM2', portion: 'fill' })],
      'line 2, event.name is "fillDoseJPerM2"; accepted: one of atmospherePa',
    ],
    [
      'a portion of what has none',
      [LINES[0]!, measuredLine({ name: 'atmospherePa', portion: 'fill' })],
      'line 2, event.portion is "fill"; accepted: null',
    ],
    [
      'a measurement that does not say its portion',
      [LINES[0]!, measuredLine({ name: 'doseJPerM2' })],
      'line 2, event.portion is missing',
    ],
    ['no header', LINES.slice(1), 'line 1'],
    [
      'a header field of the wrong kind',
      [LINES[0]!.replace('"seed":7', '"seed":"7"')],
      'line 1, header.seed is "7"',
    ],
    [
      'a torn line in the middle',
      [LINES[0]!, LINES[1]!.slice(0, -3), LINES[2]!],
      'line 2 is [0,0,null',
    ],
    [
      'an unknown kind of line',
      [LINES[0]!, '{"note":1}'],
      'line 2 is {"note":1}; accepted: a tick',
    ],
    [
      'an unknown phase',
      [LINES[0]!, '{"event":{"kind":"phase","phase":"fly","cycle":0,"timeS":0}}'],
      'line 2, event.phase is "fly"',
    ],
    [
      'an unknown field',
      [LINES[0]!, '{"event":{"kind":"phase","phase":"cure","cycle":0,"timeS":0,"x":1}}'],
      'line 2, event.x is 1',
    ],
    ['an empty line', [LINES[0]!, '', LINES[1]!], 'line 2 is empty'],
    ['lines after the end', [...LINES, LINES[1]!], `line ${LINES.length + 1}`],
  ])('refuses %s, naming file, line and what is accepted', (_, lines, words) => {
    const refusal = refusalOf(joined(lines));
    expect(refusal).toContain(words);
    expect(refusal).toMatch(/^demo\.jsonl: .*; accepted: ./);
  });

  test('refuses an empty file and one whose header is torn', () => {
    expect(refusalOf('')).toContain('whole header line');
    expect(refusalOf(WHOLE.slice(0, 50))).toContain('whole header line');
  });
});

describe('canonical JSON', () => {
  test('is the same for every order of the keys and parses to the same value', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (fields) => {
        const turned = Object.fromEntries(Object.entries(fields).reverse());
        expect(canonicalJson(turned)).toBe(canonicalJson(fields));
        expect(JSON.parse(canonicalJson(fields))).toEqual(JSON.parse(JSON.stringify(fields)));
      }),
    );
  });
});
