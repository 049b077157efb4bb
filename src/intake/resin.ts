/**
 * A bottle of resin as data: its purpose, its viscosity, how it cures, and until when it may be
 * used. The figures are those of the data sheet and the label. `resin-suitability.ts` decides
 * whether the bottle suits a job.
 */
import { z } from 'zod';
import { choice, quantity, schemaName, text } from '../core/settings.ts';
import { jPerM2FromMJPerCm2, kFromCelsius } from '../core/units.ts';

const date = z.iso.date({ error: 'a date as YYYY-MM-DD' });

const resinFileSchema = z.strictObject({
  schema: schemaName('meniscus/resin@1'),
  name: text(40),
  lot: text(40),
  /** Source of the figures. */
  source: text(200),
  /** An invented bottle for trials: it never really expires, and it fills no real break. */
  demo: z.boolean({ error: 'true or false' }).default(false),
  use: choice(['fill', 'pit']),
  viscosity: z
    .array(
      z.strictObject({
        atC: quantity(-10, 60, 'degrees Celsius'),
        mPaS: quantity(1, 100_000, 'mPa s'),
      }),
    )
    .min(2, { error: 'a table of 2 to 12 points' })
    .max(12, { error: 'a table of 2 to 12 points' }),
  /** The working curve: both figures or neither. */
  criticalExposureMJPerCm2: quantity(0.1, 1000, 'mJ/cm2').nullable(),
  penetrationDepthMm: quantity(0.05, 10, 'mm').nullable(),
  /** The light that sets it, by its data sheet; null where that does not say. */
  light: z
    .strictObject({ fromNm: quantity(300, 500, 'nm'), toNm: quantity(300, 500, 'nm') })
    .nullable()
    .default(null),
  glass: z.strictObject({
    lowestC: quantity(-10, 40, 'degrees Celsius'),
    highestC: quantity(10, 70, 'degrees Celsius'),
  }),
  expiresOn: date,
  /** Null while the bottle is sealed. */
  openedOn: date.nullable(),
  usableAfterOpeningDays: quantity(1, 2000, 'days'),
});
type ResinFile = z.infer<typeof resinFileSchema>;

export const resinSchema = resinFileSchema
  .check(({ value, issues }) => {
    const { criticalExposureMJPerCm2: critical, penetrationDepthMm: depth, glass, light } = value;
    const refuse = (path: readonly string[], message: string): void => {
      issues.push({ code: 'custom', input: value, path: [...path], message });
    };
    if ((critical === null) !== (depth === null)) {
      const missing = critical === null ? 'criticalExposureMJPerCm2' : 'penetrationDepthMm';
      refuse([missing], 'a number beside the other figure of the working curve, or both null');
    }
    if (light !== null && light.fromNm >= light.toNm) {
      refuse(['light', 'fromNm'], `less than light.toNm (${light.toNm})`);
    }
    if (glass.lowestC >= glass.highestC) refuse(['glass', 'lowestC'], 'less than glass.highestC');
    if (value.openedOn !== null && value.openedOn > value.expiresOn) {
      refuse(['openedOn'], `a day not after expiresOn (${value.expiresOn})`);
    }
    tableProblems(value).forEach(([path, message]) => {
      refuse(path, message);
    });
  })
  .transform((file) => ({
    name: file.name,
    lot: file.lot,
    source: file.source,
    demo: file.demo,
    use: file.use,
    viscosity: file.viscosity
      .map(({ atC, mPaS }) => ({ temperatureK: kFromCelsius(atC), viscosityPaS: mPaS / 1000 }))
      .sort((one, other) => one.temperatureK - other.temperatureK),
    curve: curveOf(file),
    light: file.light,
    glass: {
      lowestK: kFromCelsius(file.glass.lowestC),
      highestK: kFromCelsius(file.glass.highestC),
    },
    expiresOn: file.expiresOn,
    openedOn: file.openedOn,
    usableAfterOpeningDays: file.usableAfterOpeningDays,
  }));
export type Resin = z.infer<typeof resinSchema>;

/** A liquid thins as it warms, and each temperature may appear once in the table. */
function tableProblems({ viscosity }: ResinFile): readonly [string[], string][] {
  const sorted = [...viscosity].sort((one, other) => one.atC - other.atC);
  return sorted.flatMap((point, index): [string[], string][] => {
    const before = sorted[index - 1];
    if (before === undefined) return [];
    const path = ['viscosity', String(viscosity.indexOf(point)), 'mPaS'];
    if (point.atC === before.atC) return [[path, `one value at ${point.atC} C`]];
    return point.mPaS < before.mPaS
      ? []
      : [[path, `less than ${before.mPaS}, the value at ${before.atC} C`]];
  });
}

function curveOf({ criticalExposureMJPerCm2: critical, penetrationDepthMm: depth }: ResinFile) {
  if (critical === null || depth === null) return null;
  return { criticalJPerM2: jPerM2FromMJPerCm2(critical), penetrationM: depth / 1000 };
}

/**
 * Viscosity at a temperature, Pa s: linear in ln(viscosity) over 1/T between neighbours (the law of
 * Andrade, from memory), and extrapolated from the outermost pair beyond the table.
 */
export function viscosityAtPaS({ viscosity }: Pick<Resin, 'viscosity'>, temperatureK: number) {
  const above = viscosity.findIndex((point) => point.temperatureK >= temperatureK);
  const at = above === -1 ? viscosity.length - 1 : Math.max(1, above);
  const [cold, warm] = [viscosity[at - 1], viscosity[at]];
  if (cold === undefined || warm === undefined) throw new Error('a resin has at least two points');
  const share =
    (1 / cold.temperatureK - 1 / temperatureK) / (1 / cold.temperatureK - 1 / warm.temperatureK);
  const [low, high] = [Math.log(cold.viscosityPaS), Math.log(warm.viscosityPaS)];
  return Math.exp(low + share * (high - low));
}
