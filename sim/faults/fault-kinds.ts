/**
 * The kinds of fault, as a table: where each acts, what its amount means, its range and its usual
 * value (all demo). `fault-effects.ts` defines the effect; the fault itself, in `faults.ts`, says
 * when it begins and ends.
 */

/** Where a fault acts; a switch is a sensor and a cut-off at once. */
export type FaultPlace = 'plant' | 'actuator' | 'sensor' | 'switch' | 'link' | 'board';

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
  'pump-dead': row('actuator'),
  'pump-stuck-on': row('actuator'),
  'vent-stuck-closed': row('actuator'),
  'lamp-dead': row('actuator'),
  'lamp-stuck-on': row('actuator'),
  'sensor-stuck': row('sensor'),
  'sensor-open': row('sensor'),
  'sensor-short': row('sensor'),
  /** Frozen, but with the last digit still flickering. */
  'sensor-dither': row('sensor'),
  'sensor-gain': row('sensor', amount(0.1, 5, 'times', 2)),
  'sensor-offset': row('sensor', amount(-1023, 1023, 'counts', 0)),
  'over-pressure-switch': row('switch'),
  'emergency-stop': row('switch'),
  'shield-opened': row('switch'),
  'link-mute': row('link'),
  'link-late': row('link', amount(0.01, 60, 's', 0.4)),
  'link-spoilt': row('link'),
  'link-gap': row('link'),
  'board-restart': row('board'),
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
