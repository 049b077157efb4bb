/**
 * Alarms of the four buttons on their resistor ladder. The unit runs only while a person can stop
 * it: where the buttons cannot be read, it says so and holds. A wire shorted to ground reads as
 * HOLD, which makes safe by itself; only its staying down is an alarm.
 */
import type { LadderReading } from '../core/frame.ts';
import type { AlarmContext, AlarmRow } from './alarm-row.ts';
import { atOnce, fixed, linkUp, setting, TRUTH, truth } from './alarm-terms.ts';
import { amountOf } from './scales.ts';

const reads =
  (reading: LadderReading) =>
  (context: AlarmContext): number =>
    truth(context.reading.ladder === reading);

export const BUTTON_ROWS: readonly AlarmRow[] = [
  {
    ...TRUTH,
    id: 'buttons-open',
    title: 'Buttons cut off',
    priority: 'medium',
    action: 'hold',
    latching: false,
    delayS: setting(0.3, 0, 2),
    armed: linkUp,
    seen: reads('open'),
    expected: { say: 'one-button' },
    seenText: () => ({ say: 'ladder-open' }),
    remedy: 'No button can be read. Check the plug and cable of the buttons. Then go on.',
  },
  {
    id: 'button-stuck',
    title: 'Button stays down',
    priority: 'medium',
    action: 'hold',
    latching: false,
    quantity: 'time',
    trips: 'above',
    // Common practice, no source: longer than any press.
    limit: setting(10, 3, 60),
    deadband: fixed(0),
    delayS: atOnce,
    armed: linkUp,
    seen: ({ buttonDownForS }) => buttonDownForS,
    seenText: ({ reading: { ladder }, buttonDownForS }) => ({
      say: 'button-down',
      with: { button: nameOf(ladder), time: amountOf(buttonDownForS, 'time') },
    }),
    remedy: 'Let go, free the button, dry the panel. Then go on. If it stays, have it mended.',
  },
  {
    ...TRUTH,
    id: 'button-unclear',
    title: 'Button not clear',
    priority: 'low',
    action: 'warn',
    latching: false,
    // The board has seen it for 20 ms, as it has a press.
    delayS: fixed(0),
    armed: linkUp,
    seen: reads('between'),
    expected: { say: 'one-button' },
    seenText: () => ({ say: 'between-buttons' }),
    remedy:
      'It was taken for no button. Press one alone. If it comes again, have the buttons looked at.',
  },
];

/** As on the unit; one that cannot be named is a question mark. */
const nameOf = (ladder: LadderReading | null): string =>
  ladder === null || ladder === 'between' ? '?' : ladder.toUpperCase();
