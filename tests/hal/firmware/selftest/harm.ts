/**
 * What a fault of the board itself must lead to, typed from the hazard: half a second is what the
 * unit stands when its host is gone (the lease). In that time the pump raises the chamber by less
 * than from the highest set-point to the relief valve, and the lamp gives an eye 1/50 of the
 * exposure that ICNIRP allows in a day at 400 W/m2 (10 kJ/m2 of UV-A, from memory). No fault of
 * memory, register or program may keep an actuator on for longer.
 */
import { type Bench, BUSY, PINS_SAFE, type Trip } from '../bench.ts';

/** Fault tolerance time. */
export const TOLERATED_S = 0.5;
/** Two ticks, and the interrupts between them. */
export const TWO_TICKS_S = 0.0025;

export const isOff = ({ pins }: Bench): boolean => {
  const { pump, lamp, ventOpen, lampEnabled } = pins();
  return pump === PINS_SAFE.pump && lamp === PINS_SAFE.lamp && ventOpen && !lampEnabled;
};

/** Keeps the lease running, as a host does that notices nothing; returns the time until all is off. */
export function timeUntilOff(bench: Bench, atMostS: number): number {
  const begunS = bench.chip.timeS();
  let renewedS = begunS;
  while (!isOff(bench)) {
    const nowS = bench.chip.timeS();
    if (nowS - begunS > atMostS) return Number.POSITIVE_INFINITY;
    if (nowS - renewedS > 0.05) {
      bench.want(BUSY);
      renewedS = bench.chip.timeS();
    }
    bench.chip.run(0.0001);
  }
  return bench.chip.timeS() - begunS;
}

/** What has tripped, and that no request of a host gets past it. */
export function tripsAndStays(bench: Bench): Trip[] {
  bench.want(BUSY);
  const trips = bench.trips();
  return isOff(bench) ? trips : [];
}
