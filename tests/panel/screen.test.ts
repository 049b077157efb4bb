import { describe, expect, test } from 'vitest';
import { BATCH_STATES, PHASE_IDS, type Snapshot, STEP_NUMBERS } from '../../src/events.ts';
import { DISPLAY_COLUMNS } from '../../src/frame.ts';
import { NOT_CLEAR_ADVICE_EN, PROMPTS_EN } from '../../src/panel/prompts-en.ts';
import { alarmPages, composeSignals, helpPages, type View } from '../../src/panel/screen.ts';
import { plain, wrap } from '../../src/panel/text.ts';
import { PHASE_TABLE } from '../../src/procedure/phase-table.ts';
import { ALARM_TABLE } from '../../src/safety/alarm-table.ts';

const SNAPSHOT: Snapshot = {
  timeS: 100,
  batch: 'running',
  phase: 'evacuate',
  cycle: 1,
  pressurePa: 25_000,
  setPointPa: 25_000,
  atmospherePa: 100_600,
  irradianceWPerM2: 200,
  doseJPerM2: 123_456,
  targetJPerM2: 500_000,
  glassK: 268.15,
  heatSinkK: 333.15,
  supplyV: 12,
};

const view = (change: Partial<View>): View => ({
  batch: 'running',
  phase: 'evacuate',
  kind: PHASE_TABLE[change.phase ?? 'evacuate'].kind,
  notClearAdvice: 'another-cycle',
  alarm: null,
  alarmStops: false,
  why: '',
  page: null,
  live: {
    phaseElapsedS: 0,
    leftS: 1234.4,
    doseMarginJPerM2: 3_000,
    sealLine: 'Water or outgassing?',
    vacuum: { askedPa: 25_000, givenPa: 33_000 },
    jobLine: 'combination-break 400 mm',
    resultLine: 'Mark remains',
  },
  snapshot: SNAPSHOT,
  ...change,
});

const display = (change: Partial<View>) => composeSignals(view(change)).display;

describe('prompts', () => {
  test.each(PHASE_IDS)('%s fits the display without being cut', (phase) => {
    const { title, lines, more } = PROMPTS_EN[phase];
    const room = DISPLAY_COLUMNS - STEP_NUMBERS[phase].length - ' || '.length + 1;
    expect(title.length).toBeLessThanOrEqual(room);
    for (const words of [title, ...lines, more]) expect(plain(words)).toBe(words);
    for (const words of lines) expect(words.length).toBeLessThanOrEqual(DISPLAY_COLUMNS);
    expect(helpPages(phase, 'another-cycle').length).toBeGreaterThan(0);
  });

  test('a phase without a live line has both its lines', () => {
    for (const phase of PHASE_IDS) {
      const [, first, second] = display({ phase });
      expect(first?.trim(), phase).not.toBe('');
      expect(second?.trim(), phase).not.toBe('');
    }
  });

  test('advice for a break that is not clear has no word that must be cut', () => {
    for (const words of Object.values(NOT_CLEAR_ADVICE_EN)) {
      expect(wrap(words).join(' ')).toBe(words);
    }
  });
});

describe('the display', () => {
  const pages = [null, 0, 1, 7];
  const alarm = {
    title: 'Over-pressure sw.',
    action: 'abort',
    cause: 'Expected at most 172.0 kPa gauge, seen 191.2 kPa gauge',
    remedy: 'Vent is open. Look for new legs.',
  } as const;

  test('is four lines of exactly 20 characters in every situation', () => {
    for (const batch of BATCH_STATES) {
      for (const phase of PHASE_IDS) {
        for (const page of pages) {
          for (const shown of [null, alarm]) {
            const lines = display({
              batch,
              phase,
              page,
              alarm: shown,
              why: 'A longer reason for it.',
            });
            expect(lines.map((line) => line.length)).toEqual([20, 20, 20, 20]);
            expect(lines.join('')).toMatch(/^[\x20-\x7d]*$/);
          }
        }
      }
    }
  });

  test('begins with the step, or with the mark of an alarm, a hold, help or the end', () => {
    expect(display({})[0]).toMatch(/^5\.1 Air out/);
    expect(display({ page: 0 })[0]).toMatch(/^5\.1 \? /);
    expect(display({ batch: 'held' })[0]).toMatch(/^5\.1 \|\| Held/);
    expect(display({ batch: 'complete' })[0]).toMatch(/^-- /);
    expect(display({ alarm })[0]).toMatch(/^! Over-pressure sw\./);
  });

  test('shows an alarm before all else, first the cause and then the remedy', () => {
    const all = alarmPages(alarm).flat().join(' ');
    expect(all).toBe(`${alarm.cause} ${alarm.remedy}`);
    expect(display({ alarm, batch: 'held', page: 0 })[1]).toMatch(/^Expected at most/);
  });

  test('offers to go on only when nothing stands in the way', () => {
    expect(display({ batch: 'held', why: 'x' })[3]).toContain('YES=go');
    expect(display({ batch: 'held', why: 'x', alarmStops: true })[3]).not.toContain('YES');
  });

  test('states whether a pressure is gauge, with its sign', () => {
    expect(display({ phase: 'vacuum-dwell' })[1]).toBe('-76 kPa gauge 1235 s');
  });

  test('says in a cure what the dose is over its target for, and only while it is that', () => {
    const second = (doseJPerM2: number) =>
      display({ phase: 'cure', snapshot: { ...SNAPSHOT, phase: 'cure', doseJPerM2 } })[2];
    expect(second(499_999)).toBe('Do not lift shield  ');
    expect(second(500_000)).toBe('+0.30J/cm2 for doubt');
    expect(second(502_999)).toBe('+0.30J/cm2 for doubt');
    expect(second(503_000)).toBe('Do not lift shield  ');
  });

  test('every alarm of the table can be told without cutting a word', () => {
    for (const { title, remedy } of ALARM_TABLE) {
      expect(plain(title + remedy)).toBe(title + remedy);
      for (const word of remedy.split(' ')) expect(word.length).toBeLessThanOrEqual(20);
    }
  });
});

describe('status lamp and buzzer', () => {
  test('blue asks for a person, green works, yellow is abnormal, red is danger (IEC 60073)', () => {
    const colour = (change: Partial<View>) => composeSignals(view(change)).status.colour;
    expect(colour({ phase: 'inspect' })).toBe('blue');
    expect(colour({ phase: 'evacuate' })).toBe('green');
    expect(colour({ alarmStops: true })).toBe('yellow');
    expect(colour({ batch: 'aborted' })).toBe('red');
  });

  test('sound never stands alone: whenever the buzzer repeats, an alarm is on the display', () => {
    for (const batch of BATCH_STATES)
      expect(composeSignals(view({ batch })).buzzer).not.toBe('repeating');
  });
});
