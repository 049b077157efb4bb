/** Hand-made samples of a healthy unit at rest, ten a second, for tests to change things in. */
import type { Outputs } from '../../src/core/frame.ts';
import { CHECKLIST } from '../../wiring/checklist/checklist.ts';
import { judgeStep, type Sample, type Step, type Verdict } from '../../wiring/checklist/step.ts';
import { HEALTHY_FRAME } from '../frames.ts';

export const TICK_S = 0.1;
export type Change = Partial<Omit<Sample, 'frame'>> & { readonly frame?: Partial<Sample['frame']> };

const AT_REST: Omit<Sample, 'frame'> = {
  pressurePa: 100_600,
  irradianceWPerM2: 0,
  glassK: 296,
  heatSinkK: 297,
  supplyV: 12.4,
};

/** The world answers each tick to the outputs of the tick before. */
export type World = (atS: number, outputs: Outputs | null, before: Sample | undefined) => Change;

export interface Walk {
  readonly verdict: Verdict;
  readonly why: string;
  readonly samples: readonly Sample[];
  readonly written: readonly (Outputs | null)[];
}

/** Walks one step to its verdict, as a command would; `answer` comes after 5 s. */
export function walk(step: Step, world: World, answer: 'yes' | 'no' | null = null): Walk {
  const samples: Sample[] = [];
  const written: (Outputs | null)[] = [];
  for (let tick = 0; tick * TICK_S <= step.timeoutS + 1; tick++) {
    const timeS = 100 + tick * TICK_S;
    const { frame, ...values } = world(tick * TICK_S, written.at(-1) ?? null, samples.at(-1));
    samples.push({
      ...AT_REST,
      ...values,
      frame: { ...HEALTHY_FRAME, sequence: tick, timeS, sampledAtS: timeS, ...frame },
    });
    const commanded = written.at(-1) ?? null;
    const context = { samples, commanded, answer: tick * TICK_S >= 5 ? answer : null };
    const { verdict, why } = judgeStep(step, context);
    if (verdict !== 'waiting') return { verdict, why, samples, written };
    written.push(step.outputs(samples));
  }
  return { verdict: 'waiting', why: '', samples, written };
}

export function stepOf(id: string): Step {
  const found = CHECKLIST.find((step) => step.id === id);
  if (found === undefined) throw new Error(`no step ${id}`);
  return found;
}

const { switches } = HEALTHY_FRAME;
export const idle: World = () => ({});
export const stopped = { ...switches, emergencyStopPressed: true };
export const overPressure = { ...switches, overPressureTripped: true };
export const open = { ...switches, shieldClosed: false };

/** A chamber that the pump draws from, that leaks by `leakPaPerS`, and that the vent opens. */
export const chamber =
  (leakPaPerS: number, obeysSilence = true): World =>
  (_, outputs, before) => {
    const pressurePa = before?.pressurePa ?? 100_600;
    if (before === undefined) return { pressurePa };
    if (outputs === null && !obeysSilence) return { pressurePa };
    if (outputs === null || outputs.ventOpen)
      return { pressurePa: pressurePa + 0.2 * (100_600 - pressurePa) };
    const drawnPa = outputs.selector === 'vacuum' ? outputs.pumpRatio * 1000 : 0;
    return { pressurePa: Math.min(100_600, pressurePa - drawnPa + leakPaPerS * TICK_S) };
  };

/** A lamp of 20 W/m2 at a tenth, cut by its shield or not, the board tripping when asked in vain. */
export const lampWorld =
  (shieldClosed: (atS: number) => boolean, cuts: boolean, litWPerM2 = 20): World =>
  (atS, outputs, before) => {
    const closed = shieldClosed(atS);
    const asked = outputs?.lampEnabled === true;
    const wasTripped = before?.frame.trips.includes('shield') === true;
    const cleared = outputs?.clearTrips === true && closed;
    const tripped = (asked && !closed) || (wasTripped && !cleared);
    const lit = asked && (!cuts || (closed && !tripped));
    return {
      irradianceWPerM2: lit ? litWPerM2 : 0.5,
      frame: { switches: { ...switches, shieldClosed: closed }, trips: tripped ? ['shield'] : [] },
    };
  };
