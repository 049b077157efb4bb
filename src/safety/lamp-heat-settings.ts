/**
 * How warm the lamp makes its own heat sink and the glass under it: figures of the unit and of a
 * pane, with the range in which a sound one lies. `watch/sink-watch.ts` and `watch/glass-watch.ts`
 * hold the two thermistors against them.
 */
import { z } from 'zod';
import { quantity } from '../core/settings.ts';

/**
 * Derivation of the defaults:
 * - 12 W and its heat sink, 60 J/K (some 70 g of aluminium at 0.9 J/(g K)) and 2.5 K/W: demo, the
 *   lamp of wiring/parts.md. A diode turns part of its power into light; 60 % heat at least is from
 *   memory.
 * - 25 % either way on capacity and loss, and more on the power: demo. It covers a breath of air, a
 *   lamp on its side, and a driver off its current.
 * - Glass: two plies of 2.1 and 1.6 mm and 0.76 mm of interlayer hold 8.2 kJ/(m2 K); densities and
 *   heat capacities of EN 572-1 as quoted by secondary pages, PVB from memory. Two faces in still air
 *   lose 17 W/(m2 K) (EN 673, from memory), and a spot of 30 mm radius as much again and more
 *   sideways: 47 W/(m2 K). 70 % of the lamp's light stays in the pane (demo), 30 % at least.
 */
export const lampHeatSchema = z
  .strictObject({
    electricW: quantity(0.5, 200, 'W').default(12),
    /** Share of its power that warms the heat sink at least; all of it at most. */
    heatLeastPercent: quantity(20, 100, '%').default(60),
    sinkJPerK: quantity(10, 5000, 'J/K').default(60),
    sinkWPerK: quantity(0.02, 5, 'W/K').default(0.4),
    /** How far capacity and loss of a sound lamp may be off, either way, and its power at most. */
    sinkWithinPercent: quantity(5, 60, '%').default(25),
    /** Share of the lamp's light that stays in the pane as heat. */
    glassAbsorbsPercent: quantity(10, 100, '%').default(70),
    glassAbsorbsLeastPercent: quantity(5, 100, '%').default(30),
    glassJPerM2K: quantity(3000, 30_000, 'J/(m2 K)').default(8200),
    glassWPerM2K: quantity(10, 200, 'W/(m2 K)').default(47),
    glassWithinPercent: quantity(5, 60, '%').default(30),
    /** What the air of the job sheet may be off, or change by during a job. */
    airWithinK: quantity(1, 20, 'K').default(3),
  })
  .prefault({})
  .transform(
    ({
      heatLeastPercent,
      sinkWithinPercent,
      glassAbsorbsPercent,
      glassAbsorbsLeastPercent,
      glassWithinPercent,
      ...rest
    }) => ({
      ...rest,
      heatLeastRatio: heatLeastPercent / 100,
      sinkWithinRatio: sinkWithinPercent / 100,
      glassAbsorbsRatio: glassAbsorbsPercent / 100,
      glassAbsorbsLeastRatio: glassAbsorbsLeastPercent / 100,
      glassWithinRatio: glassWithinPercent / 100,
    }),
  );
export type LampHeat = z.infer<typeof lampHeatSchema>;
