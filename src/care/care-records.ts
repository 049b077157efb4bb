/**
 * The unit's history as care sees it: entries and repairs with the day on which they happened and
 * the order in which they were recorded. It decides which of two came first, and what was used up
 * since a piece of service. due.ts decides what falls due.
 */
import type {
  CareBody,
  GlassAdded,
  IrradianceFull,
  PressureLine,
  Service,
  ServiceDone,
} from './care-entry.ts';

export interface CareRecord<B extends CareBody = CareBody> {
  /**
   * Number in the record; entries that came with the unit have lower numbers than those of the
   * record.
   */
  readonly seq: number;
  /** The day on which it was recorded; the work may be older. */
  readonly loggedOn: string;
  readonly body: B;
}

/** What one repair used up. */
export interface RepairUse {
  readonly seq: number;
  readonly on: string;
  readonly lampOnS: number;
  /** Number of cures, each under a cover film of its own. */
  readonly cures: number;
  readonly films: number;
  /** Mean irradiance at the glass at full drive; null where there was none. */
  readonly irradianceWPerM2: number | null;
  /** Air pressure of a job that was completed; absent for others, and in older entries. */
  readonly airPa?: number;
}

/** The channels' figures in the unit file, before any calibration. */
export interface UnitFigures {
  readonly pressure: PressureLine;
  readonly irradiance: IrradianceFull;
  readonly temperature: GlassAdded;
}

export interface CareFacts {
  readonly today: string;
  readonly figures: UnitFigures;
  /** True for an invented unit. */
  readonly demo: boolean;
  readonly care: readonly CareRecord[];
  readonly repairs: readonly RepairUse[];
}

/** In the order of events; entries dated after today have not happened yet. */
export const happened = <B extends CareBody>(
  records: readonly CareRecord<B>[],
  today: string,
): readonly CareRecord<B>[] =>
  records
    .filter(({ body }) => body.on <= today)
    .toSorted((a, b) => compare(a.body.on, b.body.on) || a.seq - b.seq);

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const isOf =
  <W extends CareBody['what']>(what: W) =>
  (record: CareRecord): record is CareRecord<Extract<CareBody, { what: W }>> =>
    record.body.what === what;

export const isCalibration = isOf('calibration');
export const isHealthTest = isOf('health');
export const isLampReading = isOf('lamp');
const isService = isOf('service');

/** The latest time that this was done, up to today. */
export const lastService = (
  service: Service,
  { care, today }: Pick<CareFacts, 'care' | 'today'>,
): CareRecord<ServiceDone> | null =>
  happened(care.filter(isService), today).findLast(({ body }) => body.service === service) ?? null;

interface Dated {
  readonly seq: number;
  readonly on: string;
}

const wroteLate = ({ loggedOn, body }: CareRecord): boolean => loggedOn > body.on;

/**
 * Whether something certainly came after a piece of service. On the same day the order in the
 * record decides. Service that was recorded on a later day says nothing about the order within its
 * day, so nothing is certain then.
 */
export const isAfter = ({ seq, on }: Dated, service: CareRecord): boolean =>
  on > service.body.on || (on === service.body.on && seq > service.seq && !wroteLate(service));

/** The opposite benefit of the doubt: wear that may have come after the service. */
const mayBeAfter = (wear: Dated, service: CareRecord): boolean =>
  isAfter(wear, service) || (wear.on === service.body.on && wroteLate(service));

/** Repairs up to today that came after a piece of service. */
export const repairsSince = (
  service: CareRecord | null,
  { repairs, today }: Pick<CareFacts, 'repairs' | 'today'>,
): readonly RepairUse[] =>
  repairs.filter((use) => use.on <= today && (service === null || mayBeAfter(use, service)));
