import { describe, expect, test } from 'vitest';
import { BATCH_STATES } from '../../src/core/events.ts';
import { PHASE_IDS } from '../../src/core/phases.ts';
import type { ShownAlarm } from '../../src/panel/page-words.ts';
import type { View } from '../../src/panel/screen.ts';
import { ALARM_CASES } from '../safety/alarm-cases.ts';
import { ENGLISH, SPANISH } from './catalogues.ts';
import { raised } from './told-alarms.ts';
import { composeSignals, LIVE, SNAPSHOT, view } from './views.ts';

const display = (change: Partial<View>) => composeSignals(view(change)).display;

describe('the display', () => {
  const pages = [null, 0, 1, 7];
  const gauge = (value: string) => ({ say: 'gaugePressure', with: { value } }) as const;
  const alarm: ShownAlarm = {
    id: 'over-pressure',
    action: 'abort',
    expected: { say: 'at-most', with: { amount: gauge('172.0') } },
    seen: gauge('191.2'),
  };

  test('is four lines of exactly 20 characters in every situation', () => {
    let shown20 = true;
    for (const batch of BATCH_STATES) {
      for (const phase of PHASE_IDS) {
        for (const page of pages) {
          for (const shown of [null, alarm]) {
            const lines = display({
              batch,
              phase,
              page,
              alarm: shown,
              why: { alarm, refused: true },
            });
            shown20 &&= lines.every((line) => /^[\x20-\x7d]{20}$/.test(line));
          }
        }
      }
    }
    expect(shown20).toBe(true);
  });

  test('begins with the step, or with the mark of an alarm, a hold, help or the end', () => {
    expect(display({})[0]).toMatch(/^5\.1 Air out/);
    expect(display({ page: 0 })[0]).toMatch(/^5\.1 \? /);
    expect(display({ batch: 'held' })[0]).toMatch(/^5\.1 \|\| Held/);
    expect(display({ batch: 'complete' })[0]).toMatch(/^-- /);
    expect(display({ alarm })[0]).toMatch(/^! Over-pressure +$/);
  });

  test('tells a caution from an explanation, and both by the step', () => {
    expect(display({ phase: 'cover-fill', page: 0 })[0]).toBe('6.1a ? Film on fill ');
    expect(display({ phase: 'cover-fill', page: 3 })[0]).toBe('6.1a !? Caution     ');
    expect(display({ phase: 'cover-fill', page: 5, catalogue: SPANISH })[0]).toBe(
      '6.1a !? Cuidado     ',
    );
  });

  test('shows an alarm before all else: what happened, what the unit did, what to do now', () => {
    const told = (catalogue: View['catalogue']) => {
      const pages = [0, 1, 2, 3, 4, 5, 6].map((page) =>
        display({ alarm, batch: 'held', page, catalogue }).slice(1, 3).join(' '),
      );
      return pages.join(' ').replaceAll(/ +/g, ' ');
    };
    const english = told(ENGLISH);
    expect(english).toMatch(/^The pressure went too high\. Expected at most 172\.0 kPa gauge/);
    expect(english).toMatch(
      /seen 191\.2 kPa gauge\. The unit opened the vent.* Look for new legs\./,
    );
    expect(told(SPANISH)).toMatch(
      /^La presión subió demasiado\. Se esperaba: como máximo 172\.0 kPa rel\. Hay: 191\.2 kPa rel\./,
    );
  });

  test('repeats no limit: what was seen is told where it lies clear of it', () => {
    const overPressure = ALARM_CASES.find(({ id }) => id === 'over-pressure');
    if (overPressure === undefined) throw new Error('no case');
    const first = (gaugePa: number) =>
      [0, 1, 2]
        .map((page) =>
          display({ alarm: raised(overPressure, gaugePa), page })
            .slice(1, 3)
            .join(' '),
        )
        .join(' ')
        .replaceAll(/ +/g, ' ');
    // The limit is 172 kPa, its deadband 5 kPa.
    expect(first(172_100)).toMatch(/went too high\. Limit: at most 172\.0 kPa gauge\. The unit/);
    expect(first(176_000)).not.toMatch(/seen/);
    expect(first(191_200)).toMatch(/Expected at most 172\.0 kPa gauge, seen 191\.2 kPa gauge\./);
  });

  test('a held job says why, and that it cannot go on while the cause stands', () => {
    const why = { alarm, refused: false } as const;
    expect(display({ batch: 'held', why })[1]).toBe('Over-pressure.      ');
    const refused = { alarm, refused: true } as const;
    expect(display({ batch: 'held', why: refused })[1]).toBe('Cannot go on yet:   ');
  });

  test('offers pages at the end only where there are some, and counts them', () => {
    const why = { alarm, refused: false } as const;
    expect(display({ batch: 'aborted', why, page: 1 })[3]).toMatch(/^YES=end +MORE 2\/\d$/);
    expect(display({ batch: 'complete', why: { say: 'repair-done' } })[3].trim()).toBe('YES=end');
  });

  test('offers to go on only when nothing stands in the way', () => {
    expect(display({ batch: 'held' })[3]).toContain('YES=go');
    expect(display({ batch: 'held', alarmStops: true })[3]).not.toContain('YES');
    expect(display({ batch: 'held', mustEnd: true })[3]).toMatch(/^NO=end/);
  });

  test('states whether a pressure is gauge, with its sign', () => {
    const live = { ...LIVE, leftS: 1234.4 };
    expect(display({ phase: 'vacuum-dwell', live })[1]).toBe('-76 kPa gauge 1235 s');
  });

  test('says in a cure what the dose is over its target for, and only while it is that', () => {
    const second = (doseInHandJPerM2: number) =>
      display({ phase: 'cure', live: { ...LIVE, doseInHandJPerM2 } })[2];
    expect(second(49_999)).toBe('Do not lift shield  ');
    expect(second(50_000)).toBe('+0.30J/cm2 for doubt');
    expect(second(52_999)).toBe('+0.30J/cm2 for doubt');
    expect(second(53_000)).toBe('Do not lift shield  ');
  });
});

describe('what a held job asks', () => {
  const asked = (asks: 'end' | 'leg-grew' | 'resin-inside', catalogue = ENGLISH) =>
    display({ batch: 'held', phase: 'ask-bubbles', asks, catalogue });

  test('stands whole on its first page, with what answers it below', () => {
    expect(asked('leg-grew')).toEqual([
      '5.3 |? Why HOLD?    ',
      'Did a leg grow, or a',
      'new one start?      ',
      'YES / NO  MORE   1/3',
    ]);
    expect(asked('resin-inside').slice(1, 3)).toEqual([
      'Does resin show on  ',
      'the inner side?     ',
    ]);
    expect(asked('end')).toEqual([
      '5.3 ||? End job     ',
      'End the job? YES    ',
      'ends, NO goes back. ',
      'YES=end NO=back     ',
    ]);
  });

  test('and so in Spanish', () => {
    expect(asked('leg-grew', SPANISH).join('|')).toBe(
      '5.3 |? ¿Por qué?    |¿Creció una pata o  |empezó otra?        |SÍ / NO  INFO    1/3',
    );
    expect(asked('resin-inside', SPANISH).slice(1, 3).join('|')).toBe(
      '¿Se ve resina en el |lado interior?      ',
    );
    expect(asked('end', SPANISH).join('|')).toBe(
      '5.3 ||? Terminar    |¿Terminar? SÍ acaba,|NO vuelve atrás.    |SÍ=fin NO=atrás     ',
    );
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

  test('a press that is refused sounds once, and an alarm goes before it', () => {
    const buzzer = (change: Partial<View>) => composeSignals(view(change)).buzzer;
    expect(buzzer({ phase: 'evacuate' })).toBe('off');
    expect(buzzer({ phase: 'evacuate', wrongKey: true })).toBe('once');
    expect(buzzer({ batch: 'held', wrongKey: true })).toBe('once');
  });

  test('sound never stands alone: whenever the buzzer repeats, an alarm is on the display', () => {
    for (const batch of BATCH_STATES)
      expect(composeSignals(view({ batch })).buzzer).not.toBe('repeating');
  });
});

describe('at the gate for the glass', () => {
  const gate = (glassK: number | null, perMinute: number, catalogue = ENGLISH) =>
    composeSignals(
      view({
        phase: 'glass-gate',
        catalogue,
        snapshot: { ...SNAPSHOT, glassK },
        live: { ...LIVE, glass: { ...LIVE.glass, rateKPerS: perMinute / 60 } },
      }),
    ).display.map((line) => line.trimEnd());

  test('the display shows the temperature, its rate, and what to do', () => {
    expect(gate(276.55, 1.24).slice(0, 3)).toEqual([
      '3.2a Glass temp.',
      '3.4 C +1.2 K/min',
      'Warm to 12-40 C',
    ]);
    expect(gate(320.15, -3, SPANISH).slice(1, 3)).toEqual([
      '47.0 C -3.0 K/min',
      'Enfríe a 12-40 C',
    ]);
    expect(gate(296.15, 0)[2]).toBe('Inside: wait a bit');
  });

  test('a reading that is not there is no temperature', () => {
    expect(gate(null, 0)[1]).toBe('Glass temp. unknown');
  });
});

test('help keeps pressure and time in view while the unit works by itself', () => {
  const snapshot = { ...SNAPSHOT, atmospherePa: 100_600, pressurePa: 25_600 };
  const live = { ...LIVE, leftS: 38.2 };
  const first = (phase: View['phase'], page: number) =>
    display({ phase, page, snapshot, live })[0].trimEnd();
  expect(first('vacuum-dwell', 0)).toBe('5.2 ? -75 kPa 39 s');
  // Its caution has the last page.
  expect(first('vacuum-dwell', 4)).toMatch(/^5\.2 !?\? -75 kPa 39 s$/);
  expect(first('cure', 0)).toBe('6.5 ? 1.23/5.00 39 s');
  // Where a person works there is nothing to watch.
  expect(first('fill-pit', 0)).toBe('6.2 ? Fill the pit');
});

test('a job that ends with wet resin in the break says what to do with the pane', () => {
  const words = (change: Partial<View>) =>
    [0, 1, 2, 3, 4, 5, 6]
      .map((page) =>
        display({ why: { say: 'interrupted' }, page, ...change })
          .slice(1, 3)
          .join(' '),
      )
      .join(' ');
  for (const batch of ['stopped', 'aborted'] as const) {
    expect(words({ batch, resinWet: true })).toContain('wet');
    expect(words({ batch, resinWet: false })).not.toContain('wet');
  }
  expect(words({ batch: 'complete', resinWet: true })).not.toContain('wet');
});
