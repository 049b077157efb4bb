/**
 * What may happen to a job, as commands of a model-based test: presses at once or once the screen is
 * read, time, the stop, Ctrl-C, a loss of power with another attempt after it, a mute board, and what
 * the next test of the seal sees. The model itself is checked at every tick, in `modelled-job.ts`.
 */
import fc from 'fast-check';
import type { Button } from '../../../../src/core/frame.ts';
import { WAYS_ON, type WayOn } from '../../../../src/procedure/repair/reentry.ts';
import {
  emergencyStop,
  hold,
  interrupt,
  isForPerson,
  type Job,
  newJob,
  nextAttempt,
  passJob,
  press,
  SEAL_SHAPES,
  stepJob,
} from './modelled-job.ts';
import { leadOn, MANNERS, type Manner } from './patient-person.ts';

/** A job, and what was met on the way. */
export interface Walk {
  job: Job;
  readonly met: Set<string>;
}
interface Nothing {
  readonly unused?: never;
}
type Command = fc.Command<Nothing, Walk>;

function command(name: string, act: (job: Job) => Job, may: (job: Job) => boolean = () => true) {
  return fc.constant<Command>({
    check: () => true,
    run: (_, walk) => {
      if (!may(walk.job)) return;
      const before = walk.job;
      walk.job = act(before);
      note(walk, walk.job.attempt === before.attempt ? before.unit.log.length : 0);
    },
    toString: () => name,
  });
}

/** Steps, batch states and questions on the way, from this event of the attempt on. */
function note({ job, met }: Walk, fromEvent: number): void {
  const { log, state } = job.unit;
  for (const event of log.slice(fromEvent)) {
    if (event.kind === 'phase') met.add(event.phase);
    if (event.kind === 'batch') met.add(`batch ${event.to}`);
  }
  if (state.why?.asks !== undefined) met.add(`asks ${state.why.asks}`);
}

const isOver = ({ model }: Job): boolean => model.batch === 'over';
const isOpen = ({ unit }: Job): boolean => !unit.state.ended;
/** Long enough for every step that goes by itself. */
const LONGEST_STEP_S = 200;

const waits = (seconds: number) =>
  command(`wait ${seconds} s`, (job) => passJob(job, seconds, () => false), isOpen);
const goOn = command('let it go on', (job) => passJob(job, LONGEST_STEP_S, isForPerson), isOpen);
const presses = (button: Button) =>
  command(
    button.toUpperCase(),
    (job) => press(passJob(job, LONGEST_STEP_S, isForPerson), button),
    isOpen,
  );
const atOnce = (button: Button) =>
  command(`${button} at once`, (job) => stepJob(job, { pressed: [button] }), isOpen);

const ledOn = ([n, manner]: readonly [number, Manner]) =>
  command(`${n} presses, ${manner}`, (job) => leadOn(job, manner, n), isOpen);

/** A job that is done is followed by a new one, as one that can only be closed is. */
function another(way: WayOn): fc.Arbitrary<Command> {
  return command(`power lost, ${way}`, (job) => {
    const end = job.unit.log.findLast(({ kind }) => kind === 'end');
    const done = end?.kind === 'end' && end.reason === 'completed';
    const { entry: _, ...config } = job.unit.config;
    return (done ? null : nextAttempt(job, way)) ?? newJob(config);
  });
}

const COMMANDS: readonly (readonly [number, fc.Arbitrary<Command>])[] = [
  [30, presses('yes')],
  [14, presses('no')],
  [2, presses('more')],
  [10, goOn],
  [5, fc.tuple(fc.constantFrom(2, 6, 12), fc.constantFrom(...MANNERS)).chain(ledOn)],
  [2, fc.constantFrom(0.3, 1, 4).chain(waits)],
  [1, atOnce('yes')],
  [1, atOnce('no')],
  [3, command('HOLD', hold, (job) => !isOver(job))],
  [1, command('emergency stop', emergencyStop, isOpen)],
  [1, command('Ctrl-C', interrupt, isOpen)],
  [1, command('mute board', (job) => passJob(job, 1, () => false, { mute: true }), isOpen)],
  [2, fc.constantFrom(...WAYS_ON).chain(another)],
  [
    4,
    fc
      .constantFrom(...SEAL_SHAPES)
      .chain((seal) => command(`seal ${seal}`, (job) => ({ ...job, seal }))),
  ],
];

export const jobCommands = (most: number) =>
  fc.commands([fc.oneof(...COMMANDS.map(([weight, arbitrary]) => ({ weight, arbitrary })))], {
    maxCommands: most,
    size: 'max',
  });
