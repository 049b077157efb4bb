/**
 * The starting point of a simulated run, as plain data: place, glass, plant, faults, and the person
 * at the bench. The same scenario gives the same frames for the same outputs, bit for bit.
 */

import type { PhaseId } from '../../src/core/phases.ts';
import type { StatedLight } from '../board/light-errors.ts';
import type { World } from '../plant/world.ts';
import type { Fault } from './faults.ts';

export interface Scenario {
  readonly seed: number;
  readonly tickS: number;
  readonly atmospherePa: number;
  readonly airK: number;
  readonly glassK: number;
  readonly world: World;
  /** Where a later attempt goes on; absent in a job's first attempt. */
  readonly goesOnAt?: PhaseId | undefined;
  /** Of the unit whose sensors are drawn. */
  readonly light: StatedLight;
  /**
   * Lowest counts of the glass channel while the lamp burns, as the host of this unit sends them to
   * its board.
   */
  readonly glassFloor: number;
  readonly faults: readonly Fault[];
  /** `scripted` presses buttons by itself; for a `person` only the hands are simulated. */
  readonly technician: 'scripted' | 'person';
  /** Times that the scripted person takes, as a share of the usual ones; 1 where absent. */
  readonly pace?: number;
}
