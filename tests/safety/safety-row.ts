/** What an alarm must be, as the hazard asks for it: the shape of the rows of the specification. */
import type { AlarmAction, AlarmPriority } from '../../src/core/events.ts';

export interface SafetyRow {
  readonly id: string;
  /** What may come to harm, and how. */
  readonly harm: string;
  readonly action: AlarmAction;
  /** It stays in force after its cause is gone, until a person has looked and lets the job go on. */
  readonly latching: boolean;
  /** High: within seconds somebody or the pane may be hurt. Medium: the repair. Low: time. */
  readonly priority: AlarmPriority;
  /** The unit's own limit, whatever a profile says, in `unit`; null for what is so or not. */
  readonly limit: number | null;
  readonly unit: string;
  readonly trips: 'above' | 'below';
  readonly delayS: number;
  /** In `unit`; null where the value has no way back into it while the alarm stands. */
  readonly deadband: number | null;
}

type Figures = Pick<SafetyRow, 'limit' | 'unit' | 'trips' | 'delayS' | 'deadband'>;
export type Response = Pick<SafetyRow, 'action' | 'latching' | 'priority'>;

export const isSo = (delayS: number): Figures => ({
  limit: null,
  unit: '',
  trips: 'above',
  delayS,
  deadband: null,
});
export const above = (
  limit: number,
  unit: string,
  delayS: number,
  deadband: number | null = null,
): Figures => ({ limit, unit, trips: 'above', delayS, deadband });
export const below = (
  limit: number,
  unit: string,
  delayS: number,
  deadband: number | null = null,
): Figures => ({ limit, unit, trips: 'below', delayS, deadband });

export const abortHigh: Response = { action: 'abort', latching: true, priority: 'high' };
export const holdHigh: Response = { action: 'hold', latching: false, priority: 'high' };
/** Made safe, and a person must have looked before it goes on. */
export const holdHighLatched: Response = { action: 'hold', latching: true, priority: 'high' };
export const holdMedium: Response = { action: 'hold', latching: false, priority: 'medium' };
export const holdMediumLatched: Response = { action: 'hold', latching: true, priority: 'medium' };
export const holdLow: Response = { action: 'hold', latching: false, priority: 'low' };
export const warnLow: Response = { action: 'warn', latching: false, priority: 'low' };
