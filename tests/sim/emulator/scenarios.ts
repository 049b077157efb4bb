/** Scenarios for emulator tests: a quiet bench, with what a test changes about it. */
import { breakGeometryOf, type Scenario } from '../../../sim/scenario.ts';

export const scenarioOf = (changes: Partial<Scenario> = {}): Scenario => ({
  seed: 7,
  tickS: 0.02,
  atmospherePa: 101_325,
  airK: 295,
  glassK: 295,
  break: breakGeometryOf({ type: 'bullseye', diameterM: 0.02, longestLegM: 0 }),
  resinViscosityPaSAt20C: 0.04,
  faults: [],
  technician: 'person',
  ...changes,
});
