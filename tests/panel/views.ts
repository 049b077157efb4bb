/** Inputs of the panel: one plain view, and all possible situations. */

import { BATCH_STATES, type Snapshot } from '../../src/core/events.ts';
import { PHASE_IDS } from '../../src/core/phases.ts';
import type { Catalogue } from '../../src/panel/catalogue.ts';
import { ADVICE_KEYS, REASON_KEYS } from '../../src/panel/catalogue.ts';
import { signalsOf } from '../../src/panel/face.ts';
import type { LiveValues } from '../../src/panel/live-line.ts';
import { alarmPages, helpPages, reasonPages, type ShownAlarm } from '../../src/panel/page-words.ts';
import { faceOf, type View } from '../../src/panel/screen.ts';
import { PHASE_TABLE } from '../../src/procedure/repair/phase-table.ts';
import { ENGLISH } from './catalogues.ts';

export const SNAPSHOT: Snapshot = {
  timeS: 100,
  batch: 'running',
  phase: 'evacuate',
  cycle: 1,
  pressurePa: 25_000,
  setPointPa: 25_000,
  atmospherePa: 100_600,
  irradianceWPerM2: 200,
  doseJPerM2: 12_345,
  targetJPerM2: 50_000,
  glassK: 268.15,
  heatSinkK: 333.15,
  supplyV: 12,
};

export const LIVE: LiveValues = {
  phaseElapsedS: 0,
  leftS: 234.4,
  doseInHandJPerM2: 12_345,
  doseMarginJPerM2: 3_000,
  daylightShare: null,
  sealWhy: 'water-or-outgassing',
  legLimitM: 0.0129,
  remedy: 'warmth',
  rechargeWhy: 'injector-dry',
  glass: { lowestK: 285.15, highestK: 313.15, rateKPerS: 0.0312, allowedKPerS: 0.2 },
  vacuum: { askedPa: 25_000, givenPa: 33_000 },
  cycles: { cycle: 1, planned: 2, extra: 2, vacuumLeftS: 57.2 },
  damage: { type: 'combination-break', diameterM: 0.4 },
  sheet: {
    reference: 'job-7',
    vehicle: 'AB 12 CDE',
    resin: { name: 'A resin', lot: 'L-1' },
    goesOnAt: null,
  },
  outcome: null,
  light: { irradianceWPerM2: 195, eyeS: 51.3, skinS: 1370 },
};

/** What a view looks like on the unit. */
export const composeSignals = (seen: View) => signalsOf(faceOf(seen));

export const view = (change: Partial<View>): View => ({
  catalogue: ENGLISH,
  batch: 'running',
  phase: 'evacuate',
  kind: PHASE_TABLE[change.phase ?? 'evacuate'].kind,
  notClearAdvice: 'another-cycle',
  alarm: null,
  alarmStops: false,
  why: { say: 'held-by-hand' },
  resinWet: false,
  asks: null,
  mustEnd: false,
  wrongKey: false,
  page: null,
  phaseElapsedS: change.live?.phaseElapsedS ?? LIVE.phaseElapsedS,
  live: LIVE,
  snapshot: SNAPSHOT,
  ...change,
});

/** Every step with all its pages, in both kinds of advice and light. */
export const stepViews = (catalogue: Catalogue): readonly View[] =>
  PHASE_IDS.flatMap((phase) =>
    ADVICE_KEYS.flatMap((notClearAdvice) =>
      [LIVE.light, null].flatMap((light) => {
        const step = view({ catalogue, phase, notClearAdvice, live: { ...LIVE, light } });
        return [step, ...helpPages(step).map((_, page) => ({ ...step, page }))];
      }),
    ),
  );

/** The words that take a step's line for a while, and both ends of what a line may be. */
export function liveViews(catalogue: Catalogue): readonly View[] {
  const cure = { ...LIVE, doseInHandJPerM2: SNAPSHOT.targetJPerM2 };
  const changes: readonly Partial<View>[] = [
    ...Object.keys(catalogue.damage).map((type): Partial<View> => {
      const damage = { type, diameterM: 0.4 };
      return { phase: 'job-sheet', live: { ...LIVE, damage } };
    }),
    ...[3, 6, 9, 12].flatMap((phaseElapsedS): readonly Partial<View>[] => {
      const bare = { ...LIVE, phaseElapsedS };
      const sheet = { ...LIVE.sheet, vehicle: null };
      const again = { ...bare, sheet: { ...sheet, goesOnAt: 'cover-film' } as const };
      return [bare, again, { ...again, phaseElapsedS: 0 }, { ...bare, sheet }].map((live) => ({
        phase: 'job-sheet',
        live,
      }));
    }),
    ...(Object.keys(catalogue.seal) as (keyof Catalogue['seal'])[]).map(
      (sealWhy): Partial<View> => ({ phase: 'test-again', live: { ...LIVE, sealWhy } }),
    ),
    ...(Object.keys(catalogue.recharge) as (keyof Catalogue['recharge'])[]).map(
      (rechargeWhy): Partial<View> => ({ phase: 'recharge', live: { ...LIVE, rechargeWhy } }),
    ),
    ...(Object.keys(catalogue.remedies) as (keyof Catalogue['remedies'])[]).flatMap((remedy) =>
      (['offer-remedy', 'try-remedy'] as const).flatMap((phase) => {
        const step = { ...view({ catalogue, phase }), live: { ...LIVE, remedy } };
        return [step, ...helpPages(step).map((_, page) => ({ ...step, page }))];
      }),
    ),
    ...[null, 276.15, 296.15, 325.15].map(
      (glassK): Partial<View> => ({ phase: 'glass-gate', snapshot: { ...SNAPSHOT, glassK } }),
    ),
    { phase: 'measure-leg', live: { ...LIVE, legLimitM: null } },
    { phase: 'vacuum-note', live: { ...LIVE, vacuum: { askedPa: 25_000, givenPa: 25_000 } } },
    { phase: 'evacuate', snapshot: { ...SNAPSHOT, pressurePa: null } },
    { phase: 'evacuate', live: { ...LIVE, leftS: Number.POSITIVE_INFINITY } },
    { phase: 'cure', live: cure },
    { phase: 'result', live: { ...LIVE, outcome: 'clear' } },
    { phase: 'fill-pit', live: { ...LIVE, daylightShare: 0.87 } },
    ...[0, 3, 6].flatMap((phaseElapsedS) =>
      [
        LIVE.cycles,
        { ...LIVE.cycles, cycle: 3, vacuumLeftS: 0 },
        { cycle: 10, planned: 10, extra: 10, vacuumLeftS: 900 },
      ].flatMap((cycles) =>
        (['evacuate', 'ask-bubbles', 'accept-mark'] as const).map((phase) => ({
          phase,
          live: { ...LIVE, phaseElapsedS, cycles },
        })),
      ),
    ),
  ];
  return changes.map((change) => view({ catalogue, ...change }));
}

/** Held and ended in every way, for every reason and by every alarm. */
export function restViews(catalogue: Catalogue, alarms: readonly ShownAlarm[]): readonly View[] {
  const reasons: readonly View['why'][] = [
    ...REASON_KEYS.map((say) => ({ say })),
    ...alarms.flatMap((alarm) => [true, false].map((refused) => ({ alarm, refused }))),
  ];
  const told = (['held', 'aborted', 'stopped'] as const).flatMap((batch) =>
    reasons.flatMap((why) =>
      reasonPages(why, catalogue).map((_, page) =>
        view({ catalogue, batch, why, page, phase: 'accept-mark' }),
      ),
    ),
  );
  const others = BATCH_STATES.filter((batch) => batch !== 'running').flatMap((batch) =>
    [true, false].map((alarmStops) => view({ catalogue, batch, alarmStops, phase: 'accept-mark' })),
  );
  const asked = (['end', 'leg-grew', 'resin-inside'] as const).map((asks) =>
    view({ catalogue, batch: 'held', asks }),
  );
  return [...told, ...others, ...asked];
}

/** Every alarm with all its pages. */
export const alarmViews = (catalogue: Catalogue, alarms: readonly ShownAlarm[]): readonly View[] =>
  alarms.flatMap((alarm) =>
    alarmPages(alarm, catalogue).map((_, page) => view({ catalogue, alarm, page })),
  );
