/**
 * `meniscus bench`: brings up a freshly wired unit together with a person, step by step, and writes
 * the result. Outputs are safe between steps, after the last step, and whatever happens.
 */
import { join } from 'node:path';
import type { Board } from '../../../hal/board.ts';
import { CHECKLIST } from '../../../wiring/checklist/checklist.ts';
import type { Step } from '../../../wiring/checklist/step.ts';
import { loadSettings } from '../../app/prepare/load-settings.ts';
import { problemLine } from '../../core/settings.ts';
import { makePrivateFolder, writePrivate } from '../../journal/private-file.ts';
import type { ModelBoardKind } from '../run/board-options.ts';
import { openSession } from '../run/open-session.ts';
import type { Session } from '../run/session.ts';
import { EXIT } from '../terminal/exit-codes.ts';
import { SIGNALS } from '../terminal/interrupts.ts';
import { INTERRUPT_KEY, type KeyAction, listenToKeyNames } from '../terminal/keys.ts';
import { print } from '../terminal/print.ts';
import { refuse } from '../terminal/refuse.ts';
import {
  startWalk,
  type WalkKey,
  type WalkState,
  type WalkStep,
  walkFrame,
  walkKey,
  walkPassed,
  walkSummary,
} from './bring-up.ts';

export interface BringUpOptions {
  readonly port?: string;
  readonly board?: ModelBoardKind;
  readonly unit?: string;
  readonly step: readonly string[];
  readonly records: string;
}

const KEYS: Readonly<Record<string, WalkKey>> = {
  return: 'go',
  enter: 'go',
  y: 'yes',
  n: 'no',
  s: 'skip',
  q: 'quit',
  [INTERRUPT_KEY]: 'quit',
};

const WARNING = `The unit will move valves and pump and light its UV lamp. Wear UV glasses and gloves, keep
hands off what moves, and have the emergency stop within reach. Local codes and licensed
practice decide how it may be supplied and used.`;

/** A person is at the bench, in real time. */
const AT_HAND = { manual: true, speed: 1, seed: 1, altitude: 60, fault: [] } as const;

/** Keys for a bench without a unit to touch; y and n answer questions here. */
const HAND_KEYS: Readonly<Record<string, KeyAction>> = {
  '1': { kind: 'button', button: 'yes' },
  '2': { kind: 'button', button: 'no' },
  '3': { kind: 'button', button: 'more' },
  '4': { kind: 'button', button: 'hold' },
  '5': { kind: 'emergency-stop' },
  '6': { kind: 'shield' },
};
const HAND_KEYS_LINE =
  'Keys for hands: 1 YES  2 NO  3 MORE  4 HOLD  5 emergency stop  6 shield; 5 and 6 toggle';

const realHead = ({ identity }: Board): readonly string[] => [
  `Bring-up of the board at ${identity.serial}.`,
  WARNING,
];

const modelHead = ({ identity }: Board): readonly string[] => [
  `Bring-up of the ${identity.kind} ${identity.serial}, which says nothing about any wiring.`,
  HAND_KEYS_LINE,
  'Skip (s) steps that need a thumb on the hose, a breath or a loose wire.',
];

export async function bringUpCommand(options: BringUpOptions): Promise<number> {
  const loaded = loadSettings(options);
  if (!loaded.ok) return refuse(loaded.problems.map(problemLine));
  const { config } = loaded.value;
  const opened = await openSession({ ...AT_HAND, board: 'simulated', ...options }, config);
  if (!opened.ok) return refuse(opened.lines);
  const { session } = opened;
  const { board } = session;
  const steps =
    options.step.length === 0 ? CHECKLIST : CHECKLIST.filter(({ id }) => options.step.includes(id));
  say(options.port === undefined ? modelHead(board) : realHead(board));
  const { channels } = config.unit;
  const end = await walk(session, steps, (state, frame) =>
    walkFrame(steps, state, frame, channels),
  );
  say(walkSummary(steps, end));
  say([`Written to ${keep(options.records, board, steps, end)}`]);
  return walkPassed(end) ? EXIT.completed : EXIT.fault;
}

/** Resolves when the walk is over and the board is closed with safe outputs. */
async function walk(
  session: Session,
  steps: readonly Step[],
  onFrame: (state: WalkState, frame: Parameters<typeof walkFrame>[2]) => WalkStep,
): Promise<WalkState> {
  let { state, lines } = startWalk(steps);
  say(lines);
  const { board } = session;
  const { stdin } = process;
  let stopListening = (): void => undefined;
  const running = session.run();
  const over = new Promise<void>((resolve, reject) => {
    const take = (step: WalkStep): void => {
      ({ state, lines } = step);
      say(lines);
      if (state.phase === 'over') resolve();
    };
    const press = (key: WalkKey | undefined): void => {
      if (key !== undefined && state.phase !== 'over') take(walkKey(steps, state, key));
    };
    board.frames$.subscribe({
      next: (frame) => {
        if (state.phase === 'over') return;
        take(onFrame(state, frame));
        if (state.commanded !== null) board.write(state.commanded);
      },
      complete: resolve,
    });
    stopListening = listenToKeyNames(stdin, (name) => {
      press(KEYS[name]);
      const hand = HAND_KEYS[name];
      // No request is made here: on a real board these keys do nothing.
      if (hand !== undefined) session.act(hand, () => undefined);
    });
    stdin.once('end', () => press('quit'));
    for (const signal of SIGNALS) process.once(signal, () => press('quit'));
    running.done.catch(reject);
  });
  try {
    await over;
  } finally {
    running.stop();
    board.makeSafe();
    await board.close();
    stopListening();
  }
  return state;
}

function keep(
  records: string,
  { identity }: Board,
  steps: readonly Step[],
  { results }: WalkState,
): string {
  const at = new Date().toISOString();
  makePrivateFolder(records);
  const path = join(records, `bring-up-${at.replaceAll(':', '-')}.json`);
  const outcome = steps.map(({ id, title }, index) => ({ id, title, result: results[index] }));
  const content = { schema: 'meniscus/bring-up@1', at, board: identity, steps: outcome };
  writePrivate(path, `${JSON.stringify(content, null, 2)}\n`, 'wx');
  return path;
}

function say(lines: readonly string[]): void {
  if (lines.length > 0) print(`${lines.join('\n')}\n`);
}
