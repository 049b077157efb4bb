/**
 * The kinds of fault, as a table: where each acts, what its amount means, its range and its usual
 * value (all demo). `fault-effects.ts` defines the effect; the fault itself, in `faults.ts`, says
 * when it begins and ends.
 */

/**
 * Where a fault acts. A switch is a sensor and a cut-off at once; a seat is where a sensor sits, or
 * what feeds it.
 */
export type FaultPlace =
  | 'plant'
  | 'actuator'
  | 'sensor'
  | 'seat'
  | 'switch'
  | 'person'
  | 'link'
  | 'board';

export interface FaultAmount {
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  readonly usual: number;
}

export interface FaultRow {
  readonly actsOn: FaultPlace;
  /** Null where there is nothing to set. */
  readonly amount: FaultAmount | null;
}

const row = (actsOn: FaultPlace, amount: FaultAmount | null = null): FaultRow => ({
  actsOn,
  amount,
});
const amount = (min: number, max: number, unit: string, usual: number): FaultAmount => ({
  min,
  max,
  unit,
  usual,
});

export const FAULT_TABLE = {
  'seal-leak': row('plant'),
  'hose-off': row('plant'),
  'wet-break': row('plant'),
  outgassing: row('plant'),
  'pump-worn': row('plant', amount(0, 1, 'of its flow', 0.3)),
  'lamp-aged': row('plant', amount(0, 1, 'of its first output', 0.5)),
  'heat-sink-hot': row('plant', amount(0, 200, 'W', 20)),
  'glass-hot': row('plant', amount(0, 50, 'W', 5)),
  'air-gun': row('plant', amount(300, 600, 'K', 333.15)),
  sun: row('plant', amount(0, 1200, 'W/m2', 800)),
  'hot-pane': row('plant', amount(300, 353.15, 'K', 325)),
  daylight: row('plant', amount(0, 60, 'W/m2', 20)),
  'cold-pane': row('plant', amount(253.15, 295, 'K', 276.15)),
  'supply-low': row('plant', amount(0, 20, 'V', 9.8)),
  /** For a third of a second, every five. */
  'supply-dips': row('plant', amount(0, 12, 'V', 7)),
  'vent-slow': row('plant', amount(0, 1, 'of its flow', 0.02)),
  /** Fully blocked at 0, as by resin: the transmitter then reads the manifold alone. */
  'hose-kinked': row('plant', amount(0, 1, 'of its flow', 0.002)),
  'hose-splits': row('plant', amount(0, 0.1, 'dm3/(s bar) more each minute', 0.001)),
  'selector-leaks': row('plant', amount(0, 0.1, 'dm3/(s bar)', 0.002)),
  'relief-stuck-shut': row('plant'),
  'relief-opens-early': row('plant', amount(10_000, 200_000, 'Pa gauge', 120_000)),
  'injector-lifted': row('plant'),
  /** Not turned home. */
  'clamp-loose': row('plant', amount(1, 500, 'N', 30)),
  /** One drop where three to five are usual. */
  'short-charge': row('plant', amount(0.3, 500, 'µL', 3)),
  /** The sensor sees the lamp's light, and the break this share of it. */
  'lamp-beside': row('plant', amount(0, 1, 'of its light', 0.3)),
  /** From power-up, whenever it begins: resin is there once it is charged. */
  'wrong-bottle': row('plant', amount(0.1, 20, 'times the dose that it needs', 3)),
  'pump-dead': row('actuator'),
  'pump-stuck-on': row('actuator'),
  'pump-stuck-at': row('actuator', amount(0, 1, 'of full drive', 0.3)),
  /** Its two ports exchanged. */
  'pump-reversed': row('actuator'),
  'vent-stuck-closed': row('actuator'),
  'vent-stuck-open': row('actuator'),
  'vent-drive-shorted': row('actuator'),
  'selector-stuck-vacuum': row('actuator'),
  'selector-stuck-pressure': row('actuator'),
  'lamp-dead': row('actuator'),
  'lamp-stuck-on': row('actuator'),
  /** At full whatever share is asked for, and dark when none is. */
  'lamp-undimmed': row('actuator'),
  /** Dark in the second half of each period. */
  'lamp-flickers': row('actuator', amount(0.1, 60, 's a period', 0.4)),
  'sensor-stuck': row('sensor'),
  'sensor-open': row('sensor'),
  'sensor-short': row('sensor'),
  /** Frozen, but with the last digit still flickering. */
  'sensor-dither': row('sensor'),
  'sensor-gain': row('sensor', amount(0.1, 5, 'times', 2)),
  'sensor-offset': row('sensor', amount(-1023, 1023, 'counts', 0)),
  'sensor-drift': row('sensor', amount(-600, 600, 'counts more each minute', 10)),
  'sensor-slow': row('sensor', amount(0.05, 600, 's time constant', 5)),
  'sensor-noise': row('sensor', amount(0, 300, 'counts standard deviation', 20)),
  'sensor-saturates': row('sensor', amount(0, 1023, 'counts', 350)),
  'glass-thermistor-off': row('seat', amount(0, 1, 'of its contact left', 0)),
  'sink-thermistor-off': row('seat', amount(0, 1, 'of its contact left', 0)),
  'thermistors-exchanged': row('seat'),
  'stray-light': row('seat', amount(0, 200, 'W/m2', 20)),
  'reference-drifts': row('seat', amount(3, 5.5, 'V', 4.5)),
  'over-pressure-switch': row('switch'),
  'emergency-stop': row('switch'),
  'shield-opened': row('switch'),
  'over-pressure-shorted': row('switch'),
  /** The thermal cut-out of the lamp does not open. */
  'cut-out-shorted': row('switch'),
  /** Of the two contacts of shield and stop: the one that is read, and the one that cuts off. */
  'shield-read-shorted': row('switch'),
  'shield-cut-shorted': row('switch'),
  'stop-read-shorted': row('switch'),
  'stop-cut-shorted': row('switch'),
  /** A button that stays down. */
  'yes-stuck': row('switch'),
  'no-stuck': row('switch'),
  'hold-stuck': row('switch'),
  /** The wire of the buttons: shorted to ground, cut, or with moisture from it to ground. */
  'ladder-shorted': row('switch'),
  'ladder-open': row('switch'),
  'ladder-wet': row('switch', amount(1_000, 10_000_000, 'ohm', 100_000)),
  /** The resistor of NO: drifted, or one of YES in its place. */
  'no-drifts': row('switch', amount(0.1, 10, 'of its resistance', 1.25)),
  'no-reads-yes': row('switch'),
  /** YES to a step whose work is not done. */
  'hands-idle': row('person'),
  /** Clear, hard and without bubbles, whatever there is to see. */
  'says-all-well': row('person'),
  'film-left-off': row('person'),
  /** The film that a step takes off stays on. */
  'film-left-on': row('person'),
  /** YES so soon after a step is shown, before its work; work and answer follow as usual. */
  'yes-early': row('person', amount(0.05, 10, 's after the step is shown', 0.4)),
  /** Every press comes twice, the second one without a look at the display. */
  'double-press': row('person', amount(0.05, 10, 's apart', 0.25)),
  /** Nobody is at the unit: nothing is done, looked at or pressed. */
  'walks-off': row('person'),
  'link-mute': row('link'),
  'link-late': row('link', amount(0.01, 60, 's', 0.4)),
  'link-spoilt': row('link'),
  'link-gap': row('link'),
  /** Every second frame is the one before again. */
  'frames-repeated': row('link'),
  /** Every two change places. */
  'frames-reordered': row('link'),
  'host-clock': row('link', amount(0.5, 2, 'times true time', 1.05)),
  'host-clock-jump': row('link', amount(-3600, 3600, 's', 60)),
  'board-restart': row('board'),
  'board-reset-loop': row('board', amount(0.2, 60, 's apart', 1)),
  /** Frames go on with the counts of the moment at which it stopped. */
  'converter-stall': row('board'),
  'board-clock': row('board', amount(0.5, 2, 'times true time', 1.34)),
  'board-stall': row('board'),
} as const satisfies Readonly<Record<string, FaultRow>>;

export type FaultKind = keyof typeof FAULT_TABLE;
export const FAULT_KINDS = Object.keys(FAULT_TABLE) as [FaultKind, ...FaultKind[]];

export const faultRow = (kind: FaultKind): FaultRow => FAULT_TABLE[kind];

/** The stated amount, or the usual one; 0 for kinds that have none. */
export function amountOf({
  kind,
  amount: stated,
}: {
  kind: FaultKind;
  amount?: number | undefined;
}) {
  return stated ?? faultRow(kind).amount?.usual ?? 0;
}
