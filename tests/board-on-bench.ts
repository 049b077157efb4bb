/** What the board contract needs of a bench: how to open it, let its time pass, and see what acts. */
import type { Board } from '../hal/board.ts';
import type { Fault } from '../sim/faults/faults.ts';
import type { Actuators, Frame } from '../src/core/frame.ts';

export interface BoardOnBench {
  readonly board: Board;
  /** Lets board time pass; frames come meanwhile. */
  readonly advance: (seconds: number) => void | Promise<void>;
  readonly shaft: {
    /** What acts on pump, valves and lamp now, measured behind the board. */
    readonly outputsNow: () => Actuators | Promise<Actuators>;
  };
  /** Lays the shield down over the lamp, or lifts it. */
  readonly closeShield?: (closed: boolean) => void | Promise<void>;
  /** The hand on the emergency stop. */
  readonly emergencyStop: (pressed: boolean) => void | Promise<void>;
}

export interface Wish {
  /** Board time at which nothing more comes from it; null for a sound link. */
  readonly muteFromS: number | null;
  /** What goes wrong on the bench, in board time. */
  readonly faults: readonly Fault[];
}

export type OpenBoard = (wish: Wish) => BoardOnBench | Promise<BoardOnBench>;

export const actuatorsOf = ({
  pumpRatio,
  selector,
  ventOpen,
  lampEnabled,
  lampRatio,
}: Actuators) => ({
  pumpRatio,
  selector,
  ventOpen,
  lampEnabled,
  lampRatio,
});

/** A board of its own for one test, with the frames that came from it. */
export type OnBench = (wish?: Partial<Wish>) => Promise<{
  board: Board;
  advance: (seconds: number) => void | Promise<void>;
  frames: Frame[];
  acting: () => Promise<Actuators>;
  emergencyStop: (pressed: boolean) => void | Promise<void>;
  closeShield: (closed: boolean) => void | Promise<void>;
  completed: () => boolean;
}>;
