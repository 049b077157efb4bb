/**
 * A host as a process of its own, to be killed: opens the board and keeps it driving pump or lamp
 * from its second frame on. It says `driving` once and ends only by being ended.
 */
import { REAL_TIME } from '../../hal/firmata/clock.ts';
import { openFirmataBoard } from '../../hal/firmata/firmata-board.ts';
import { openSerialLine } from '../../hal/firmata/serial-line.ts';
import { type Outputs, SAFE } from '../../src/core/frame.ts';

const [link = '', what = 'pump', tickS = '0.05'] = process.argv.slice(2);
const AT_REST: Outputs = {
  ...SAFE,
  clearTrips: true,
  buzzer: 'off',
  status: { colour: 'off', flashing: false },
  display: ['driving', what, '', ''],
};
const DRIVING: Outputs = {
  ...AT_REST,
  clearTrips: false,
  ...(what === 'pump'
    ? { pumpRatio: 0.4, ventOpen: false }
    : { lampEnabled: true, lampRatio: 0.4 }),
};
const opened = await openFirmataBoard({
  openLine: () => openSerialLine(link),
  portName: link,
  scheduler: REAL_TIME,
  tickS: Number(tickS),
  limits: {
    pressureCeiling: 700,
    heatSinkFloor: 130,
    longestLampOnS: 900,
    leaseMs: 500,
    glassFloor: 200,
  },
});
if (!opened.ok) throw new Error(`${opened.problem.words} ${opened.problem.advice}`);
const { board } = opened;
let frames = 0;
board.frames$.subscribe(({ trips }) => {
  frames++;
  board.write(frames < 2 || trips.length > 0 ? AT_REST : DRIVING);
  if (frames === 6) process.stdout.write('driving\n');
});
