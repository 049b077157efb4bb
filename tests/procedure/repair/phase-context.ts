/** A vented chamber in which nobody answers and no light falls. */
import type { PhaseContext } from '../../../src/procedure/phase.ts';
import { ONE_PLACE } from '../../../src/procedure/places.ts';
import { DEFAULT_PROFILE } from '../../configs.ts';
import { ATMOSPHERE_PA } from '../../frames.ts';

export const CONTEXT: PhaseContext = {
  plan: ONE_PLACE,
  profile: DEFAULT_PROFILE,
  damageType: 'star-break',
  volumeM3: 30e-6,
  leakLimitPaM3PerS: 0.005,
  greatestRatio: 12.5,
  airLastJobPa: null,
  pressurePa: ATMOSPHERE_PA,
  pumpAheadPa: 0,
  glassK: 296.15,
  findings: [],
  answer: null,
  lampLastKnownWPerM2: null,
  cure: {
    done: false,
    gapDue: false,
    doseJPerM2: 0,
    doseUncertaintyJPerM2: 0,
    shownDoseJPerM2: 0,
    doseCoverageFactor: 1.645,
    lampOnS: 0,
    gapsPassed: 0,
    gapsFailed: 0,
    unconfirmedDoseJPerM2: 0,
  },
  light: { dark: true, judged: true },
  dtS: 0.05,
};
