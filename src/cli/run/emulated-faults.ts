/**
 * Which faults the emulated board can have: its clock is the chip's, so faults of the board's clock
 * are not among them.
 */
import type { FaultKind } from '../../../sim/faults/fault-kinds.ts';
import { FAULT_PRESETS, type Fault } from '../../../sim/faults/faults.ts';

const WITHOUT_EFFECT: readonly FaultKind[] = ['board-clock', 'board-stall'];

export const isEmulated = ({ kind }: Pick<Fault, 'kind'>): boolean =>
  !WITHOUT_EFFECT.includes(kind);

export const EMULATED_FAULT_NAMES: readonly string[] = Object.entries(FAULT_PRESETS)
  .filter(([, { faults }]) => faults.every(isEmulated))
  .map(([name]) => name);
