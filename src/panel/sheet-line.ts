/**
 * What the job sheet names, for a person to compare with the vehicle and the bottle: in turn on one
 * line, and all of it behind MORE. A name that does not fit the line ends in two points there.
 */
import { DISPLAY_COLUMNS } from '../core/frame.ts';
import { type PhaseId, STEP_NUMBERS } from '../core/phases.ts';
import { filled } from '../core/phrases.ts';
import type { Catalogue } from './catalogue.ts';
import { plain } from './text.ts';

export interface SheetValues {
  /** The kind of damage, and its size across. */
  readonly damage: { readonly type: string; readonly diameterM: number };
  readonly sheet: {
    readonly reference: string;
    /** The vehicle's plate, or another reference to it; null where the sheet names none. */
    readonly vehicle: string | null;
    readonly resin: { readonly name: string; readonly lot: string };
    /** The step at which another attempt goes on; null where the job begins at its beginning. */
    readonly goesOnAt: PhaseId | null;
  };
}

/** Each name stays this long. */
const TURN_S = 3;

/** The line at this moment: each name of `sheetTurns` in turn, and then from the first again. */
export function sheetLine(values: SheetValues, elapsedS: number, catalogue: Catalogue): string {
  const turns = sheetTurns(values, catalogue);
  return turns[Math.floor(elapsedS / TURN_S) % turns.length] ?? '';
}

export function sheetTurns(
  { damage: { type, diameterM }, sheet }: SheetValues,
  { live, damage }: Catalogue,
): readonly string[] {
  const mm = (diameterM * 1000).toFixed(0);
  const { goesOnAt } = sheet;
  return [
    ...(goesOnAt === null ? [] : [filled(live.goesOn, { step: STEP_NUMBERS[goesOnAt] })]),
    filled(live.job, { damage: damage[type] ?? type, mm }),
    sheet.vehicle === null ? live.noVehicle : named(live.vehicle, sheet.vehicle),
    named(live.resin, sheet.resin.name),
    named(live.lot, sheet.resin.lot),
    named(live.reference, sheet.reference),
  ];
}

/** All that is named, whole, in one sentence. */
export function sheetWords({ sheet }: Pick<SheetValues, 'sheet'>, { live }: Catalogue): string {
  const { reference, vehicle, resin, goesOnAt } = sheet;
  return [
    ...(goesOnAt === null ? [] : [filled(live.goesOn, { step: STEP_NUMBERS[goesOnAt] })]),
    filled(live.reference, { name: reference }),
    vehicle === null ? live.noVehicle : filled(live.vehicle, { name: vehicle }),
    filled(live.resin, { name: resin.name }),
    filled(live.lot, { name: resin.lot }),
  ].join(', ');
}

const CUT = '..';

function named(template: string, name: string): string {
  const whole = plain(filled(template, { name }));
  if (whole.length <= DISPLAY_COLUMNS) return whole;
  return whole.slice(0, DISPLAY_COLUMNS - CUT.length) + CUT;
}
