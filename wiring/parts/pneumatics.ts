/**
 * The air side as data: parts with ports, and the lines that join them, as `circuit.ts` does for
 * wires. Parts on both sides keep their name. Ports open to the air are not listed. The relief
 * valve sits on the pump's outlet, the only source of pressure; it never sees vacuum there, and the
 * selector cannot separate it from the pump.
 */
import { PARTS } from './circuit.ts';
import type { PartTypeName } from './part-types.ts';

export const AIR_PARTS = {
  M1: PARTS.M1,
  Y1: PARTS.Y1,
  Y2: PARTS.Y2,
  U3: PARTS.U3,
  S2: PARTS.S2,
  RV1: 'reliefValve',
  MB1: 'manifold',
  Z1: 'trap',
  Z2: 'airFilter',
  Z3: 'airFilter',
  J1: 'injector',
} as const satisfies Readonly<Record<string, PartTypeName>>;

export const AIR_NETS: Readonly<Record<string, readonly string[]>> = {
  INLET: ['M1.inlet', 'Y2.inlet'],
  OUTLET: ['M1.outlet', 'RV1.in', 'Y2.outlet'],
  AMBIENT: ['Y2.ambient', 'Z2.in'],
  CHAMBER: ['Y2.chamber', 'MB1.selector'],
  VENT: ['MB1.vent', 'Y1.chamber'],
  VENT_OUT: ['Y1.out', 'Z3.in'],
  GAUGE: ['MB1.transmitter', 'U3.port'],
  GUARD: ['MB1.switch', 'S2.port'],
  TRAP: ['MB1.trap', 'Z1.in'],
  HOSE: ['Z1.out', 'J1.hose'],
};

/**
 * Gauge pressures, kPa; demo. The protections against runaway pressure, in the order in which they
 * act.
 */
export const PRESSURE_LADDER_KPA = {
  highestWorking: 180,
  switchOpens: 200,
  reliefOpens: 215,
  pumpDeadHead: 230,
} as const;
