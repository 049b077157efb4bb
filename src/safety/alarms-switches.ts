/**
 * Alarms of the switches that a person or a hard-wired part operates: they rank above all others.
 */
import { CURE_PHASES } from '../core/phases.ts';
import type { AlarmContext, AlarmRow } from './alarm-row.ts';
import { fixed, linkUp, TRUTH, truth } from './alarm-terms.ts';

/** After the end of the job the shield no longer matters. */
const inCure = ({ phase, batch }: AlarmContext): boolean =>
  CURE_PHASES.has(phase) && ['running', 'holding', 'held', 'restarting'].includes(batch);

export const SWITCH_ROWS: readonly AlarmRow[] = [
  {
    ...TRUTH,
    id: 'emergency-stop',
    title: 'Emergency stop',
    priority: 'high',
    action: 'abort',
    latching: true,
    delayS: fixed(0),
    // A mute link carries no switch states; it has an alarm of its own.
    armed: (c) => linkUp(c) && c.proving !== 'emergency-stop',
    seen: ({ reading }) => truth(reading.switches.emergencyStopPressed),
    expected: { say: 'button-released' },
    seenText: () => ({ say: 'button-pressed' }),
    remedy: 'All outputs are off. See to what made you stop, then turn the button to release it.',
  },
  {
    ...TRUTH,
    id: 'over-pressure-switch',
    title: 'Over-pressure sw.',
    priority: 'high',
    action: 'abort',
    latching: true,
    delayS: fixed(0),
    // A mute link carries no switch states; it has an alarm of its own.
    armed: (c) => linkUp(c) && c.proving !== 'over-pressure-switch',
    seen: ({ reading }) => truth(reading.switches.overPressureTripped),
    expected: { say: 'switch-closed' },
    seenText: () => ({ say: 'switch-open' }),
    remedy:
      'Vent is open. Look for new legs before anything else. Have the unit checked before use.',
  },
  {
    ...TRUTH,
    id: 'shield-open',
    title: 'Shield open',
    priority: 'high',
    action: 'hold',
    latching: false,
    delayS: fixed(0),
    armed: inCure,
    seen: ({ reading }) => truth(!reading.switches.shieldClosed),
    expected: { say: 'shield-closed' },
    seenText: () => ({ say: 'shield-open' }),
    remedy: 'Lamp is off and the dose is kept. Do not look at the lamp. Close the shield, go on.',
  },
  {
    ...TRUTH,
    id: 'shield-not-shown',
    title: 'Shield not proved',
    priority: 'high',
    action: 'hold',
    latching: false,
    delayS: fixed(0),
    armed: inCure,
    seen: ({ shieldShown }) => truth(!shieldShown),
    expected: { say: 'shield-seen-open' },
    seenText: () => ({ say: 'shield-never-open' }),
    remedy:
      'Open the shield once, then close it and go on. If this stays, its contact is stuck: do not use the lamp.',
  },
];
