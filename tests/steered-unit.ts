/**
 * A unit whose whole world is hand-made. Each frame shows the scene's values; for anything that the
 * scene leaves open, it shows the sensors of a sound unit under the outputs of the tick before. The
 * data are plain and immutable, so that a unit steered into a phase once can be tried in many ways.
 */

import { type ControllerStep, stepController } from '../src/control/controller.ts';
import type { ControllerState, ProcedureTypes } from '../src/control/controller-state.ts';
import type { Procedure } from '../src/control/procedure.ts';
import type { Event } from '../src/core/events.ts';
import {
  type Actuators,
  type Button,
  type Frame,
  type LadderReading,
  lampBurns,
  type Request,
  type Switches,
  type Trip,
} from '../src/core/frame.ts';
import { CURE_PHASES } from '../src/core/phases.ts';
import { HEALTHY_FRAME } from './frames.ts';

export const TICK_S = 0.05;
const AIR_PA = 100_600;
const LAMP_W_PER_M2 = 195;
const AIR_K = 298.15;
const PANE_K = 296.15;

/** What the sensors see, SI; what is left out is as in a sound unit. */
export interface Scene {
  readonly pressurePa?: number;
  /** Light while the lamp burns, and while it is out. */
  readonly litWPerM2?: number;
  readonly darkWPerM2?: number;
  /** The latter to the very step of the converter. */
  readonly darkCounts?: number;
  readonly glassK?: number;
  readonly heatSinkK?: number;
  readonly supplyV?: number;
  /** In place of what the values above would give. */
  readonly counts?: Partial<Frame['counts']>;
  readonly switches?: Partial<Switches>;
  readonly trips?: readonly Trip[];
  readonly damaged?: boolean;
  readonly gap?: boolean;
  readonly mute?: boolean;
  /** Board time since the last frame; a tick where left out. */
  readonly gapS?: number;
  /** Host time since the last frame, or no host time at all; as much as the board's where left out. */
  readonly hostGapS?: number | null;
  readonly pressed?: readonly Button[];
  /** What the button ladder reads; nothing down where left out. */
  readonly ladder?: LadderReading | null;
}
/** A scene that changes with the time since it began, s. */
export type Play = Scene | ((sinceS: number) => Scene);

export interface Unit<P extends ProcedureTypes> {
  readonly procedure: Procedure<P>;
  readonly config: P['config'];
  readonly state: ControllerState<P>;
  /** What the last tick gave; null before the first. */
  readonly step: ControllerStep<P> | null;
  readonly ticks: number;
  readonly boardS: number;
  readonly hostS: number;
  readonly sampledAtS: number;
  readonly airPa: number;
  /** What the chamber holds while the scene does not say. */
  readonly chamberPa: number;
  /** What the lamp makes of heat sink and glass while the scene does not say. */
  readonly sinkK: number;
  readonly spotK: number;
  readonly log: readonly Event[];
}

export const unitAtRest = <P extends ProcedureTypes>(
  procedure: Procedure<P>,
  config: P['config'],
  airPa = AIR_PA,
): Unit<P> => ({
  procedure,
  config,
  state: procedure.start(config),
  step: null,
  ticks: 0,
  boardS: 0,
  hostS: 1000,
  sampledAtS: 0,
  airPa,
  chamberPa: airPa,
  sinkK: AIR_K,
  spotK: PANE_K,
  log: [],
});

export function tick<P extends ProcedureTypes>(
  unit: Unit<P>,
  scene: Scene = {},
  requests: readonly Request[] = [],
): Unit<P> {
  const { gapS = TICK_S, hostGapS = gapS, mute = false } = scene;
  const boardS = unit.boardS + gapS;
  const hostS = unit.hostS + (hostGapS ?? gapS);
  const sampledAtS = mute ? unit.sampledAtS : boardS;
  const chamberPa = chamberAfter(unit);
  const frame: Frame = {
    sequence: unit.ticks,
    timeS: boardS,
    hostTimeS: hostGapS === null ? null : hostS,
    sampledAtS,
    link: mute ? 'mute' : 'up',
    counts: countsIn(scene, chamberPa, unit),
    switches: { ...HEALTHY_FRAME.switches, ...shieldOf(unit), ...scene.switches },
    pressed: scene.pressed ?? [],
    ladder: scene.ladder === undefined ? 'released' : scene.ladder,
    trips: scene.trips ?? [],
    damaged: scene.damaged ?? false,
    gap: scene.gap ?? false,
  };
  const step = stepController(unit.procedure, unit.config, unit.state, frame, requests);
  const log = step.events.length === 0 ? unit.log : [...unit.log, ...step.events];
  return {
    ...unit,
    state: step.state,
    step,
    ticks: unit.ticks + 1,
    boardS,
    hostS,
    sampledAtS,
    chamberPa: scene.pressurePa ?? chamberPa,
    sinkK: warmedTo(unit.sinkK, AIR_K, 30, 150, unit, gapS),
    spotK: warmedTo(unit.spotK, PANE_K, 2.9, 175, unit, gapS),
    log,
  };
}

/** Lifted until a person closes it over the lamp. */
const shieldOf = <P extends ProcedureTypes>({ procedure, state }: Unit<P>): Partial<Switches> => ({
  shieldClosed: CURE_PHASES.has(procedure.holdsAs(state.procedure)),
});

/** Lets time pass, a tick at least. */
export function pass<P extends ProcedureTypes>(unit: Unit<P>, seconds: number, play: Play = {}) {
  return passUntil(unit, seconds, play, () => false);
}

/** Lets time pass until something is so, or for as long as this. */
export function passUntil<P extends ProcedureTypes>(
  unit: Unit<P>,
  longestS: number,
  play: Play,
  isSo: (unit: Unit<P>) => boolean,
): Unit<P> {
  let now = unit;
  for (let n = 0; n < Math.max(1, Math.round(longestS / TICK_S)); n++) {
    now = tick(now, typeof play === 'function' ? play(n * TICK_S) : play);
    if (isSo(now)) break;
  }
  return now;
}

export const actuatorsOf = ({ state }: Pick<Before, 'state'>): Actuators => state.commanded;

/** What the world follows of a unit, whichever procedure it runs. */
interface Before {
  readonly state: Pick<ControllerState<ProcedureTypes>, 'commanded' | 'setPointPa'>;
  readonly airPa: number;
  readonly chamberPa: number;
  readonly sinkK: number;
  readonly spotK: number;
  readonly ticks: number;
}

/** A set-point is reached and passed by this, so that the pump rests. */
const PAST_PA = 600;

/** Just past the set-point, at the air's pressure while vented, and as it was while closed. */
function chamberAfter({ state, airPa, chamberPa }: Before): number {
  if (state.commanded.ventOpen) return airPa;
  const { setPointPa } = state;
  if (setPointPa === null) return chamberPa;
  // No pump leaves nothing.
  return setPointPa > airPa ? setPointPa + PAST_PA : Math.max(9_000, setPointPa - PAST_PA);
}

/** Follows the lamp with one time constant: up to this many kelvins, and back. */
function warmedTo(
  nowK: number,
  restK: number,
  riseK: number,
  timeConstantS: number,
  { state }: Before,
  gapS: number,
): number {
  const towardK = restK + (lampBurns(state.commanded) ? riseK * state.commanded.lampRatio : 0);
  return nowK + (towardK - nowK) * -Math.expm1(-Math.max(0, gapS) / timeConstantS);
}

function countsIn(
  scene: Scene,
  chamberPa: number,
  { state, ticks, sinkK, spotK }: Before,
): Frame['counts'] {
  const { litWPerM2 = LAMP_W_PER_M2, darkWPerM2 = 0, supplyV = 12.5 } = scene;
  const { glassK = spotK, heatSinkK = sinkK, pressurePa = chamberPa } = scene;
  // A live converter never rests.
  const jitter = ticks % 2;
  // Seldom enough for the median of three to take it out of what is measured.
  const flicker = ticks % 40 === 0 ? 1 : 0;
  const dark = scene.darkCounts ?? liveZero(darkWPerM2, 400) + jitter;
  const lit = liveZero(litWPerM2, 400) + jitter;
  return {
    pressure: Math.min(1023, liveZero(pressurePa, 400_000) + jitter),
    irradiance: Math.min(1023, lampBurns(state.commanded) ? lit : dark),
    glassTemperature: dividerCounts(glassK) + flicker,
    heatSinkTemperature: dividerCounts(heatSinkK) + flicker,
    supplyVoltage: Math.round((1023 * supplyV) / 20),
    ...scene.counts,
  };
}

/** Counts of the demo unit's live-zero transmitters: a tenth of the span at zero, nine at full. */
const liveZero = (value: number, full: number): number =>
  Math.floor(1023 * (0.1 + (0.8 * value) / full));

/** Counts of its thermistors, by the Steinhart-Hart equation solved for the resistance. */
function dividerCounts(kelvin: number): number {
  const [a, b, c] = [1.129148e-3, 2.34125e-4, 8.76741e-8];
  const x = (a - 1 / kelvin) / (2 * c);
  const y = Math.sqrt((b / (3 * c)) ** 3 + x * x);
  const ohm = Math.exp(Math.cbrt(y - x) - Math.cbrt(y + x));
  return Math.round((1023 * ohm) / (ohm + 10_000));
}
