/**
 * A host as a process of its own whose pump follows the pressure: on over a border, off under it,
 * decided on the very frame that shows it. The controller's step runs on every frame, so that its
 * time counts.
 */
import { REAL_TIME } from '../../hal/firmata/clock.ts';
import { openFirmataBoard } from '../../hal/firmata/firmata-board.ts';
import { openSerialLine } from '../../hal/firmata/serial-line.ts';
import { boardLimitsOf } from '../../src/control/board-limits.ts';
import { stepController } from '../../src/control/controller.ts';
import { SAFE } from '../../src/core/frame.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { DEFAULT_CONFIG } from '../configs.ts';

const [link = '', tickS = '0.02', borderCounts = '300'] = process.argv.slice(2);
const opened = await openFirmataBoard({
  openLine: () => openSerialLine(link),
  portName: link,
  scheduler: REAL_TIME,
  tickS: Number(tickS),
  limits: boardLimitsOf(DEFAULT_CONFIG.unit),
});
if (!opened.ok) throw new Error(`${opened.problem.words} ${opened.problem.advice}`);
const { board } = opened;
let state = REPAIR.start(DEFAULT_CONFIG);
board.frames$.subscribe((frame) => {
  const step = stepController(REPAIR, DEFAULT_CONFIG, state, frame, []);
  state = step.state;
  const over = (frame.counts.pressure ?? 0) > Number(borderCounts);
  board.write({
    ...SAFE,
    pumpRatio: over ? 0.4 : 0,
    clearTrips: !over,
    buzzer: 'off',
    status: { colour: 'off', flashing: false },
    display: step.outputs.display,
  });
});
