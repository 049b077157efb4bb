import { describe, expect, test } from 'vitest';
import { drawPanel, type PanelPicture } from '../../../src/cli/terminal/panel-drawing.ts';

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
  drawPanel({ ...PICTURE, snapshot: { ...PICTURE.snapshot, ...snapshot } }, false);
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
