/**
 * The part of the unit file that adjusts alarms: per alarm a limit, deadband or delay inside the
 * range of its row. The schema is derived from the table, so a new row brings its own settings. No
 * setting switches an alarm off.
 */
import { z } from 'zod';
import { quantity } from '../core/settings.ts';
import type { AlarmRow, Setting } from './alarm-row.ts';
import { ALARM_TABLE } from './alarm-table.ts';
import { SCALES, type Scale, toSI } from './scales.ts';

/** A row's figures in force, SI. */
export interface AlarmSettings {
  readonly limitSI: number;
  readonly deadbandSI: number;
  readonly delayS: number;
}

const within = ({ min, max }: Setting, unit: string) => quantity(min, max, unit).optional();

function rowSchema(row: AlarmRow) {
  const { unit } = SCALES[row.quantity];
  return z
    .strictObject({
      limit: within(row.limit, unit),
      deadband: within(row.deadband, unit),
      delayS: within(row.delayS, 's'),
    })
    .optional();
}

/** One set of figures for each row of the table, in order. */
export const alarmSettingsSchema = z
  .strictObject(Object.fromEntries(ALARM_TABLE.map((row) => [row.id, rowSchema(row)])))
  .transform((chosen): readonly AlarmSettings[] =>
    ALARM_TABLE.map((row) => settingsOf(row, chosen[row.id] ?? {})),
  );

type Chosen = z.infer<ReturnType<typeof rowSchema>>;

function settingsOf(row: AlarmRow, chosen: NonNullable<Chosen>): AlarmSettings {
  const scale: Scale = SCALES[row.quantity];
  return {
    limitSI: toSI(chosen.limit ?? row.limit.default, scale),
    // A difference has no zero point.
    deadbandSI: (chosen.deadband ?? row.deadband.default) * scale.siPerUnit,
    delayS: chosen.delayS ?? row.delayS.default,
  };
}
