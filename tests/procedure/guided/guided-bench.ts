/**
 * Runs a whole guided procedure on the simulated board with a scripted person and reference
 * instruments, in lock-step, and records the results. The conditions for every frame are checked.
 */
import { createSimulatedBoard, type SimulatedBoard } from '../../../sim/board/simulated-board.ts';
import type { Fault } from '../../../sim/faults/faults.ts';
import { createCalibratingPerson } from '../../../sim/people/calibrating-person.ts';
import { createReferenceInstrument } from '../../../sim/people/reference-instruments.ts';
import { createChance } from '../../../sim/random.ts';
import careFile from '../../../src/app/defaults/care.json' with { type: 'json' };
import guidedFile from '../../../src/app/defaults/guided.json' with { type: 'json' };
import unitFile from '../../../src/app/defaults/unit.json' with { type: 'json' };
import { ENGLISH } from '../../../src/app/prepare/load-catalogue.ts';
import type { ReferenceInstrument } from '../../../src/care/care-entry.ts';
import { careSettingsSchema } from '../../../src/care/care-settings.ts';
import { type ControllerStep, stepController } from '../../../src/control/controller.ts';
import { type UnitSettings, unitSettingsSchema } from '../../../src/control/unit-settings.ts';
import type { Event } from '../../../src/core/events.ts';
import type { Frame, Request } from '../../../src/core/frame.ts';
import type { ProcedureName } from '../../../src/core/guided-events.ts';
import { GUIDED } from '../../../src/procedure/guided/guided.ts';
import { type GuidedResult, guidedResultOf } from '../../../src/procedure/guided/guided-result.ts';
import { guidedSettingsSchema } from '../../../src/procedure/guided/guided-settings.ts';
import type { Guided, GuidedConfig } from '../../../src/procedure/guided/guided-state.ts';
import { QUANTITIES, type QuantityName } from '../../../src/procedure/guided/quantities.ts';
import { RECORD_WORDS } from '../../../src/procedure/guided/record-words.ts';
import { checkOutputs } from '../../output-rules.ts';
import { scenarioWith } from '../../sim/board/lock-step.ts';

export const CARE = careSettingsSchema.parse(careFile);
export const FIGURES = guidedSettingsSchema.parse(guidedFile);

export const DEMO_UNIT = unitSettingsSchema.parse(unitFile);

const INSTRUMENT = { name: 'demo reference', certificate: 'demo', coverageFactor: 2 } as const;

/** Which instrument each procedure needs, what it states, and what it shows on its display. */
export const REFERENCES = {
  pressure: {
    kind: 'gauge',
    quantity: 'pressure',
    stated: { ...INSTRUMENT, expandedUncertainty: 50, resolution: 10 },
  },
  uv: {
    kind: 'radiometer',
    quantity: 'light',
    stated: { ...INSTRUMENT, expandedUncertainty: 0.04, resolution: 0.1, atNm: 365 },
  },
  temperature: {
    kind: 'thermometer',
    quantity: 'temperature',
    stated: { ...INSTRUMENT, expandedUncertainty: 0.05, resolution: 0.01 },
  },
} as const satisfies Partial<
  Record<ProcedureName, { kind: string; quantity: QuantityName; stated: ReferenceInstrument }>
>;

export interface GuidedOptions {
  readonly procedure: ProcedureName;
  readonly seed?: number;
  readonly faults?: readonly Fault[];
  readonly unit?: UnitSettings;
  readonly config?: Partial<GuidedConfig>;
  /** False: nobody presses anything. */
  readonly person?: boolean;
  /** Looks at every tick; may ask, press, or stop the run by returning true. */
  readonly watch?: (
    step: ControllerStep<Guided>,
    board: SimulatedBoard,
    ask: (request: Request) => void,
  ) => boolean;
  /** Takes what a journal would. */
  readonly record?: (tick: {
    readonly frame: Frame;
    readonly requests: readonly Request[];
    readonly step: ControllerStep<Guided>;
  }) => void;
}

export interface GuidedRun {
  readonly events: readonly Event[];
  readonly last: ControllerStep<Guided>;
  readonly result: GuidedResult | null;
  readonly board: SimulatedBoard;
  readonly config: GuidedConfig;
  /** First line of every screen that was shown, in order, repeats left out. */
  readonly titles: readonly string[];
}

const LONGEST_S = 4 * 3600;

export function guidedConfig(procedure: ProcedureName, unit = DEMO_UNIT): GuidedConfig {
  return {
    procedure,
    unit,
    settings: FIGURES,
    care: CARE,
    reference: procedure === 'health' ? null : REFERENCES[procedure].stated,
    catalogue: ENGLISH,
    words: RECORD_WORDS,
    given: [],
  };
}

export function runGuided(options: GuidedOptions): GuidedRun {
  const { procedure, seed = 1, faults = [], unit, person = true } = options;
  const config = { ...guidedConfig(procedure, unit), ...options.config };
  const board = createSimulatedBoard(scenarioWith({ seed, faults }));
  const chance = createChance(seed, 'technician');
  const hands = createCalibratingPerson(chance);
  const shown = shownBy(procedure, board, seed);
  const events: Event[] = [];
  const titles: string[] = [];
  const requests: Request[] = [];
  let state = GUIDED.start(config);
  let last: ControllerStep<Guided> | null = null;
  board.frames$.subscribe((frame) => {
    if (state.ended) return;
    const asked = requests.splice(0);
    const step = stepController(GUIDED, config, state, frame, asked);
    options.record?.({ frame, requests: asked, step });
    check(step, frame, board);
    state = step.state;
    last = step;
    events.push(...step.events);
    const [title] = step.outputs.display;
    if (title !== titles.at(-1)) titles.push(title);
    board.write(step.outputs);
    const button = person ? hands.look(frame.timeS, step.outputs.display, shown) : null;
    if (button !== null) board.press(button);
  });
  for (let t = 0; t < LONGEST_S * 20 && !state.ended; t++) {
    board.tick();
    if (last !== null && options.watch?.(last, board, (request) => requests.push(request))) break;
  }
  if (last === null) throw new Error('no tick');
  const result = guidedResultOf(config, state.procedure);
  return { events, last, result, board, config, titles };
}

function shownBy(procedure: ProcedureName, board: SimulatedBoard, seed: number) {
  if (procedure === 'health') return () => null;
  const { kind, quantity, stated } = REFERENCES[procedure];
  const instrument = createReferenceInstrument(kind, stated, createChance(seed + 1e6, 'reference'));
  return (): number | null => {
    const value = instrument.show(board.view().truth);
    return value === null ? null : QUANTITIES[quantity].fromSI(value);
  };
}

/** Invariants of every frame. */
function check(
  { outputs, snapshot, state }: ControllerStep<Guided>,
  frame: Frame,
  board: SimulatedBoard,
): void {
  const broken = (words: string): never => {
    throw new Error(`at ${snapshot.timeS} s in ${snapshot.step} (${snapshot.batch}): ${words}`);
  };
  checkOutputs({ frame, outputs, snapshot, phase: GUIDED.holdsAs(state.procedure) });
  const { truth } = board.view();
  if (outputs.lampEnabled && !['light-settle', 'light-read'].includes(snapshot.step)) {
    broken('lamp on');
  }
  if (truth.pressurePa < 4_500) broken(`true pressure ${truth.pressurePa} Pa`);
  if (truth.pressurePa > 300_000) broken(`true pressure ${truth.pressurePa} Pa`);
  if (state.timeS === null) broken('no time');
}
