/**
 * The sound jobs into which faults are put. Their profiles hold and cure as short as the unit
 * allows, because the length of a dwell proves nothing here: every phase of a repair is there once.
 * The break is one that a single cycle fills.
 */

import { fileURLToPath } from 'node:url';
import type { Scenario } from '../../sim/faults/scenario.ts';
import { worldOf } from '../../sim/plant/world.ts';
import { type LoadedSettings, loadSettings } from '../../src/app/prepare/load-settings.ts';
import { statedLightOf } from '../../src/cli/run/stated-light.ts';
import { boardLimitsOf } from '../../src/control/board-limits.ts';

export const JOB_IDS = ['together', 'apart'] as const;
export type JobId = (typeof JOB_IDS)[number];

export interface Job {
  readonly id: JobId;
  readonly settings: LoadedSettings;
  readonly scenario: (seed: number) => Scenario;
}

const TICK_S = 0.05;
/** Quick hands: how long a person takes for a step proves nothing here. */
const PACE = 0.4;
export const ATMOSPHERE_PA = 100_600;

const OPEN_BREAK = worldOf(
  { type: 'bullseye', diameterM: 0.01, pitM: 0.002, legs: 0, longestLegM: 0 },
  0.05,
);

function loadJob(id: JobId): Job {
  const profile = fileURLToPath(new URL(`profiles/${id}.json`, import.meta.url));
  const loaded = loadSettings({ profile });
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  const { job } = loaded.value.config;
  return {
    id,
    settings: loaded.value,
    scenario: (seed) => ({
      seed,
      tickS: TICK_S,
      atmospherePa: ATMOSPHERE_PA,
      airK: job.airK,
      glassK: job.glassK,
      world: OPEN_BREAK,
      light: statedLightOf(loaded.value.config),
      glassFloor: boardLimitsOf(loaded.value.config.unit).glassFloor,
      faults: [],
      technician: 'scripted',
      pace: PACE,
    }),
  };
}

export const JOBS: Readonly<Record<JobId, Job>> = {
  together: loadJob('together'),
  apart: loadJob('apart'),
};
