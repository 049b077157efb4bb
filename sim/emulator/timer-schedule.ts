/**
 * Schedules the calls that a timer of avr8js needs. By default it asks for a call at every count,
 * which leaves a sleeping processor nothing to skip. It also merges everything within one call, so
 * a short pulse can get lost. Here a timer is called only at its next compare match or turn, one at
 * a time. It is not called while its output is not observed; it then catches up when one of its
 * registers is accessed. avr8js still defines the meaning of a count.
 */
import type { AVRTimer, AVRTimerConfig, CPU } from 'avr8js';
import { wrapWrite } from './avr8js-workarounds.ts';

/** Internal state of avr8js that determines the next event. */
interface Counter {
  readonly TOP: number;
  readonly ocrA: number;
  readonly ocrB: number;
  readonly tcnt: number;
  readonly divider: number;
  readonly countingUp: boolean;
  readonly timerMode: number;
  readonly tcntUpdated: boolean;
  readonly updateDivider: boolean;
  lastCycle: number;
  count: (reschedule?: boolean, external?: boolean) => void;
}

const PHASE_CORRECT: readonly number[] = [1, 4];
const isPhaseCorrect = ({ timerMode }: Counter): boolean => PHASE_CORRECT.includes(timerMode);

/** Counts until the next compare match or turn; at least 1. */
export function countsToNext(counter: Counter): number {
  const { TOP, ocrA, ocrB, tcnt, countingUp } = counter;
  if (!isPhaseCorrect(counter)) {
    const size = TOP + 1;
    const ahead = (point: number): number => ((point - tcnt - 1 + 2 * size) % size) + 1;
    const points = [0, ocrA, ocrB].filter((point) => point <= TOP && tcnt <= TOP);
    // A count beyond a top that was set lower: avr8js brings it back with the next step.
    return points.length === 0 ? 1 : Math.max(1, Math.min(...points.map(ahead)));
  }
  const points = countingUp
    ? [ocrA, ocrB, TOP].filter((point) => point > tcnt).map((point) => point - tcnt)
    : [ocrA, ocrB, 0].filter((point) => point < tcnt).map((point) => tcnt - point);
  return Math.max(1, points.length === 0 ? 1 : Math.min(...points));
}

export interface TimerSchedule {
  /** Brings count, flags and pins to the present. */
  readonly catchUp: () => void;
  /** This timer's output is observed: every edge must come at its own cycle. */
  readonly watch: () => void;
}

export function scheduleTimer(cpu: CPU, timer: AVRTimer, config: AVRTimerConfig): TimerSchedule {
  const counter = timer as unknown as Counter;
  const step = counter.count;
  let watched = false;
  const noticed = (): boolean => watched || (cpu.data[config.TIMSK] ?? 0) !== 0;
  const dueCycle = (): number => counter.lastCycle + countsToNext(counter) * counter.divider;

  const catchUp = (): void => {
    const now = cpu.cycles;
    if (counter.divider === 0 || counter.tcntUpdated || counter.updateDivider) return;
    skipWholePeriods(counter, now);
    for (let due = dueCycle(); due <= now; due = dueCycle()) {
      cpu.cycles = due;
      step(false);
    }
    cpu.cycles = now;
    step(false);
  };
  const plan = (): void => {
    if (counter.divider !== 0 && noticed())
      cpu.addClockEvent(counter.count, dueCycle() - cpu.cycles);
  };
  // From a clock event; never removes an event, because the processor still holds the running one.
  counter.count = (reschedule = true, external = false) => {
    const isSetUp = counter.updateDivider;
    if (!external) catchUp();
    if (isSetUp && !reschedule) cpu.clearClockEvent(counter.count);
    if (isSetUp || external) step(false, external);
    if (reschedule && !isSetUp) plan();
  };
  const planAnew = (): void => {
    cpu.clearClockEvent(counter.count);
    plan();
  };
  aroundRegisters(cpu, config, counter, step, catchUp, planAnew);
  return {
    catchUp,
    watch: () => {
      catchUp();
      watched = true;
      if (!counter.updateDivider) planAnew();
    },
  };
}

/**
 * A long unobserved time: skips all but the last two whole periods, which a new compare value
 * needs.
 */
function skipWholePeriods(counter: Counter, now: number): void {
  const { TOP, divider } = counter;
  const period = (isPhaseCorrect(counter) ? Math.max(1, 2 * TOP) : TOP + 1) * divider;
  const whole = Math.floor((now - counter.lastCycle) / period) - 2;
  if (whole > 0) counter.lastCycle += whole * period;
}

/** A register access changes what comes next: first catch up, then write, then schedule again. */
function aroundRegisters(
  cpu: CPU,
  config: AVRTimerConfig,
  counter: Counter,
  step: Counter['count'],
  catchUp: () => void,
  planAnew: () => void,
): void {
  for (const address of [config.OCRA, config.OCRB, config.TIMSK, config.TCCRA, config.TCNT]) {
    wrapWrite(cpu, address, (value, write) => {
      catchUp();
      write(value);
      if (counter.updateDivider) return;
      if (counter.tcntUpdated) step(false);
      planAnew();
    });
  }
  for (const address of [config.TCCRB, config.TIFR]) {
    wrapWrite(cpu, address, (value, write) => {
      catchUp();
      write(value);
    });
  }
  cpu.readHooks[config.TIFR] = () => {
    catchUp();
    return cpu.data[config.TIFR] ?? 0;
  };
}
