/**
 * The bench with the real firmware: the chip runs the image, its pins drive the simulated plant,
 * and the plant's sensors, switches and buttons are on its inputs. In each millisecond of board
 * time the chip runs first and the plant follows. The scripted person reads the display that the
 * firmware has drawn. Host and firmware own the protocol on the cable.
 */
import type { Actuators, Button, Channel, DisplayLines } from '../../src/core/frame.ts';
import { DISPLAY_ADDRESS, PINS } from '../../wiring/pin-map.ts';
import { letPersonAct, pressButton } from '../board/person-at-rig.ts';
import {
  actedS,
  createRig,
  letTimePass,
  lookAtFaults,
  type PlantWatch,
  type Rig,
  switchesReadOf,
} from '../board/rig.ts';
import { sampleSensors } from '../board/sampling.ts';
import { type BreakView, viewOf } from '../board/simulated-board.ts';
import { isReset } from '../faults/fault-effects.ts';
import type { Scenario } from '../faults/scenario.ts';
import { timeOfS } from '../plant/plant.ts';
import { type Cable, createCable } from './bench-cable.ts';
import {
  applySwitches,
  applyVolts,
  createFingers,
  ladderVolts,
  setPinVolts,
} from './bench-inputs.ts';
import { DISPLAY_AT_POWER_UP, linesOf, stepDisplay } from './character-display.ts';
import { type Chip, createChip } from './chip.ts';
import type { I2cDevice } from './i2c-bus.ts';

export interface EmulatedBenchOptions {
  readonly image: Uint16Array;
  readonly scenario: Scenario;
  /** Looks at the truth in every step; null where nobody does. */
  readonly watch?: PlantWatch | null;
}

export interface EmulatedBench {
  readonly chip: Chip;
  readonly cable: Omit<Cable, 'step' | 'fromBoard'>;
  /** Receives what arrives at the host's end; returns a function that unsubscribes. */
  readonly onHostBytes: (listener: (bytes: Uint8Array) => void) => () => void;
  readonly timeS: () => number;
  readonly advance: (seconds: number) => void;
  /** The outputs that the pins request. */
  readonly pins: () => Actuators;
  /** What acts on the plant, after the hard-wired cut-offs and faults. */
  readonly acting: () => Actuators;
  readonly display: () => DisplayLines;
  readonly view: () => BreakView;
  readonly press: (button: Button) => void;
  readonly toggleEmergencyStop: () => void;
  readonly toggleShield: () => void;
  /** Holds a sensor at these counts, whatever the plant does; null releases it. */
  readonly holdCounts: (channel: Channel, counts: number | null) => void;
  readonly setDisplayPlugged: (plugged: boolean) => void;
  readonly powerCycle: () => void;
}

const STEP_S = 0.001;
/** How often the person looks, and faults begin or end, ms. */
const LOOK_MS = 50;

export function createEmulatedBench({
  image,
  scenario,
  watch = null,
}: EmulatedBenchOptions): EmulatedBench {
  const rig = createRig(scenario, watch);
  const display = createDisplay();
  const held = new Map<Channel, number>();
  const hosts = new Set<(bytes: Uint8Array) => void>();
  const cable: Cable = createCable({
    toHost: (bytes) => {
      for (const hear of [...hosts]) hear(bytes);
    },
    toBoard: (bytes) => chip.receive(bytes),
  });
  const chip = createChip({ image, onTransmit: cable.fromBoard, i2c: display.bus });
  const press = (button: Button): void => {
    // The press answers the screen that is shown now.
    rig.display = display.lines();
    pressButton(rig, button);
  };
  const step = createStep({ rig, chip, cable, display, held });
  let owedMs = 0;
  return {
    chip,
    cable,
    onHostBytes: (listener) => {
      hosts.add(listener);
      return () => hosts.delete(listener);
    },
    timeS: () => timeOfS(rig.plant),
    advance: (seconds) => {
      owedMs += seconds / STEP_S;
      // A sum of tenths may miss the whole number by a rounding error.
      for (; owedMs > 1 - 1e-6; owedMs -= 1) step();
    },
    pins: () => readPins(chip),
    acting: () => rig.acting,
    display: display.lines,
    view: () => viewOf(rig),
    press,
    toggleEmergencyStop: () => {
      rig.emergencyStop = !rig.emergencyStop;
    },
    toggleShield: () => {
      rig.plant.setup.shieldClosed = !rig.plant.setup.shieldClosed;
    },
    holdCounts: (channel, counts) => {
      if (counts === null) held.delete(channel);
      else held.set(channel, counts);
    },
    setDisplayPlugged: display.setPlugged,
    powerCycle: () => {
      display.powerUp();
      chip.powerCycle();
    },
  };
}

interface Parts {
  readonly rig: Rig;
  readonly chip: Chip;
  readonly cable: Cable;
  readonly display: Pick<EmulatedDisplay, 'lines'>;
  readonly held: ReadonlyMap<Channel, number>;
}

/** One millisecond. */
function createStep({ rig, chip, cable, display, held }: Parts): () => void {
  const fingers = createFingers();
  let restarts = false;
  const look = (): void => {
    rig.display = display.lines();
    lookAtFaults(rig);
    // Once per fault, not per check: the watchdog needs its time to act.
    const asked = isReset(rig.active, actedS(rig), LOOK_MS * STEP_S);
    if (asked && !restarts) chip.hang();
    restarts = asked;
    letPersonAct(rig);
  };
  return () => {
    if (rig.plant.step % LOOK_MS === 0) look();
    for (const button of rig.fingers.splice(0)) fingers.press(button);
    applyVolts(chip, { ...sampleSensors(rig), ...Object.fromEntries(held) });
    applySwitches(chip, switchesReadOf(rig));
    setPinVolts(chip, 'buttons', ladderVolts(fingers.step(), rig.active));
    chip.run(STEP_S);
    letTimePass(rig, 1, () => readPins(chip));
    cable.step(rig.active, timeOfS(rig.plant));
  };
}

function readPins(chip: Chip): Actuators {
  const level = (name: 'selectorPressure' | 'ventClose' | 'lampEnable'): boolean =>
    chip.level(PINS[name].firmataPin);
  return {
    pumpRatio: chip.duty(PINS.pumpDrive.firmataPin),
    selector: level('selectorPressure') ? 'pressure' : 'vacuum',
    ventOpen: !level('ventClose'),
    lampEnabled: level('lampEnable'),
    lampRatio: chip.duty(PINS.lampDrive.firmataPin),
  };
}

interface EmulatedDisplay {
  readonly bus: ReadonlyMap<number, I2cDevice>;
  readonly lines: () => DisplayLines;
  readonly setPlugged: (plugged: boolean) => void;
  readonly powerUp: () => void;
}

function createDisplay(): EmulatedDisplay {
  let state = DISPLAY_AT_POWER_UP;
  const expander: I2cDevice = {
    write: (byte) => {
      state = stepDisplay(state, byte);
    },
  };
  const bus = new Map([[DISPLAY_ADDRESS, expander]]);
  return {
    bus,
    lines: () => linesOf(state),
    setPlugged: (plugged) => {
      if (plugged) bus.set(DISPLAY_ADDRESS, expander);
      else bus.delete(DISPLAY_ADDRESS);
      // The display is powered from the same plug.
      state = DISPLAY_AT_POWER_UP;
    },
    powerUp: () => {
      state = DISPLAY_AT_POWER_UP;
    },
  };
}
