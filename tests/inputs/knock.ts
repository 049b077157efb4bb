/** Brings many spoilt inputs to a door. An error names the input and the seed that reproduce it. */
import { createChance } from '../../sim/random.ts';
import type { Door } from './doors.ts';

export interface Knocks {
  readonly refused: number;
  readonly accepted: number;
}

export function knockAt({ name, take }: Door, times: number, seed: number): Knocks {
  const chance = createChance(seed, 'noise');
  let accepted = 0;
  for (let n = 0; n < times; n++) {
    try {
      if (take(chance) === 'accepted') accepted += 1;
    } catch (error) {
      throw new Error(`${name}, input ${n} of seed ${seed}: ${String(error)}`, { cause: error });
    }
  }
  if (Object.hasOwn(Object.prototype, 'polluted')) throw new Error(`${name} spoilt all objects`);
  return { refused: times - accepted, accepted };
}
