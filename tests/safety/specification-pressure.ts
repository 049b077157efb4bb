/** Switches, pressure and vacuum on glass that is already broken. */
import {
  abortHigh,
  above,
  below,
  holdHigh,
  holdMedium,
  isSo,
  type SafetyRow,
  warnLow,
} from './safety-row.ts';

export const PRESSURE_SPECIFICATION: readonly SafetyRow[] = [
  {
    id: 'emergency-stop',
    harm: 'Somebody saw a danger that the unit cannot see. What it was must be seen to first.',
    ...abortHigh,
    ...isSo(0),
  },
  {
    id: 'over-pressure-switch',
    harm: 'The last line before glass bursts, and by then the pressure reading has failed.',
    ...abortHigh,
    ...isSo(0),
  },
  {
    id: 'shield-open',
    harm: 'UV light reaches an eye. The shield itself ends the danger: it need not latch.',
    ...holdHigh,
    ...isSo(0),
  },
  {
    id: 'shield-not-shown',
    harm: 'A stuck contact reads closed for ever: UV light reaches an eye through an open shield.',
    ...holdHigh,
    ...isSo(0),
  },
  {
    id: 'over-pressure',
    harm: 'Pressure drives the legs on or lifts the bridge off. 190 kPa is where the switch opens.',
    ...abortHigh,
    ...above(180, 'kPa gauge', 0, 5),
  },
  {
    id: 'vacuum-too-deep',
    harm: 'Resin boils in the break. Venting ends it, so a person may go on once.',
    ...holdMedium,
    ...below(5, 'kPa abs', 0.2, 3),
  },
  {
    id: 'vacuum-under-reach',
    harm: 'The pump runs against a leak: air stays in the break. No wait without an end.',
    ...holdMedium,
    ...above(300, 's', 0),
  },
  {
    id: 'pressure-under-reach',
    harm: 'Resin is pressed out at the rim and not into the break. No wait without an end.',
    ...holdMedium,
    ...above(300, 's', 0),
  },
  {
    id: 'not-vented',
    harm: 'The zero has drifted, so that every pressure of the job is wrong by as much.',
    ...holdMedium,
    ...above(330, 's', 0),
  },
  {
    id: 'set-point-lost',
    harm: 'Air flows back into the break, or resin is not pressed: the dwell is worth nothing.',
    ...holdMedium,
    ...above(5, 'kPa', 0.1),
  },
  {
    id: 'set-point-passed',
    harm: 'The pump does not stop: the next thing to stop it is the limit on the glass.',
    ...holdHigh,
    ...above(8, 'kPa', 0.3),
  },
  {
    id: 'leak',
    harm: 'Nobody: the seal is set again before anything depends on it.',
    ...warnLow,
    ...above(0.05, 'Pa m3/s', 0),
  },
  {
    id: 'leak-in-dwell',
    harm: 'Air is drawn through the break, or pressed out past the ring: the dwell does not fill.',
    ...holdMedium,
    ...above(0.01, 'Pa m3/s', 0),
  },
  {
    id: 'pump-no-effect',
    harm: 'Hose off, a leak or a sensor that does not follow: a pump that works unseen loads glass.',
    ...holdMedium,
    ...above(6, 'kPa', 0.2),
  },
  {
    id: 'vent-no-effect',
    harm: 'Pressure stands on the glass although every output is safe: only hands can end it.',
    ...abortHigh,
    ...above(8, 'kPa', 0.2, 2),
  },
];
