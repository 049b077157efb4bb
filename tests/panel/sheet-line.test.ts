import { describe, expect, it } from 'vitest';
import { helpPages } from '../../src/panel/page-words.ts';
import { sheetLine, sheetTurns } from '../../src/panel/sheet-line.ts';
import { ENGLISH, SPANISH } from './catalogues.ts';
import { composeSignals, LIVE, view } from './views.ts';

const SHEET = {
  reference: 'job-7',
  vehicle: 'AB 12 CDE',
  resin: { name: 'demo resin', lot: 'demo-lot-1' },
  goesOnAt: null,
};
const VALUES = { damage: { type: 'star-break', diameterM: 0.022 }, sheet: SHEET };

describe('the step of the job sheet', () => {
  it('shows damage, plate, resin, lot and job in turn, three seconds each', () => {
    const at = (s: number): string => sheetLine(VALUES, s, ENGLISH);
    expect([0, 2.9, 3, 6, 9, 12, 15].map(at)).toEqual([
      'Star break 22 mm',
      'Star break 22 mm',
      'Plate AB 12 CDE',
      'Resin demo resin',
      'Lot demo-lot-1',
      'Job job-7',
      'Star break 22 mm',
    ]);
  });

  it('says so where the sheet names no vehicle', () => {
    const turns = sheetTurns({ ...VALUES, sheet: { ...SHEET, vehicle: null } }, SPANISH);
    expect(turns[1]).toBe('Hoja sin matrícula');
  });

  it('says first where another attempt goes on', () => {
    const again = { ...VALUES, sheet: { ...SHEET, goesOnAt: 'set-bridge' } } as const;
    expect(sheetLine(again, 0, ENGLISH)).toBe('Goes on at step 3.5');
  });

  it('marks a name that does not fit the line, and shows it whole behind MORE', () => {
    const resin = { name: 'thin resin of the winter', lot: '2026-11-B' };
    const live = { ...LIVE, ...VALUES, sheet: { ...SHEET, resin } };
    const step = view({ phase: 'job-sheet', live: { ...live, phaseElapsedS: 6 } });
    expect(composeSignals(step).display[1]).toBe('Resin thin resin o..');
    const told = helpPages(step).flatMap(({ lines }) => lines);
    expect(told.join(' ')).toContain(
      'Job job-7, Plate AB 12 CDE, Resin thin resin of the winter, Lot 2026-11-B.',
    );
  });
});
