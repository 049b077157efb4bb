/**
 * One bit of RAM flipped while pump and lamp act and the host goes on asking, and once more while a
 * trip is in force and the host goes silent. Whatever the bit was: nothing acts beyond its lease, no
 * trip vanishes, and no actuator goes on by itself.
 */
import { OUTPUT_FLAGS } from '../../../../hal/firmata/protocol.ts';
import {
  type Bench,
  BUSY,
  createBench,
  intervalMessage,
  PINS_BUSY,
  SAFE_OUTPUTS,
} from '../bench.ts';
import { isOff, TOLERATED_S } from './harm.ts';

const RAM_FIRST = 0x100;
const RAM_END = 0x900;
export const RAM_BYTES = RAM_END - RAM_FIRST;

const flip = ({ chip }: Bench, offset: number, bit: number) => {
  const address = RAM_FIRST + offset;
  chip.poke(address, chip.peek(address) ^ (1 << bit));
};

const LAMP_OFF = { ...BUSY, flags: OUTPUT_FLAGS.selectorPressure, lamp: 0 };

/** What went wrong, or null. */
export function harmOf(offset: number, bit: number): string | null {
  const bench = createBench();
  bench.setSwitch('shieldSwitch', true);
  bench.want(BUSY);
  bench.chip.run(0.005);
  if (bench.pins().lampEnabled) return 'the lamp burns with the shield open';
  bench.setSwitch('shieldSwitch', false);
  bench.want(LAMP_OFF);
  if (bench.pins().pump !== PINS_BUSY.pump) return 'the pump does not run';
  flip(bench, offset, bit);
  // The trip of the shield is in force: no lamp, whatever is asked for.
  for (let i = 0; i < 6; i++) {
    bench.want(BUSY);
    if (bench.pins().lampEnabled) return 'the trip has vanished';
    bench.chip.run(0.01);
    if (bench.pins().lampEnabled) return 'the trip has vanished later';
  }
  // Silence: the lease ends.
  bench.chip.run(TOLERATED_S + 0.01);
  if (!isOff(bench)) return 'acts beyond its lease';
  bench.send(intervalMessage(10), 0.08);
  bench.want(SAFE_OUTPUTS);
  return isOff(bench) ? null : 'acts though the safe state is asked for';
}
