/**
 * One wavelength: whether the lamp's light is light that sets the resin, as the bottle's file states
 * it. A dose of other light shows nothing; where no file says which light it needs, nothing shows
 * that this is it. `procedure/repair/cure/light-chain.ts` holds lamp and radiometer together.
 */
import { numberAt } from '../../core/fields.ts';
import type { Saying } from '../../core/sayings.ts';
import type { BottleFact } from '../bottle-facts.ts';
import type { CuredPortion } from '../dose-part.ts';
import { say } from '../language.ts';
import { type Ground, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';

/** Unit files from before it was stated have a lamp of this peak, nm. */
const PEAK_NM = 365;
const peakOf = ({ inputs }: ClaimFacts): number =>
  numberAt(inputs.unit, 'lamp', 'peakNm') ?? PEAK_NM;

/** The bottles of this portion; a pit without one of its own is filled from the other. */
function inUse({ about }: ClaimFacts, portion: CuredPortion): readonly BottleFact[] {
  const { fill, pit } = about.bottles;
  const bottles = portion === 'fill' ? [fill] : portion === 'pit' ? [pit ?? fill] : [fill, pit];
  return bottles.flatMap((bottle) => bottle ?? []);
}

export const bottleSaid = ({ name, lot }: BottleFact): Saying => say('lines.bottle', { name, lot });

const setBy = (bottle: BottleFact, peakNm: number) => {
  const { light } = bottle;
  if (light === null) return null;
  const { fromNm, toNm } = light;
  return {
    isThis: peakNm >= fromNm && peakNm <= toNm,
    words: say('lines.bottle-light', {
      bottle: bottleSaid(bottle),
      from: String(fromNm),
      to: String(toNm),
      peak: String(peakNm),
    }),
  };
};

/** For the claim on the resin: its file says that this light sets it. */
export const forThisLight: Ground = (facts) => {
  const peakNm = peakOf(facts);
  return inUse(facts, 'fill and pit').flatMap((bottle) => {
    const set = setBy(bottle, peakNm);
    if (set !== null) return set.isThis ? [supports('bottle file', set.words)] : [];
    return [
      objects(
        'resin-light-unstated',
        say('lines.bottle-light-unstated', { bottle: bottleSaid(bottle) }),
      ),
    ];
  });
};

/** For the claim on the dose: no count of other light shows anything. */
export const ofItsLight: Ground = (facts, part) => {
  const peakNm = peakOf(facts);
  return inUse(facts, part?.portion ?? 'fill and pit').flatMap((bottle) => {
    const set = setBy(bottle, peakNm);
    return set === null || set.isThis ? [] : [objects('resin-other-light', set.words)];
  });
};
