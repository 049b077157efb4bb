/**
 * Converts what older versions of the journal wrote differently into today's form. Each line is
 * migrated before it is checked, so that an old journal obeys the same rules as a new one.
 *
 * Version 1 named no columns. It left out an unknown host time, and it had a separate name for each
 * portion of a measurement of fill and pit.
 *
 * Version 2 knew three buttons, and nothing of their ladder but presses: what it read is not known.
 */
import type { Measurement, Portion } from '../core/measurements.ts';
import { valueAt } from '../core/settings.ts';
import type { Column } from './columns.ts';
import { LETTERS, UNKNOWN_TIME } from './tick-line.ts';

export interface Migration {
  readonly header: (header: Readonly<Record<string, unknown>>) => unknown;
  readonly tick: (fields: readonly unknown[]) => readonly unknown[];
  readonly event: (event: unknown) => unknown;
}

const NO_CHANGE: Migration = {
  header: (header) => header,
  tick: (fields) => fields,
  event: (event) => event,
};

/** `header` as read from the file. */
export const migrationOf = (
  version: number,
  header: Readonly<Record<string, unknown>>,
): Migration => (version === 1 ? fromVersion1(header) : NO_CHANGE);

const VERSION_1_COLUMNS: readonly Column[] = [
  'sequence',
  'timeS',
  'sampledAtS',
  'pressure',
  'irradiance',
  'glassTemperature',
  'heatSinkTemperature',
  'supplyVoltage',
  'frameBits',
  'pumpRatio',
  'actuatorBits',
  'lampRatio',
  'hostTimeS',
  'buttons',
  'requests',
];
const HOST_TIME = VERSION_1_COLUMNS.indexOf('hostTimeS');

/** Measured of the single exposure when fill and pit are cured together, otherwise of the fill. */
const OF_FIRST_CURE = 'of-first-cure';

const VERSION_1_NAMES: Readonly<
  Record<string, readonly [Measurement, Portion | typeof OF_FIRST_CURE]>
> = {
  breakTargetJPerM2: ['depthTargetJPerM2', OF_FIRST_CURE],
  openResinDoseJPerM2: ['openResinDoseJPerM2', OF_FIRST_CURE],
  openResinUnseenJPerM2: ['openResinUnseenJPerM2', OF_FIRST_CURE],
  openResinShareRatio: ['openResinShareRatio', OF_FIRST_CURE],
  fillIrradianceMeanWPerM2: ['irradianceMeanWPerM2', 'fill'],
  fillDoseJPerM2: ['doseJPerM2', 'fill'],
  fillDoseUncertaintyJPerM2: ['doseUncertaintyJPerM2', 'fill'],
  fillLampOnS: ['lampOnS', 'fill'],
  fillTargetJPerM2: ['targetJPerM2', 'fill'],
  fillThroughPitJPerM2: ['throughPitJPerM2', 'fill'],
  pitIrradianceMeanWPerM2: ['irradianceMeanWPerM2', 'pit'],
  pitDoseJPerM2: ['doseJPerM2', 'pit'],
  pitDoseUncertaintyJPerM2: ['doseUncertaintyJPerM2', 'pit'],
  pitLampOnS: ['lampOnS', 'pit'],
  pitTargetJPerM2: ['targetJPerM2', 'pit'],
  pitDepthTargetJPerM2: ['depthTargetJPerM2', 'pit'],
  pitOpenResinDoseJPerM2: ['openResinDoseJPerM2', 'pit'],
  pitOpenResinUnseenJPerM2: ['openResinUnseenJPerM2', 'pit'],
  pitOpenResinShareRatio: ['openResinShareRatio', 'pit'],
};

function fromVersion1(file: Readonly<Record<string, unknown>>): Migration {
  const firstCure = valueAt(file, ['inputs', 'profile', 'curing']) === 'apart' ? 'fill' : null;
  return {
    // Version 1 had no columns: any that are present must not pass for the added ones.
    header: ({ columns, ...header }) => ({
      ...header,
      ...(columns !== undefined && { 'columns of version 1': columns }),
      columns: VERSION_1_COLUMNS,
    }),
    tick: withHostTime,
    event: (event) => {
      if (!isMeasured(event)) return event;
      const [name, portion] = VERSION_1_NAMES[event.name] ?? [event.name, null];
      return { ...event, name, portion: portion === OF_FIRST_CURE ? firstCure : portion };
    },
  };
}

/** A missing host time left its place to the buttons, which are letters. */
function withHostTime(fields: readonly unknown[]): readonly unknown[] {
  const here = fields[HOST_TIME];
  const leftOut = fields.length === HOST_TIME || (typeof here === 'string' && LETTERS.test(here));
  return leftOut
    ? [...fields.slice(0, HOST_TIME), UNKNOWN_TIME, ...fields.slice(HOST_TIME)]
    : fields;
}

function isMeasured(
  event: unknown,
): event is { readonly kind: 'measured'; readonly name: string } & Record<string, unknown> {
  return valueAt(event, ['kind']) === 'measured' && typeof valueAt(event, ['name']) === 'string';
}
