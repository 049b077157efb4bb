/**
 * Conditions that must hold on every frame of every job, whatever goes wrong. Throws with the
 * frame's time.
 */

import type { BreakView } from '../sim/board/simulated-board.ts';
import type { Tick } from '../src/app/pipeline.ts';
import type { Repair, RepairConfig } from '../src/procedure/repair/repair-state.ts';
import { checkOutputs } from './output-rules.ts';

/** Settling of sensor and median filter: a limit may be passed by this before it is seen. */
const SENSOR_ERROR_PA = 1_500;

const BEGINS_FIELD: ReadonlySet<string> = new Set(['move-lamp', 'cover-film']);

/** Of two sums of the same light. */
const ROUNDING_J_PER_M2 = 1e-3;

export function checkInvariants(
  tick: Tick<Repair>,
  before: Tick<Repair> | null,
  { truth }: BreakView,
  { profile }: RepairConfig,
): void {
  const { frame, outputs, snapshot, state } = tick;
  const broken = (words: string): never => {
    throw new Error(`at ${frame.timeS} s in ${snapshot.phase} (${snapshot.batch}): ${words}`);
  };
  checkOutputs({ frame, outputs, snapshot, phase: snapshot.phase });
  for (const portion of ['fill', 'pit'] as const) {
    const { doseJPerM2 } = state.scene.doses[portion];
    const fell = doseJPerM2 < (before?.state.scene.doses[portion].doseJPerM2 ?? 0);
    // Over the next field of a crack nothing is counted yet.
    if (fell && !(BEGINS_FIELD.has(snapshot.phase) && doseJPerM2 === 0))
      broken(`the dose of the ${portion} fell`);
    const shownJPerM2 = state.scene.proof.portions[portion].doseJPerM2;
    if (shownJPerM2 > state.scene.doses[portion].doseJPerM2 + ROUNDING_J_PER_M2)
      broken(`more of the ${portion} is shown than was counted`);
  }
  if (frame.timeS < (before?.frame.timeS ?? 0)) broken('time ran backwards');
  const { atmospherePa } = state.procedure;
  if (atmospherePa !== null && snapshot.batch === 'running') {
    const highestPa = atmospherePa + profile.pressure.highestGaugePa + SENSOR_ERROR_PA;
    if (truth.pressurePa > highestPa) broken(`true pressure ${truth.pressurePa} Pa over the limit`);
    const lowestPa = profile.vacuum.lowestPa - SENSOR_ERROR_PA;
    if (truth.pressurePa < lowestPa) broken(`true pressure ${truth.pressurePa} Pa under the limit`);
  }
}

/** Gas and heat of a whole run, from the first frame to the last, in doubles: nothing lost or made. */
const BALANCED_WITHIN = 1e-6;

export function checkBalance({ truth }: BreakView): void {
  const unbalanced = Object.entries(truth.imbalance()).filter(
    ([, ratio]) => !(ratio < BALANCED_WITHIN),
  );
  if (unbalanced.length > 0)
    throw new Error(`the plant does not balance: ${unbalanced.join('; ')}`);
}
