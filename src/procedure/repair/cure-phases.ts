/**
 * The phases from a break judged clear to cured resin. Together: pit resin goes on the liquid fill
 * and one exposure counts for both. Apart: the fill is cured first, under film, so that nothing
 * runs out of the legs or is drawn up while the pit is made, and so that the pit resin also fills
 * the volume that the fill lost as it set (common practice, no source). Film is used rather than a
 * glass plug, which could be bonded in place. The cure room decides how much light is enough.
 */

import type { Measurement } from '../../core/events.ts';
import { CURE_PHASES, type PhaseId } from '../../core/phases.ts';
import type { Phase, PhaseContext, ProcedureState } from '../phase.ts';
import { BASE, handWork, vented } from '../phase-kinds.ts';
import type { Profile } from '../profile.ts';

/** First phase of the way to the cure. */
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
    lamp: ({ darkLookS }) => darkLookS === null,
    resumeAt: self,
    observe: lookAtDark,
    next: ({ darkLookS }, { cure, light, profile }) =>
      cure.done && darkLookS !== null && isSeenDark(darkLookS, light)
        ? { to, measured: measuredOf(cure, profile) }
        : null,
  };
}

/** The reading settles after the lamp's last light: it is the median of three samples. */
const DARK_SETTLES_S = 0.3;
/**
 * A live sensor's reading rarely stands still for so long; if it does, it is checked with the lamp
 * off.
 */
const QUIET_S = 30;

/** A cure begins with a check of the dark: the sensor's zero before any light. */
export const darkLookAtStart = (phase: PhaseId): number | null =>
  CURE_PHASES.has(phase) ? 0 : null;

const isSeenDark = (darkLookS: number, { dark }: PhaseContext['light']): boolean =>
  dark && darkLookS >= DARK_SETTLES_S;

/**
 * The lamp is switched off before the cure, after it, and whenever the lit sensor's reading has
 * stood still for long: only a sensor that falls to dark with the lamp has shown that its light was
 * the lamp's. The alarms handle one that does not; until then the lamp stays off and the cure does
 * not end.
 */
function lookAtDark(state: ProcedureState, { cure, light, dtS }: PhaseContext): ProcedureState {
  const { darkLookS } = state;
  if (darkLookS === null) {
    return cure.done || light.quietS >= QUIET_S ? { ...state, darkLookS: 0 } : state;
  }
  const seen = isSeenDark(darkLookS, light) && !cure.done;
  return { ...state, darkLookS: seen ? null : darkLookS + dtS };
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
