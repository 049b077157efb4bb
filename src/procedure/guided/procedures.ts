/** The guided procedures: the first step of each, and the channels that must be valid before it. */
import type { ProcedureName, StepId } from '../../core/guided-events.ts';
import type { QuantityName } from './quantities.ts';

export interface GuidedProcedure {
  readonly start: StepId;
  readonly measures: readonly QuantityName[];
}

export const GUIDED_PROCEDURES: Readonly<Record<ProcedureName, GuidedProcedure>> = {
  pressure: { start: 'pressure-look', measures: ['pressure'] },
  uv: { start: 'uv-look', measures: ['pressure', 'light'] },
  temperature: { start: 'temperature-look', measures: ['temperature'] },
  health: { start: 'health-look', measures: ['pressure'] },
};
