/**
 * What truly happened in a job, gathered from the plant at every step, whatever the sensors said:
 * light on the resin, time and pressure of each dwell, the glass during the cures, the seal's
 * leak, and how the board's clock ran. `claims.ts` holds the record against it.
 */
import { type Rig, truePositionsOf } from '../../sim/board/rig.ts';
import { clarityRatio, looksClear } from '../../sim/plant/break/sight.ts';
import { timeOfS } from '../../sim/plant/plant.ts';
import type { Snapshot } from '../../src/core/events.ts';
import { CURE_PHASES, type PhaseId, PIT_PHASES } from '../../src/core/phases.ts';

/** A stretch of one phase in which the batch ran. */
export interface Stretch {
  readonly phase: PhaseId;
  readonly cycle: number;
  readonly boardFromS: number;
  trueS: number;
  /** The injector's pressure, times seconds. */
  paS: number;
  /** Gas that came in past seal, vent and leaks, mol, and from the break. */
  inMol: number;
}

export interface Truth {
  readonly stretches: readonly Stretch[];
  /** Outer face during the cures; null where there was none. */
  readonly coldestK: number | null;
  readonly hottestK: number | null;
  /** At the resin of each portion. */
  readonly fillJPerM2: number;
  readonly pitJPerM2: number;
  /** At the sensor's place, while each portion was to be cured. */
  readonly atSensor: { readonly fillJPerM2: number; readonly pitJPerM2: number };
  /** The lamp burned for longer than its protection needs while the shield was open. */
  readonly litOpenS: number;
  readonly looksClear: boolean;
  readonly filledRatio: number;
  /** The board's time over true time, from power-up to the last step that was worked. */
  readonly clockRatio: number;
  readonly atmospherePa: number;
}

export interface TruthWatch {
  /** At every step of the plant. */
  readonly look: (rig: Rig) => void;
  /** The controller's phase from now on, as of this frame. */
  readonly enter: (snapshot: Snapshot) => void;
  readonly truth: () => Truth;
  /** The same so far, to go on apart. */
  readonly copy: () => TruthWatch;
}

type Passed = Readonly<Pick<Stretch, 'trueS' | 'paS' | 'inMol'>>;
const NOTHING: Passed = { trueS: 0, paS: 0, inMol: 0 };

interface Gathered {
  readonly stretches: Stretch[];
  coldestK: number | null;
  hottestK: number | null;
  rig: Rig | null;
  stepS: number;
  cameMol: number;
  /** Looked at since a snapshot last told of the phase, to which it belongs. */
  tick: Passed;
  cures: boolean;
  running: boolean;
  ofPit: boolean;
  lampJPerM2: number;
  readonly atSensor: { fillJPerM2: number; pitJPerM2: number };
  litOpenS: number;
  clockRatio: number;
  result: boolean;
}

export const watchTruth = (): TruthWatch =>
  gathering({
    stretches: [],
    coldestK: null,
    hottestK: null,
    rig: null,
    stepS: 0,
    cameMol: 0,
    tick: NOTHING,
    cures: false,
    running: false,
    ofPit: false,
    lampJPerM2: 0,
    atSensor: { fillJPerM2: 0, pitJPerM2: 0 },
    litOpenS: 0,
    clockRatio: 1,
    result: false,
  });

function gathering(so: Gathered): TruthWatch {
  return {
    look: (rig) => look(so, rig),
    enter: ({ phase, cycle, batch, timeS }) => {
      const running = batch === 'running';
      const last = so.stretches.at(-1);
      const begins = running && (!so.running || last?.phase !== phase || last.cycle !== cycle);
      if (begins) {
        so.stretches.push({ phase, cycle, boardFromS: timeS, trueS: 0, paS: 0, inMol: 0 });
      }
      const stretch = so.stretches.at(-1);
      if (running && stretch !== undefined) {
        stretch.trueS += so.tick.trueS;
        stretch.paS += so.tick.paS;
        stretch.inMol += so.tick.inMol;
      }
      so.tick = NOTHING;
      so.running = running;
      so.cures = running && CURE_PHASES.has(phase);
      so.ofPit = PIT_PHASES.has(phase);
      so.result = phase === 'result';
    },
    truth: () => truthOf(so),
    copy: () =>
      gathering({
        ...so,
        stretches: so.stretches.map((stretch) => ({ ...stretch })),
        atSensor: { ...so.atSensor },
      }),
  };
}

function look(so: Gathered, rig: Rig): void {
  const { air, pane } = rig.plant;
  const nowS = timeOfS(rig.plant);
  const { sealMol, ventMol, reliefMol, sourceMol } = air.ledger;
  const cameMol = sealMol + ventMol + reliefMol + sourceMol;
  if (so.rig !== null) {
    const { trueS, paS, inMol } = so.tick;
    so.tick = {
      trueS: trueS + nowS - so.stepS,
      paS: paS + air.injectorPa * (nowS - so.stepS),
      inMol: inMol + cameMol - so.cameMol,
    };
  }
  if (so.cures) {
    so.coldestK = Math.min(so.coldestK ?? pane.outerK, pane.outerK);
    so.hottestK = Math.max(so.hottestK ?? pane.outerK, pane.outerK);
  }
  lookAtLight(so, rig, nowS);
  // Of what nobody hears no record tells.
  if (so.running && !so.result && !rig.mute) so.clockRatio = 1 - rig.boardLagSteps / rig.plant.step;
  so.rig = rig;
  so.stepS = nowS;
  so.cameMol = cameMol;
}

/** A hundredth of the weakest light that sets the resin while it is watched. */
const DARK_W_PER_M2 = 1;

function lookAtLight(so: Gathered, rig: Rig, nowS: number): void {
  const { doseJPerM2, irradianceWPerM2 } = rig.plant.lamp;
  so.atSensor[so.ofPit ? 'pitJPerM2' : 'fillJPerM2'] += doseJPerM2 - so.lampJPerM2;
  so.lampJPerM2 = doseJPerM2;
  if (irradianceWPerM2 > DARK_W_PER_M2 && !truePositionsOf(rig).shieldClosed) {
    so.litOpenS += nowS - so.stepS;
  }
}

function truthOf({
  rig,
  stretches,
  coldestK,
  hottestK,
  atSensor,
  litOpenS,
  clockRatio,
}: Gathered): Truth {
  if (rig === null) throw new Error('nothing was seen yet');
  const { plant, place } = rig;
  return {
    stretches,
    coldestK,
    hottestK,
    atSensor,
    litOpenS,
    fillJPerM2: plant.resinDose.fillJPerM2,
    pitJPerM2: plant.resinDose.pitJPerM2,
    looksClear: looksClear(plant.filling, place.world.break),
    filledRatio: clarityRatio(plant.filling, place.world.break),
    clockRatio,
    atmospherePa: place.atmospherePa,
  };
}
