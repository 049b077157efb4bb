/**
 * What must be done before a repair can begin, given the glass, the air and the state of the break:
 * a table of conditions with instructions and reasons. The temperature windows come from the advice
 * rules and the resin.
 */
import { celsiusFromK } from '../../core/units.ts';

export interface Site {
  /** SI; null where it is not known. */
  readonly glassK: number | null;
  readonly airK: number | null;
  readonly dewPointK: number | null;
  readonly humidityRatio: number | null;
  readonly window: { readonly lowestK: number; readonly highestK: number };
  readonly aboveDewPointK: number;
  readonly humidAirRatio: number;
  readonly oldBreakDays: number;
  readonly moisture: 'dry' | 'damp' | 'wet' | 'unknown';
  readonly contamination: 'none' | 'can-be-removed' | 'stays' | 'unknown';
  readonly ageDays: number | null;
  /** Highest rate at which this unit lets a damaged pane be warmed, K/s. */
  readonly heatingKPerS: number;
}

export const FIRST_STEPS = ['measure', 'warm', 'shade', 'dry', 'clean', 'shelter', 'look'] as const;
export interface FirstStep {
  readonly do: (typeof FIRST_STEPS)[number];
  /** `must` blocks the start of the repair; `should` is advice. */
  readonly weight: 'must' | 'should';
  readonly words: string;
}

const c = (k: number): string => celsiusFromK(k).toFixed(0);
const windowWords = ({ window }: Site): string => `${c(window.lowestK)} to ${c(window.highestK)} C`;

interface Row {
  readonly do: FirstStep['do'];
  readonly weight: FirstStep['weight'];
  readonly words: (site: Site) => string | null;
}

const ROWS: readonly Row[] = [
  {
    do: 'measure',
    weight: 'must',
    words: (site) =>
      site.glassK === null
        ? `Measure the glass temperature beside the break; the repair needs ${windowWords(site)}.`
        : null,
  },
  {
    do: 'warm',
    weight: 'must',
    words: (site) =>
      site.glassK !== null && site.glassK < site.window.lowestK
        ? `Glass is ${c(site.glassK)} C. Bring the vehicle indoors and let the whole pane reach ${windowWords(site)}, at no more than ${(site.heatingKPerS * 60).toFixed(0)} K per minute. Never warm one spot: legs grow from it.`
        : null,
  },
  {
    do: 'shade',
    weight: 'must',
    words: (site) =>
      site.glassK !== null && site.glassK > site.window.highestK
        ? `Glass is ${c(site.glassK)} C. Shade the whole pane, not the break alone, and wait until it is ${windowWords(site)}. Do not cool it with water or cold air.`
        : null,
  },
  {
    do: 'dry',
    weight: 'must',
    words: ({ moisture }) =>
      moisture === 'damp' || moisture === 'wet'
        ? 'Dry the break: warm a wide area gently, let it cool, look again. Water cured in turns milky.'
        : null,
  },
  {
    do: 'dry',
    weight: 'must',
    words: ({ glassK, dewPointK, aboveDewPointK }) =>
      glassK !== null && dewPointK !== null && glassK < dewPointK + aboveDewPointK
        ? `Glass at ${c(glassK)} C is within ${aboveDewPointK} K of the dew point of this air (${c(dewPointK)} C): water will condense in the break. Warm the whole pane or dry the air.`
        : null,
  },
  {
    do: 'look',
    weight: 'should',
    words: ({ moisture, ageDays, oldBreakDays }) =>
      moisture === 'unknown' || (ageDays !== null && ageDays > oldBreakDays)
        ? 'Look for water and dirt in the legs before anything else; the seal check also reveals water.'
        : null,
  },
  {
    do: 'clean',
    weight: 'must',
    words: ({ contamination }) =>
      contamination === 'can-be-removed'
        ? 'Remove the dirt first; dirt left in the legs stays visible and keeps resin out.'
        : null,
  },
  {
    do: 'shelter',
    weight: 'should',
    words: ({ humidityRatio, humidAirRatio }) =>
      humidityRatio !== null && humidityRatio > humidAirRatio
        ? `Relative humidity is ${(humidityRatio * 100).toFixed(0)} %: work indoors and keep the dried break covered.`
        : null,
  },
];

export function firstSteps(site: Site): readonly FirstStep[] {
  return ROWS.flatMap(({ words, ...step }) => {
    const said = words(site);
    return said === null ? [] : [{ ...step, words: said }];
  });
}
