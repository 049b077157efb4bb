/**
 * One cure on the simulated plant without the hour before it: the real controller, forked from a
 * hand-made unit that stands before the lamp, the real rig with a unit drawn by its seed, and the
 * plant's truth beside what the unit says. The board's clock is drawn here, within its stated limit.
 */
import { createRig, letTimePass, lookAtFaults } from '../../sim/board/rig.ts';
import { takeFrame } from '../../sim/board/sampling.ts';
import { createChance } from '../../sim/random.ts';
import { type ControllerStep, stepController } from '../../src/control/controller.ts';
import type { Frame } from '../../src/core/frame.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { Repair, RepairConfig } from '../../src/procedure/repair/repair-state.ts';
import { type BenchOptions, scenarioFor } from '../bench.ts';
import { TICK_S } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';

export interface CureAlone {
  /** The unit ended the cure because it holds the dose to be shown. */
  readonly met: boolean;
  /** At the worst-lit resin, by the plant, over the target there. */
  readonly trueOverTarget: number;
  readonly lampOnS: number;
  /** Time of light after the plant's resin had its target; null where it never had. */
  readonly marginS: number | null;
  readonly alarms: readonly string[];
}

const STEPS = Math.round(TICK_S * 1000);
/** The shield is seen open, then closed; then the screen is read. */
const OPEN_TICKS = 40;
const PRESS_TICK = 80;
const LONGEST_TICKS = 20 * 900;

/** The target at the resin is the profile's own. */
export function cureAlone(config: RepairConfig, options: BenchOptions): CureAlone {
  const begun = repairIn('place-lamp', { config });
  const rig = createRig(scenarioFor({ ...options, config }));
  Object.assign(rig.plant.setup, {
    charged: true,
    injectorOff: true,
    pitFilled: true,
    filmOn: true,
  });
  const { clockRatio } = config.unit.uncertainty.converter;
  const clock = 1 + clockRatio * (2 * createChance(rig.scenario.seed, 'reference').uniform() - 1);
  const targetJPerM2 = config.profile.cure.targetAtResinJPerM2;
  const alarms: string[] = [];
  let { state } = begun;
  let step: ControllerStep<Repair> | null = null;
  let lampOnS = 0;
  let marginS: number | null = null;
  const drive = () => state.commanded;
  for (let n = 1; n < LONGEST_TICKS && !isOver(step); n++) {
    rig.plant.setup.shieldClosed = n > OPEN_TICKS;
    lookAtFaults(rig);
    letTimePass(rig, STEPS, drive);
    if (n === PRESS_TICK) rig.fingers.push('yes');
    const passedS = n * TICK_S;
    const frame: Frame = {
      ...takeFrame(rig, []),
      sequence: begun.ticks - 1 + n,
      timeS: begun.boardS + passedS * clock,
      sampledAtS: begun.boardS + passedS * clock,
      hostTimeS: begun.hostS + passedS,
    };
    const dark = rig.plant.lamp.irradianceWPerM2 < 1;
    if (!dark) lampOnS += TICK_S;
    if (rig.plant.resinDose.fillJPerM2 >= targetJPerM2)
      marginS = (marginS ?? 0) + (dark ? 0 : TICK_S);
    step = stepController(REPAIR, config, state, frame, []);
    state = step.state;
    for (const e of step.events) {
      if (e.kind === 'alarm' && e.to === 'unacknowledged') alarms.push(e.alarm);
    }
  }
  // The plant books its light every fifth of a second.
  letTimePass(rig, 8 * STEPS, drive);
  return {
    met: step?.snapshot.phase === 'scrape',
    trueOverTarget: rig.plant.resinDose.fillJPerM2 / targetJPerM2,
    lampOnS,
    marginS,
    alarms,
  };
}

const isOver = (step: ControllerStep<Repair> | null): boolean =>
  step !== null &&
  (step.snapshot.phase === 'scrape' || step.snapshot.batch === 'holding' || step.state.ended);
