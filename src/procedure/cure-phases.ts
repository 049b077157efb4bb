/**
 * From a break that was judged to resin that is cured. Together: pit resin goes on the liquid fill and
 * one exposure is counted for both. Apart: the fill is cured first, under film, so that nothing runs
 * out of the legs or is drawn up while the pit is made, and so that the pit resin also fills what the
 * fill lost in volume as it set (common practice, no source). Film rather than a plug of glass, which
 * could be cured fast. How much light is enough is decided in the cure's own room.
 */

import type { Measurement } from '../events.ts';
import type { PhaseId } from '../phases.ts';
import type { Phase, PhaseContext } from './phase.ts';
import { BASE, handWork, vented } from './phase-kinds.ts';
import type { Profile } from './profile.ts';

/** Where the way to the cure begins. */
export const firstCureStep = ({ curing }: Profile): PhaseId =>
  curing === 'apart' ? 'cover-fill' : 'fill-pit';

type Measured = Readonly<Partial<Record<Measurement, number>>>;
type Given = PhaseContext['cure'];

const meanOf = ({ doseJPerM2, lampOnS }: Given): number => doseJPerM2 / lampOnS;

const ofBoth = (cure: Given): Measured => ({
  doseJPerM2: cure.doseJPerM2,
  doseUncertaintyJPerM2: cure.doseUncertaintyJPerM2,
  doseCoverageFactor: cure.doseCoverageFactor,
  lampOnS: cure.lampOnS,
  irradianceMeanWPerM2: meanOf(cure),
});

const ofFill = (cure: Given): Measured => ({
  fillDoseJPerM2: cure.doseJPerM2,
  fillDoseUncertaintyJPerM2: cure.doseUncertaintyJPerM2,
  doseCoverageFactor: cure.doseCoverageFactor,
  fillLampOnS: cure.lampOnS,
  fillIrradianceMeanWPerM2: meanOf(cure),
});

const ofPit = (cure: Given): Measured => ({
  pitDoseJPerM2: cure.doseJPerM2,
  pitDoseUncertaintyJPerM2: cure.doseUncertaintyJPerM2,
  doseCoverageFactor: cure.doseCoverageFactor,
  pitLampOnS: cure.lampOnS,
  pitIrradianceMeanWPerM2: meanOf(cure),
});

function lampPhase(
  self: PhaseId,
  to: PhaseId,
  measuredOf: (cure: Given, profile: Profile) => Measured,
): Phase {
  return {
    ...BASE,
    kind: 'automatic',
    air: vented,
    lamp: true,
    resumeAt: self,
    next: (_, { cure, profile }) =>
      cure.done ? { to, measured: measuredOf(cure, profile) } : null,
  };
}

export const CURE_ROWS = {
  'cover-fill': handWork('cover-fill', 'place-lamp-fill'),
  'place-lamp-fill': handWork('place-lamp-fill', 'cure-fill'),
  'cure-fill': lampPhase('cure-fill', 'uncover-fill', ofFill),
  'uncover-fill': handWork('uncover-fill', 'fill-pit'),
  'fill-pit': handWork('fill-pit', 'cover-film'),
  'cover-film': handWork('cover-film', 'place-lamp'),
  'place-lamp': handWork('place-lamp', 'cure'),
  cure: lampPhase('cure', 'scrape', (cure, { curing }) =>
    curing === 'apart' ? ofPit(cure) : ofBoth(cure),
  ),
} as const satisfies Partial<Record<PhaseId, Phase>>;
