/**
 * A case on the emulated board: the real firmware image, the real driver on a line to it, and a
 * fault of line, board or firmware a while after a phase began. It is run from power-up, because a
 * chip is not copied, so there are few of them: one under the first vacuum, one in
 * the light.
 */
import type { Rig } from '../../sim/board/rig.ts';
import type { Fault } from '../../sim/faults/faults.ts';
import { timeOfS } from '../../sim/plant/plant.ts';
import { isEmulated } from '../../src/cli/run/emulated-faults.ts';
import { type ControllerStep, stepController } from '../../src/control/controller.ts';
import { isSafe } from '../../src/core/frame.ts';
import type { PhaseId } from '../../src/core/phases.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { type EmulatedBoard, openEmulatedBoard } from '../emulated/emulated-board.ts';
import { NoSuchCase } from './cases.ts';
import { JOBS } from './jobs.ts';
import { type CaseResult, judge, type Run } from './judge.ts';
import { watchLimits } from './limits.ts';
import type { Row } from './row.ts';
import { FIRMWARE_ROWS, type FirmwareRow } from './rows-firmware.ts';
import { LINE_ROWS } from './rows-people.ts';
import { keep, type Log } from './run-job.ts';
import { watchTruth } from './truth.ts';

export const EMULATED = 'emulated/';

/** Where a fault begins: this long after its phase. */
export const EMULATED_MOMENTS: Readonly<Record<string, { phase: PhaseId; afterS: number }>> = {
  'seal-watch': { phase: 'seal-watch', afterS: 3 },
  cure: { phase: 'cure', afterS: 10 },
};

/** The clocks of chip and line are the emulation's own. */
const LINE_ROWS_EMULATED: readonly Row[] = LINE_ROWS.filter(({ faults }) =>
  faults.every(isEmulated),
);
export const EMULATED_ROWS: readonly (Row | FirmwareRow)[] = [
  ...LINE_ROWS_EMULATED,
  ...FIRMWARE_ROWS,
];

export const emulatedCases = (): readonly string[] =>
  EMULATED_ROWS.flatMap(({ id }) =>
    Object.keys(EMULATED_MOMENTS).map((moment) => `${EMULATED}${id}@${moment}`),
  );

const SLICE_S = 0.01;
/** A sound job takes 240 s. */
const LONGEST_S = 500;
/** Long enough for a person to have tried twice. */
const STANDS_S = 20;

export const runEmulated = async (id: string): Promise<CaseResult> =>
  (await courseOnEmulated(id)).result;

/** With its course, for a terminal. */
export async function courseOnEmulated(id: string): Promise<Run> {
  const [rowId = '', momentId = ''] = id.slice(EMULATED.length).split('@');
  const row = EMULATED_ROWS.find((one) => one.id === rowId);
  const from = EMULATED_MOMENTS[momentId];
  if (row === undefined || from === undefined) {
    throw new NoSuchCase(`${id}: there is no such case; there are ${emulatedCases().join(', ')}`);
  }
  const faults =
    'faults' in row ? row.faults.map(({ begins: _, ...own }) => ({ ...own, from })) : [];
  const act = 'act' in row ? row.act : null;
  return follow({ id, row, from, faults, act });
}

interface Plan {
  readonly id: string;
  readonly row: { readonly id: string };
  readonly from: { readonly phase: PhaseId; readonly afterS: number };
  readonly faults: readonly Fault[];
  readonly act: FirmwareRow['act'] | null;
}

async function follow({ id, row, from, faults, act }: Plan): Promise<Run> {
  const job = JOBS.together;
  const limits = watchLimits();
  const truth = watchTruth();
  let rig: Rig | null = null;
  const emulated = await openEmulatedBoard({ ...job.scenario(1), faults }, (now) => {
    limits.look(now);
    truth.look(now);
    rig = now;
  });
  const log: Log = { ticks: [], events: [], snapshots: [] };
  const run = controlling(emulated, log, truth.enter);
  let begunS: number | null = null;
  let fromEvent = 0;
  let safeSinceS = Number.POSITIVE_INFINITY;
  for (;;) {
    const eventsBefore = log.events.length;
    await emulated.clock.sleep(SLICE_S);
    const nowS = timeOfS((rig as unknown as Rig).plant);
    const enteredS = log.events.find((e) => e.kind === 'phase' && e.phase === from.phase)?.timeS;
    if (begunS === null && enteredS !== undefined && run.timeS() >= enteredS + from.afterS) {
      begunS = run.timeS();
      fromEvent = log.events.length;
      act?.(emulated.bench);
    }
    const news = log.events
      .slice(eventsBefore)
      .some(({ kind }) => kind === 'batch' || kind === 'phase');
    const stands = begunS !== null && isSafe((rig as unknown as Rig).acting) && !news;
    safeSinceS = stands ? Math.min(safeSinceS, nowS) : nowS;
    if (run.ended() || nowS > LONGEST_S || nowS - safeSinceS > STANDS_S) break;
  }
  run.stop();
  if (begunS === null) throw new Error(`${id}: the job did not come to its phase`);
  return judge({
    id,
    rows: [row],
    job,
    board: { ...emulated.board.identity, kind: 'emulated board' },
    log,
    fromEvent,
    fromS: begunS,
    faults,
    breaches: limits.breaches(),
    truth: truth.truth(),
  });
}

/** The pipeline's loop without its streams, as on the simulated board. */
function controlling(
  { board }: EmulatedBoard,
  log: Log,
  enter: (snapshot: ControllerStep<Repair>['snapshot']) => void,
) {
  const { config } = JOBS.together.settings;
  let state = REPAIR.start(config);
  let timeS = 0;
  const listening = board.frames$.subscribe((frame) => {
    if (state.ended) return;
    const step = stepController(REPAIR, config, state, frame, []);
    state = step.state;
    timeS = frame.timeS;
    board.write(step.outputs);
    keep(log, frame, step);
    enter(step.snapshot);
  });
  return {
    ended: () => state.ended,
    timeS: () => timeS,
    stop: () => listening.unsubscribe(),
  };
}
