/** Sensors, supply, people, and the board with the line to it. */
import {
  abortHigh,
  above,
  below,
  holdHigh,
  holdHighLatched,
  holdLow,
  holdMedium,
  isSo,
  type SafetyRow,
  warnLow,
} from './safety-row.ts';

const BLIND_S = 0.3;

export const BOARD_SPECIFICATION: readonly SafetyRow[] = [
  {
    id: 'pressure-sensor',
    harm: 'Nobody knows what loads the glass.',
    ...holdMedium,
    ...isSo(BLIND_S),
  },
  {
    id: 'irradiance-sensor',
    harm: 'UV light and a dose that nobody measures.',
    ...holdMedium,
    ...isSo(BLIND_S),
  },
  {
    id: 'glass-sensor',
    harm: 'Nobody knows how hot the pane is.',
    ...holdMedium,
    ...isSo(BLIND_S),
  },
  {
    id: 'heat-sink-sensor',
    harm: 'Nobody knows how hot the lamp is.',
    ...holdMedium,
    ...isSo(BLIND_S),
  },
  {
    id: 'supply-sensor',
    harm: 'Valves may let go and nobody sees it coming.',
    ...holdMedium,
    ...isSo(BLIND_S),
  },
  {
    id: 'supply-low',
    harm: 'Valves let go and the lamp fades in mid-step. A charged battery ends it.',
    ...holdMedium,
    ...below(10.5, 'V', 0.5, 0.5),
  },
  {
    id: 'self-test',
    harm: 'A job would begin on sensors that cannot be believed. No wait without an end.',
    ...holdMedium,
    ...above(10, 's', 0),
  },
  {
    id: 'no-answer',
    harm: 'Vacuum or pressure stands on glass that nobody watches.',
    ...holdLow,
    ...above(1800, 's', 0),
  },
  {
    id: 'buttons-open',
    harm: 'A leg grows, and HOLD does nothing: nobody can let the pressure off by a button.',
    ...holdMedium,
    ...isSo(0.3),
  },
  {
    id: 'button-stuck',
    harm: 'No other press can be read: what a person answers is not heard, and nobody knows.',
    ...holdMedium,
    ...above(10, 's', 0),
  },
  {
    id: 'button-unclear',
    harm: 'A resistor that drifts comes to read as another button. HOLD is read all the same.',
    ...warnLow,
    ...isSo(0),
  },
  {
    id: 'frames-late',
    harm: 'The unit acts on what was four ticks ago. Once it is in time again it may go on.',
    ...holdMedium,
    ...above(0.2, 's', 0, 0.05),
  },
  {
    id: 'frames-rare',
    harm: 'Light and pressure act for longer than is counted: too much of both, and nobody knows.',
    ...holdMedium,
    ...above(5, '% of the time', 0, 1),
  },
  {
    id: 'link-lost',
    harm: 'Nobody knows what the board did meanwhile. It never goes on by itself.',
    ...holdHighLatched,
    ...above(0.5, 's', 0),
  },
  {
    id: 'board-clock',
    harm: 'Dwells and dose are counted in wrong seconds, for the whole job so far.',
    ...holdHighLatched,
    ...above(1, '%', 0),
  },
  {
    id: 'frames-stand-still',
    harm: 'Old frames look like new ones, and no time passes for any deadline.',
    ...holdHighLatched,
    ...above(0.5, 's', 0),
  },
  {
    id: 'message-spoilt',
    harm: 'A command or a reading may have been another one.',
    ...holdMedium,
    ...isSo(0),
  },
  {
    id: 'frames-missing',
    harm: 'What happened in between was not seen.',
    ...holdMedium,
    ...isSo(0),
  },
  {
    id: 'board-tripped',
    harm: 'The board saw a danger and stopped: commands without effect must not count as done.',
    ...holdHigh,
    ...isSo(0),
  },
  {
    id: 'trip-stays',
    harm: 'The same, where no frame showed the cause. Its own alarm is waited for first.',
    ...holdHigh,
    ...isSo(0.6),
  },
  {
    id: 'lost-number',
    harm: 'No limit trips and no dwell is waited for: every comparison with such a number is false.',
    ...abortHigh,
    ...isSo(0),
  },
];
