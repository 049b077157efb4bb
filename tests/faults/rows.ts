/** The table of the campaign: every single fault that is tried, by place. */
import type { Place, Row } from './row.ts';
import { LINE_ROWS, PEOPLE_ROWS } from './rows-people.ts';
import { HEAT_ROWS, LIGHT_ROWS, PRESSURE_ROWS } from './rows-sensors.ts';
import { AIR_ROWS, CONTACT_ROWS, LAMP_ROWS } from './rows-unit.ts';

export const ROWS_BY_PLACE: Readonly<Record<Place, readonly Row[]>> = {
  pressure: PRESSURE_ROWS,
  light: LIGHT_ROWS,
  heat: HEAT_ROWS,
  air: AIR_ROWS,
  lamp: LAMP_ROWS,
  contacts: CONTACT_ROWS,
  people: PEOPLE_ROWS,
  line: LINE_ROWS,
};

export const ROWS: readonly Row[] = Object.values(ROWS_BY_PLACE).flat();

export const rowOf = (id: string): Row | undefined => ROWS.find((row) => row.id === id);
