/** Every file that is generated from the tables of this folder, by name. */
import { CHECKLIST } from '../checklist/checklist.ts';
import { checklistPage } from '../checklist/checklist-page.ts';
import { partsPage } from '../parts/parts-page.ts';
import { AIR_SHEETS, ELECTRIC_SHEETS, LIGHT_SHEETS, sheetSvg } from './diagram.ts';

export const wiringFiles = (): Readonly<Record<string, string>> => ({
  ...Object.fromEntries(
    [...ELECTRIC_SHEETS, ...AIR_SHEETS, ...LIGHT_SHEETS].map((drawn) => [
      drawn.sheet.file,
      sheetSvg(drawn),
    ]),
  ),
  'parts.md': partsPage(),
  'checklist.md': checklistPage(CHECKLIST),
});
