/**
 * The bench of a guided procedure: a real board with its person, or the simulated one with reference
 * instruments on it and, unless somebody sits at the keyboard, a scripted person who reads them.
 */

import type { Board } from '../../hal/board.ts';
import { createCalibratingPerson } from '../../sim/calibrating-person.ts';
import { createChance } from '../../sim/random.ts';
import { createReferenceInstrument } from '../../sim/reference-instruments.ts';
import { createSimulatedBoard } from '../../sim/simulated-board.ts';
import type { JobConfig } from '../controller-state.ts';
import type { Button, DisplayLines, Request } from '../frame.ts';
import { QUANTITIES } from '../guided/quantities.ts';
import type { GuidedConfig } from '../guided-state.ts';
import { problemLine } from '../settings.ts';
import { type GuidedOptions, QUANTITY_OF } from './guided-options.ts';
import type { KeyAction } from './keys.ts';
import { createPacer, type Pacer } from './pace.ts';
import { SIMULATED_START } from './simulated-bench.ts';
import { scenarioOf } from './simulated-scenario.ts';

export interface GuidedBench {
  readonly board: Board;
  readonly title: string;
  readonly keyboard: NodeJS.ReadStream | null;
  readonly startedAt: string;
  readonly seed: number | null;
  readonly run: () => Pacer;
  readonly act: (key: KeyAction, request: (request: Request) => void) => void;
  /** What the reference shows, in the unit of the display; null where it shows nothing. */
  readonly reference: (() => number | null) | null;
  /** Whoever looks at the display once a tick; null where a person of flesh does. */
  readonly look: ((timeS: number, display: DisplayLines) => void) | null;
}

export type OpenedGuidedBench =
  | { readonly ok: true; readonly bench: GuidedBench }
  | { readonly ok: false; readonly lines: readonly string[] };

export async function openGuidedBench(
  options: GuidedOptions,
  job: JobConfig,
  guided: GuidedConfig,
): Promise<OpenedGuidedBench> {
  return options.port === undefined
    ? simulated(options, job, guided)
    : await real(options.port, job);
}

const DEMO_SPEED = 16;
const KIND_OF = { pressure: 'gauge', uv: 'radiometer', temperature: 'thermometer' } as const;
/** The reference's errors are drawn apart from the baths, which share their purpose. */
const REFERENCE_SEED_STEP = 1_000_003;

function simulated(
  options: GuidedOptions,
  job: JobConfig,
  guided: GuidedConfig,
): OpenedGuidedBench {
  const { manual, seed } = options;
  // The scripted technician knows repairs; whoever calibrates is another.
  const checked = scenarioOf({ ...options, manual: true }, job);
  if (!checked.ok) return { ok: false, lines: checked.problems.map(problemLine) };
  const board = createSimulatedBoard(checked.value);
  const speed = options.speed ?? (manual ? 1 : DEMO_SPEED);
  const reference = referenceOn(() => board.view().truth, guided, seed);
  const person = manual ? null : createCalibratingPerson(createChance(seed, 'technician'));
  const who = manual ? 'you press the buttons' : 'scripted person';
  const pace = speed === 'max' ? 'as fast as it can' : `${speed} x real time`;
  return {
    ok: true,
    bench: {
      board,
      title: `Meniscus on the simulated board (demo), ${who}, seed ${seed}, ${pace}`,
      keyboard: manual ? process.stdin : null,
      startedAt: SIMULATED_START,
      seed,
      run: () => createPacer(board.tick, board.identity.tickS, speed),
      act: (key, request) => {
        if (key.kind === 'hold') request({ kind: 'hold' });
        if (key.kind === 'button') board.press(key.button);
        if (key.kind === 'emergency-stop') board.toggleEmergencyStop();
        if (key.kind === 'shield') board.toggleShield();
      },
      reference,
      look:
        person === null
          ? null
          : (timeS, display) => {
              const button: Button | null = person.look(timeS, display, reference ?? noReference);
              if (button !== null) board.press(button);
            },
    },
  };
}

const noReference = (): null => null;

type Truth = Parameters<ReturnType<typeof createReferenceInstrument>['show']>[0];

function referenceOn(
  truth: () => Truth,
  { procedure, reference }: GuidedConfig,
  seed: number,
): (() => number | null) | null {
  if (procedure === 'health' || reference === null) return null;
  const chance = createChance(seed + REFERENCE_SEED_STEP, 'reference');
  const instrument = createReferenceInstrument(KIND_OF[procedure], reference, chance);
  const { fromSI } = QUANTITIES[QUANTITY_OF[procedure]];
  return () => {
    const value = instrument.show(truth());
    return value === null ? null : fromSI(value);
  };
}

async function real(port: string, job: JobConfig): Promise<OpenedGuidedBench> {
  const { realBench } = await import('./real-bench.ts');
  const opened = await realBench(port, job);
  if (!opened.ok) return opened;
  const { board, title, keyboard, startedAt, seed, run, act } = opened.bench;
  const bench = { board, title, keyboard, startedAt, seed, run, act, reference: null, look: null };
  return { ok: true, bench };
}
