import { describe, expect, test } from 'vitest';
import { paperWordsOf } from '../../../src/app/prepare/paper-words.ts';
import { ENGLISH_WORDS } from '../../../src/app/prepare/terminal-words.ts';
import { keysLine } from '../../../src/cli/terminal/keys.ts';
import { drawPanel, type PanelPicture } from '../../../src/cli/terminal/panel-drawing.ts';
import { problemLine } from '../../../src/core/settings.ts';
import { madeLanguage, outsideWords } from '../../app/prepare/made-language.ts';

const PICTURE: PanelPicture = {
  title: 'Meniscus',
  signals: {
    buzzer: 'off',
    status: { colour: 'green', flashing: false },
    display: [
      '5.2 Vacuum holds    ',
      '-76 kPa gauge   20 s',
      'Watch for bubbles   ',
      'HOLD=make safe  MORE',
    ],
  },
  snapshot: {
    timeS: 100,
    batch: 'running',
    phase: 'vacuum-dwell',
    cycle: 1,
    pressurePa: 25_000,
    setPointPa: 25_000,
    atmospherePa: 100_600,
    irradianceWPerM2: 0,
    doseJPerM2: 15_000,
    targetJPerM2: 60_000,
    glassK: 296.15,
    heatSinkK: 295.15,
    supplyV: 12,
  },
  lowestPa: 15_000,
  highestPa: 272_600,
  seen: 'bubbles',
  keys: 'keys',
};
const draw = (snapshot: Partial<PanelPicture['snapshot']> = {}): string =>
  drawPanel({ ...PICTURE, snapshot: { ...PICTURE.snapshot, ...snapshot } }, ENGLISH_WORDS, false);
const lineWith = (text: string, word: string): string =>
  text.split('\n').find((line) => line.includes(word)) ?? '';

describe('the panel in a terminal', () => {
  test('shows the display as it is, in a frame', () => {
    for (const line of PICTURE.signals.display) expect(draw()).toContain(`│ ${line} │`);
  });

  test('fits 80 columns, whatever is measured', () => {
    for (const change of [
      {},
      { pressurePa: null, setPointPa: null },
      { pressurePa: 399_000 },
      { doseJPerM2: 1e6 },
    ]) {
      for (const line of draw(change).split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    }
  });

  // 30 cells from 15 to 272.6 kPa: 25 kPa is cell 1, the atmosphere cell 10, 238.6 kPa cell 25.
  test('the pressure bar runs from the atmosphere to where the pressure is', () => {
    expect(lineWith(draw({ setPointPa: null }), 'Pressure')).toContain(`·${'━'.repeat(9)}┼···`);
    expect(lineWith(draw({ pressurePa: 238_600, setPointPa: null }), 'Pressure')).toContain(
      `┼${'━'.repeat(15)}···· `,
    );
    expect(lineWith(draw(), 'Pressure')).toContain('25.0 kPa abs, set-point ◆ 25');
  });

  test('the dose bar is a quarter full at a quarter of the target and never overflows', () => {
    const cells = (text: string): number => lineWith(text, 'Dose').split('█').length - 1;
    expect(cells(draw())).toBe(7);
    expect(cells(draw({ doseJPerM2: 60_000 }))).toBe(30);
    expect(cells(draw({ doseJPerM2: 90_000 }))).toBe(30);
  });

  test('says so when there is no reading', () => {
    expect(draw({ pressurePa: null })).toContain('no reading');
  });
});

test('every word beside the display comes from the folder of its language', () => {
  const made = paperWordsOf(madeLanguage());
  if (!made.ok) throw new Error(made.problems.map(problemLine).join('\n'));
  const colours = ['off', 'red', 'yellow', 'green', 'blue'] as const;
  for (const colour of colours) {
    const signals = { ...PICTURE.signals, status: { colour, flashing: true } };
    for (const pressurePa of [null, 25_000]) {
      const snapshot = { ...PICTURE.snapshot, pressurePa };
      const drawn = drawPanel({ ...PICTURE, signals, snapshot }, made.value, false);
      const beside = drawn.replaceAll(/│ .{20} │/g, '');
      const given = ['Meniscus', 'bubbles', 'keys', 'kPa', 'abs', 'mW', 'cm'];
      expect(outsideWords(beside).filter((word) => !given.includes(word))).toEqual([]);
    }
  }
});

test('the keys are named as the display names its buttons', () => {
  const names = { hold: 'ALTO', yes: 'SÍ', no: 'NO', more: 'INFO' };
  const spanish = paperWordsOf('es');
  if (!spanish.ok) throw new Error('es');
  expect(keysLine(spanish.value.terminal.panel, 'buttons', names)).toBe(
    'h ALTO  y SÍ  n NO  m INFO   Ctrl-C fin',
  );
  for (const set of ['all', 'buttons', 'none'] as const) {
    const line = keysLine(ENGLISH_WORDS.terminal.panel, set, names);
    expect(line).not.toMatch(/[{}]/);
    expect(line.length).toBeLessThanOrEqual(76);
  }
});
