/**
 * What must hold of the plant whatever fails: typed here from the harm, with its source, and never
 * read from the profile, the alarms or the board. Each is judged at every step of the plant, on the
 * plant's truth. A limit may be passed for the time that its protection needs.
 */
import { type Rig, truePositionsOf } from '../../sim/board/rig.ts';
import { timeOfS } from '../../sim/plant/plant.ts';
import { ATMOSPHERE_PA } from './jobs.ts';

export interface Limit {
  readonly id: string;
  readonly words: string;
  /** How far past the limit, and in what unit; not positive while it holds. */
  readonly excess: (rig: Rig) => number;
  readonly unit: string;
  /** How long it may be passed, s. */
  readonly graceS: number;
  readonly source: string;
}

/** Pressure or light on the pane. A pump that runs against an open vent loads nothing. */
const works = ({ plant }: Rig): boolean =>
  Math.abs(plant.air.injectorPa - ATMOSPHERE_PA) > LOADED_PA ||
  plant.lamp.irradianceWPerM2 > DARK_W_PER_M2;
/** Twice what a running pump leaves before the open vent. */
const LOADED_PA = 2_000;
/** A hundredth of the weakest light that sets the resin while it is watched. */
const DARK_W_PER_M2 = 1;

/** 172 kPa gauge, the most that the profile allows. */
const CEILING_PA = ATMOSPHERE_PA + 172_000;
/** 15 kPa absolute, the deepest that the profile allows. */
const FLOOR_PA = 15_000;
/** A transmitter of 400 kPa span within 0.2 % of it and 0.2 % of the reading: 1.4 kPa at 270 kPa. */
const SENSOR_PA = 1_500;

export const LIMITS: readonly Limit[] = [
  {
    id: 'pressure-ceiling',
    words: 'the injector stays below the highest pressure that the profile allows',
    excess: ({ plant }) => plant.air.injectorPa - CEILING_PA - SENSOR_PA,
    unit: 'Pa',
    graceS: 0,
    source:
      'stated requirement: 172 kPa gauge, the end of the range of common practice (no source); 1.5 kPa for the transmitter',
  },
  {
    id: 'pressure-floor',
    words: 'the injector stays above the deepest vacuum that the profile allows',
    excess: ({ plant }) => FLOOR_PA - SENSOR_PA - plant.air.injectorPa,
    unit: 'Pa',
    graceS: 0,
    source: 'stated requirement: 15 kPa absolute; 1.5 kPa for the transmitter',
  },
  {
    id: 'lamp-with-shield-open',
    words: 'no light leaves the lamp while the shield is open',
    excess: (rig) =>
      truePositionsOf(rig).shieldClosed ? -1 : rig.plant.lamp.irradianceWPerM2 - DARK_W_PER_M2,
    unit: 'W/m2',
    // Six time constants of 50 ms take 200 W/m2 below 1, and one step of 50 ms until it is seen.
    graceS: 0.4,
    source:
      'the shield is the only guard of the eye against UV (IEC 62471, from memory); time from the lamp’s turn-off',
  },
  {
    id: 'glass-too-hot',
    words: 'nothing is worked on glass above 45 °C',
    excess: (rig) => (works(rig) ? rig.plant.pane.outerK - (273.15 + 45 + 2) : -1),
    unit: 'K',
    graceS: 10,
    source: 'demo: the unit file’s highest glass temperature; 2 K for a glued thermistor',
  },
  {
    id: 'interlayer-too-hot',
    words: 'nothing is worked while the interlayer is above 100 °C',
    excess: (rig) => (works(rig) ? rig.plant.pane.interlayerK - (273.15 + 100) : -1),
    unit: 'K',
    graceS: 0,
    source:
      'UN Regulation No. 43, Annex 3, high temperature test of laminated panes at 100 °C (from memory)',
  },
  {
    id: 'heat-sink-too-hot',
    words: 'the lamp does not burn with its heat sink above 95 °C',
    excess: ({ plant }) =>
      plant.lamp.irradianceWPerM2 > DARK_W_PER_M2 ? plant.lamp.heatSinkK - (273.15 + 95) : -1,
    unit: 'K',
    graceS: 2,
    source:
      'common practice, no source: a UV diode’s junction stays below 125 °C, 30 K above its heat sink',
  },
];

export interface Breach {
  readonly limit: string;
  readonly words: string;
  readonly atS: number;
}

export interface LimitWatch {
  readonly look: (rig: Rig) => void;
  readonly breaches: () => readonly Breach[];
}

interface Passing {
  sinceS: number | null;
  longestS: number;
  worst: number;
  firstS: number;
}

/** `nowS` is true time. */
export function watchLimits(): LimitWatch {
  const passing: readonly Passing[] = LIMITS.map(() => ({
    sinceS: null,
    longestS: -1,
    worst: 0,
    firstS: 0,
  }));
  return {
    look: (rig) => {
      const nowS = timeOfS(rig.plant);
      for (let i = 0; i < LIMITS.length; i++) {
        const seen = passing[i] as Passing;
        const excess = (LIMITS[i] as Limit).excess(rig);
        // Not a number is past every limit.
        if (excess <= 0) {
          seen.sinceS = null;
          continue;
        }
        seen.sinceS ??= nowS;
        const forS = nowS - seen.sinceS;
        if (seen.longestS < 0) seen.firstS = nowS;
        seen.longestS = Math.max(seen.longestS, forS);
        seen.worst = Math.max(seen.worst, excess);
      }
    },
    breaches: () =>
      LIMITS.flatMap(({ id, unit, graceS }, i) => {
        const { longestS, worst, firstS } = passing[i] as Passing;
        if (longestS < graceS) return [];
        const words = `by ${worst.toPrecision(3)} ${unit}, for ${longestS.toFixed(2)} s`;
        return [{ limit: id, words, atS: firstS }];
      }),
  };
}
