/**
 * Which faults the emulated board can have: its clock is the chip's, and its host's clock is the
 * line's, so faults of either are not among them.
 */
import type { FaultKind } from '../../../sim/faults/fault-kinds.ts';
import { FAULT_PRESETS, type Fault } from '../../../sim/faults/faults.ts';

const WITHOUT_EFFECT: readonly FaultKind[] = [
  'board-clock',
  'board-stall',
  'host-clock',
  'host-clock-jump',
];

export const isEmulated = ({ kind }: Pick<Fault, 'kind'>): boolean =>
  !WITHOUT_EFFECT.includes(kind);

export const EMULATED_FAULT_NAMES: readonly string[] = Object.entries(FAULT_PRESETS)
  .filter(([, { faults }]) => faults.every(isEmulated))
  .map(([name]) => name);
