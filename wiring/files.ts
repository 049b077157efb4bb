/** Every file that is made from the tables of this folder, by its name here. */
import { CHECKLIST } from './checklist.ts';
import { checklistPage } from './checklist-page.ts';
import { AIR_SHEETS, ELECTRIC_SHEETS, sheetSvg } from './diagram.ts';
import { partsPage } from './parts-page.ts';

export const wiringFiles = (): Readonly<Record<string, string>> => ({
  ...Object.fromEntries(
    [...ELECTRIC_SHEETS, ...AIR_SHEETS].map((drawn) => [drawn.sheet.file, sheetSvg(drawn)]),
  ),
  'parts.md': partsPage(),
  'checklist.md': checklistPage(CHECKLIST),
});
