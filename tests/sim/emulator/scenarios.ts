/** Scenarios for emulator tests: a quiet bench, with what a test changes about it. */

import type { Scenario } from '../../../sim/faults/scenario.ts';
import { worldOf } from '../../../sim/plant/world.ts';
import { statedLightOf } from '../../../src/cli/run/stated-light.ts';
import { boardLimitsOf } from '../../../src/control/board-limits.ts';
import { DEFAULT_CONFIG } from '../../configs.ts';
import { BULLSEYE } from '../board/lock-step.ts';

export const scenarioOf = (changes: Partial<Scenario> = {}): Scenario => ({
  seed: 7,
  tickS: 0.02,
  atmospherePa: 101_325,
  airK: 295,
  glassK: 295,
  world: worldOf(BULLSEYE, 0.04),
  light: statedLightOf(DEFAULT_CONFIG),
  glassFloor: boardLimitsOf(DEFAULT_CONFIG.unit).glassFloor,
  faults: [],
  technician: 'person',
  ...changes,
});
