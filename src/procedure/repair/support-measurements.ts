/**
 * What a record states beside its results so that they can be believed: how the board's clock was
 * compared with the host's, what late frames left out, and that the shield's contact was seen to
 * move. Stated when a cure is over, and once
 * more for the whole job. It judges nothing.
 */
import { measuredEvents, type UnstampedEvent } from '../../core/events.ts';
import { type MeasuredValue, measuredOfCure, measuredOfJob } from '../../core/measurements.ts';
import { CURE_PHASES, type PhaseId } from '../../core/phases.ts';
import { portionIn } from './cure/job-target.ts';
import type { RepairConfig, RepairState } from './repair-state.ts';

type Seen = Pick<RepairState, 'procedure' | 'scene' | 'watch'>;

/** `before`: the phase that was left in this tick, if it was. */
export function supportMeasurements(
  before: PhaseId,
  after: Seen,
  config: RepairConfig,
): readonly UnstampedEvent[] {
  const { phase } = after.procedure;
  if (before === phase) return [];
  const cured = CURE_PHASES.has(before) && !CURE_PHASES.has(phase);
  if (!cured && phase !== 'result') return [];
  return measuredEvents([...ofTime(after), ...(cured ? ofCure(before, after, config) : [])]);
}

function ofTime({ watch: { clock, sampling } }: Seen): readonly MeasuredValue[] {
  const { offAtMostRatio, looks, comparedS, longestGapS } = clock;
  const compared = Number.isFinite(offAtMostRatio)
    ? { clockOffAtMostRatio: offAtMostRatio, clockLooks: looks, clockComparedS: comparedS }
    : {};
  const { uncountedS } = sampling;
  return measuredOfJob({ ...compared, longestFrameGapS: longestGapS, uncountedS });
}

function ofCure(
  before: PhaseId,
  { scene, watch }: Seen,
  config: RepairConfig,
): readonly MeasuredValue[] {
  const portion = portionIn(before, config);
  const { doseJPerM2, lampOnS } = scene.uncounted;
  const together = config.profile.curing === 'together';
  const { seenOpenAtS } = watch.shield;
  return measuredOfCure(together ? null : portion, {
    ...(seenOpenAtS === null ? {} : { shieldSeenOpenS: seenOpenAtS }),
    doseUncountedJPerM2: doseJPerM2[portion],
    lampOnUncountedS: lampOnS[portion],
  });
}
