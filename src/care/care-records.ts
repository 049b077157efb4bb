/**
 * The unit's past as its care sees it: entries and repairs with the day on which they happened and
 * the order in which they were written down. It says which of two came first and what was used up
 * since a piece of service. What falls due is left to due.ts.
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
  /** Place in the record; whatever came with the unit has numbers below those of the record. */
  readonly seq: number;
  /** The day on which it was written down; it may have been done before. */
  readonly loggedOn: string;
  readonly body: B;
}

/** What one repair used up. */
export interface RepairUse {
  readonly seq: number;
  readonly on: string;
  readonly lampOnS: number;
  /** Times that the lamp was put over resin, and cover films used for it. */
  readonly cures: number;
  readonly films: number;
  /** Mean irradiance at the glass with full drive; null where there was none. */
  readonly irradianceWPerM2: number | null;
}

/** The channels' figures as the unit file states them, before any calibration. */
export interface UnitFigures {
  readonly pressure: PressureLine;
  readonly irradiance: IrradianceFull;
  readonly temperature: GlassAdded;
}

export interface CareFacts {
  readonly today: string;
  readonly figures: UnitFigures;
  /** The unit is an invented one. */
  readonly demo: boolean;
  readonly care: readonly CareRecord[];
  readonly repairs: readonly RepairUse[];
}

/** In the order in which things happened; what is dated after today has not happened. */
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

/** The last time that this was done, up to today. */
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
 * Whether something surely came after a piece of service. On the same day the order in the record
 * tells; service that was written down later than it was done says nothing of the order within its
 * day, and nothing is then taken as sure.
 */
export const isAfter = ({ seq, on }: Dated, service: CareRecord): boolean =>
  on > service.body.on || (on === service.body.on && seq > service.seq && !wroteLate(service));

/** The same where the doubt counts the other way: wear may have come after. */
const mayBeAfter = (wear: Dated, service: CareRecord): boolean =>
  isAfter(wear, service) || (wear.on === service.body.on && wroteLate(service));

/** Repairs up to today that came after a piece of service. */
export const repairsSince = (
  service: CareRecord | null,
  { repairs, today }: Pick<CareFacts, 'repairs' | 'today'>,
): readonly RepairUse[] =>
  repairs.filter((use) => use.on <= today && (service === null || mayBeAfter(use, service)));
