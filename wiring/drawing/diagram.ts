/**
 * The wiring drawings: five sheets of A4 landscape as SVG text, drawn from the pin map, the circuit,
 * the air side and the lamp head. Pure; `write.js` writes the files.
 */
import { PARTS } from '../parts/circuit.ts';
import { type PartTypeName, partType } from '../parts/part-types.ts';
import { AIR_PARTS } from '../parts/pneumatics.ts';
import { PINS } from '../pin-map.ts';
import { type Catalogue, type Sheet, sheetShapes } from './sheet.ts';
import { DRIVES } from './sheet-drives.ts';
import { LIGHT } from './sheet-light.ts';
import { AIR_FORMS, PNEUMATICS } from './sheet-pneumatics.ts';
import { CONTROLLER_FORM, POWER } from './sheet-power.ts';
import { SIGNALS } from './sheet-signals.ts';
import { svgOf } from './svg.ts';
import type { BoxForm } from './symbols.ts';

const FORMS: Readonly<Record<string, BoxForm>> = {
  PS1: { width: 10, left: [], right: ['+', '-'] },
  U1: { width: 12, left: ['IN', 'GND'], right: ['OUT'] },
  N1: CONTROLLER_FORM,
  X1: { width: 12, left: ['TXD', 'RXD', 'GND'], right: [] },
  U2: { width: 12, left: ['IN', 'DIM', 'GND'], right: ['LED+', 'LED-'] },
  U3: { width: 8, left: [], right: ['5V', 'OUT', 'GND'] },
  U4: { width: 8, left: [], right: ['5V', 'OUT', 'GND'] },
  H1: { width: 9, left: ['5V', 'SDA', 'SCL', 'GND'], right: [] },
  HL1: { width: 7, left: ['R', '', 'G', '', 'B', '', 'K'], right: [] },
  BZ1: { width: 6, left: ['+', '-'], right: [] },
};

function lookUp<T>(table: Readonly<Record<string, T>>, part: string): T {
  const found = table[part];
  if (found === undefined) throw new Error(`No such part on this sheet: ${part}`);
  return found;
}

const electric: Catalogue = {
  typeOf: (part) => partType(lookUp<PartTypeName>(PARTS, part)),
  formOf: (part) => lookUp(FORMS, part),
  endOf: (part, terminal) =>
    part === 'N1' && terminal in PINS ? `pin.${terminal}` : `${part}.${terminal}`,
};

/** On the air side every part is a box with ports. */
const pneumatic: Catalogue = {
  typeOf: (part) => ({ ...partType(lookUp<PartTypeName>(AIR_PARTS, part)), symbol: 'module' }),
  formOf: (part) => lookUp(AIR_FORMS, part),
  endOf: (part, terminal) => `${part}.${terminal}`,
};

export interface DrawnSheet {
  readonly sheet: Sheet;
  readonly catalogue: Catalogue;
}

export const ELECTRIC_SHEETS: readonly DrawnSheet[] = [POWER, DRIVES, SIGNALS].map((sheet) => ({
  sheet,
  catalogue: electric,
}));
export const AIR_SHEETS: readonly DrawnSheet[] = [{ sheet: PNEUMATICS, catalogue: pneumatic }];
/** Parts are drawn as they stand, not as symbols. */
export const LIGHT_SHEETS: readonly DrawnSheet[] = [{ sheet: LIGHT, catalogue: electric }];

export const sheetSvg = ({ sheet, catalogue }: DrawnSheet): string =>
  svgOf(sheet.title, sheetShapes(sheet, catalogue));
