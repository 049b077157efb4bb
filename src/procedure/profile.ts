/**
 * The profile of a repair: set-points, dwells, cycles and dose, as a file in trade units and as SI
 * values inside. Vacuum is stated as absolute pressure, because the gas left in a break depends on
 * it; pressure is stated relative to the local atmosphere, because that difference loads the glass.
 * `profileOverLimits` decides whether a unit may run a profile; the phases run it.
 */
import { z } from 'zod';
import { CURINGS, REMEDY_IDS } from '../core/events.ts';
import { choice, quantity, schemaName, text, wholeNumber } from '../core/settings.ts';
import { jPerM2FromMJPerCm2, kFromCelsius, paFromKPa } from '../core/units.ts';
import { alongSchema } from './along.ts';

const profileFileSchema = z.strictObject({
  schema: schemaName('meniscus/profile@1'),
  name: text(40),
  /** Source of the figures; printed in the report. */
  source: text(200),
  sealCheck: z.strictObject({
    pullKPaAbs: quantity(20, 90, 'kPa absolute'),
    reachWithinS: quantity(2, 120, 's'),
    settleS: quantity(0.5, 30, 's'),
    /**
     * At least 15 s, so that the finding rests on 100 points; 45 s to distinguish water from
     * outgassing.
     */
    watchS: quantity(15, 120, 's'),
    leakLimitPaM3PerS: quantity(0.0005, 0.05, 'Pa m3/s'),
    /**
     * The dry seal is watched under pressure too, for as many points; null where it is not, as in
     * profiles from before this test.
     */
    pressWatchS: quantity(15, 60, 's').nullable().default(null),
  }),
  vacuum: z.strictObject({
    setPointKPaAbs: quantity(5, 90, 'kPa absolute'),
    lowestKPaAbs: quantity(1, 90, 'kPa absolute'),
    reachWithinS: quantity(2, 300, 's'),
    dwellS: quantity(5, 600, 's'),
    extendByS: quantity(5, 300, 's'),
    longestDwellS: quantity(5, 900, 's'),
  }),
  pressure: z.strictObject({
    setPointKPaGauge: quantity(20, 400, 'kPa over atmosphere'),
    highestKPaGauge: quantity(20, 400, 'kPa over atmosphere'),
    reachWithinS: quantity(2, 300, 's'),
    dwellS: quantity(5, 1200, 's'),
    /**
     * Vented for this long before the fill is judged: air that the pressure hid needs time to show.
     */
    restS: quantity(0, 300, 's'),
  }),
  cycles: z.strictObject({
    planned: wholeNumber(1, 10, 'cycles'),
    extra: wholeNumber(0, 10, 'cycles'),
    /** Fresh resin after so many; demo. */
    rechargeAfter: wholeNumber(1, 20, 'cycles').default(2),
  }),
  glass: z.strictObject({
    lowestC: quantity(0, 40, 'degrees Celsius'),
    highestC: quantity(15, 80, 'degrees Celsius'),
  }),
  cure: z.strictObject({
    /** The minimum at the resin, as data sheets state it; a deep break may need more. */
    targetAtResinMJPerCm2: quantity(100, 50_000, 'mJ/cm2'),
    /** Applied to the dose that the depth of the break requires. */
    marginFactor: quantity(1, 10, 'times').default(2),
    /** Share of the lamp's light that the cover film transmits to the resin. */
    filmPassesPercent: quantity(10, 100, '%').default(90),
    leastS: quantity(10, 1800, 's'),
    longestS: quantity(10, 3600, 's'),
    lampPercent: quantity(10, 100, '%'),
  }),
  /** Apart: the fill is cured before the pit is made, and `pitCure` describes the pit's cure. */
  curing: choice(CURINGS).default('together'),
  pitCure: z
    .strictObject({
      /** The minimum at the resin; a deep pit may need more, with the margin of the cure. */
      targetAtResinMJPerCm2: quantity(100, 50_000, 'mJ/cm2'),
      leastS: quantity(10, 1800, 's'),
      longestS: quantity(10, 3600, 's'),
    })
    .nullable()
    .default(null),
  /** How a crack is worked along its length; null where one place of injector and lamp is enough. */
  along: alongSchema.nullable().default(null),
  /** Remedies that may be offered when the break is not clear; see `repair/remedies.json`. */
  remedies: z.array(choice(REMEDY_IDS)).default([...REMEDY_IDS]),
  /** Advice to the person when the break is not clear. */
  notClearAdvice: choice(['another-cycle', 'warm-the-pane']),
});
type ProfileFile = z.output<typeof profileFileSchema>;

export const profileSchema = profileFileSchema
  .check(ordered(['vacuum', 'lowestKPaAbs'], ['vacuum', 'setPointKPaAbs'], 2))
  .check(ordered(['pressure', 'setPointKPaGauge'], ['pressure', 'highestKPaGauge'], 2))
  .check(ordered(['vacuum', 'dwellS'], ['vacuum', 'longestDwellS'], 0))
  .check(ordered(['glass', 'lowestC'], ['glass', 'highestC'], 5))
  .check(ordered(['cure', 'leastS'], ['cure', 'longestS'], 0))
  .check(ordered(['pitCure', 'leastS'], ['pitCure', 'longestS'], 0))
  .check(pitCureWhereApart)
  .check(togetherWhereAlong)
  .transform(profileFromFile);
export type Profile = ReturnType<typeof profileFromFile>;

/** Refuses a file in which `low` is not at least `apart` below `high`. */
function ordered(low: [Section, string], high: [Section, string], apart: number) {
  return z.check<ProfileFile>((payload) => {
    const at = ([section, field]: [Section, string]): number =>
      (payload.value[section] as Readonly<Record<string, number>> | null)?.[field] ?? Number.NaN;
    if (payload.value[low[0]] === null || at(low) + apart <= at(high)) return;
    const bound = apart === 0 ? 'at most' : `at least ${apart} below`;
    payload.issues.push({
      code: 'custom',
      input: payload.value,
      path: low,
      message: `${bound} ${high.join('.')} (${at(high)})`,
    });
  });
}
type Section = 'vacuum' | 'pressure' | 'glass' | 'cure' | 'pitCure';

function pitCureWhereApart({ value, issues }: z.core.ParsePayload<ProfileFile>): void {
  if (value.curing === 'together' || value.pitCure !== null) return;
  issues.push({
    code: 'custom',
    input: value,
    path: ['pitCure'],
    message: 'targetAtResinMJPerCm2, leastS and longestS, because curing is apart',
  });
}

/** In one exposure for each field: the pit lies in the first. */
function togetherWhereAlong({ value, issues }: z.core.ParsePayload<ProfileFile>): void {
  if (value.curing === 'together' || value.along === null) return;
  issues.push({
    code: 'custom',
    input: value,
    path: ['curing'],
    message: 'together, because along cures fill and pit field by field',
  });
}

function profileFromFile(file: ProfileFile) {
  const { sealCheck, vacuum, pressure, cycles, glass, cure, pitCure } = file;
  return {
    name: file.name,
    source: file.source,
    notClearAdvice: file.notClearAdvice,
    remedies: file.remedies,
    sealCheck: {
      pullPa: paFromKPa(sealCheck.pullKPaAbs),
      reachWithinS: sealCheck.reachWithinS,
      settleS: sealCheck.settleS,
      watchS: sealCheck.watchS,
      leakLimitPaM3PerS: sealCheck.leakLimitPaM3PerS,
      pressWatchS: sealCheck.pressWatchS,
    },
    vacuum: {
      setPointPa: paFromKPa(vacuum.setPointKPaAbs),
      lowestPa: paFromKPa(vacuum.lowestKPaAbs),
      reachWithinS: vacuum.reachWithinS,
      dwellS: vacuum.dwellS,
      extendByS: vacuum.extendByS,
      longestDwellS: vacuum.longestDwellS,
    },
    pressure: {
      setPointGaugePa: paFromKPa(pressure.setPointKPaGauge),
      highestGaugePa: paFromKPa(pressure.highestKPaGauge),
      reachWithinS: pressure.reachWithinS,
      dwellS: pressure.dwellS,
      restS: pressure.restS,
    },
    cycles,
    glass: { lowestK: kFromCelsius(glass.lowestC), highestK: kFromCelsius(glass.highestC) },
    cure: {
      targetAtResinJPerM2: jPerM2FromMJPerCm2(cure.targetAtResinMJPerCm2),
      marginFactor: cure.marginFactor,
      filmRatio: cure.filmPassesPercent / 100,
      leastS: cure.leastS,
      longestS: cure.longestS,
      lampRatio: cure.lampPercent / 100,
    },
    curing: file.curing,
    along: file.along,
    /** Null where the pit is cured together with the fill. */
    pitCure: file.curing === 'together' || pitCure === null ? null : pitCureFromFile(pitCure),
  } as const;
}

function pitCureFromFile({
  targetAtResinMJPerCm2: mJ,
  ...times
}: NonNullable<ProfileFile['pitCure']>) {
  return { targetAtResinJPerM2: jPerM2FromMJPerCm2(mJ), ...times };
}
