/**
 * The lamp, last of all and only for seconds: its cut-out must open when hot, the contacts that cut
 * its supply must open, it must stay dark while the shield is open, although it is requested, and
 * then light at a tenth of its drive behind a closed shield. Limits are demo values: the demo lamp
 * gives 20 W/m2 at a tenth.
 */
import type { Outputs } from '../../src/core/frame.ts';
import {
  acting,
  between,
  byAnswer,
  elapsedS,
  from,
  QUIET,
  type Sample,
  type Step,
  type Verdict,
  values,
} from './step.ts';

const ASK = acting({ lampEnabled: true, lampRatio: 0.1 });
/** Time for reading the daylight on the sensor before the lamp is requested. */
const LOOK_S = 0.5;
const OPEN_ASK_S = 1;
const CLOSED_ASK_S = 2;
const LIT_WPER_M2 = 5;
/** Half of the demo lamp's full light: a driver with an inverted dimming input gives more. */
const TOO_BRIGHT_WPER_M2 = 100;
const DARK_WPER_M2 = 2;
/** Time for sensor and lamp to settle. */
const SETTLE_S = 0.5;
const WAIT_S = 60;

const shieldOpen = ({ frame }: Sample): boolean => !frame.switches.shieldClosed;
const ready = ({ frame }: Sample): boolean =>
  frame.switches.shieldClosed && frame.trips.length === 0;

const CAUTION =
  'UV light harms eyes and skin, and most of it is invisible. Put on UV glasses and gloves, and keep face and hands away from under the lamp.';

/** Requests the lamp for `askS`, from LOOK_S after `holds` first became true. */
const asking =
  (holds: (sample: Sample) => boolean, askS: number) =>
  (samples: readonly Sample[]): Outputs => {
    const since = from(samples, holds);
    const atS = elapsedS(since);
    return since.length > 0 && atS >= LOOK_S && atS < LOOK_S + askS ? ASK : QUIET;
  };

const brightest = (samples: readonly Sample[]): number =>
  Math.max(Number.NEGATIVE_INFINITY, ...values(samples, 'irradianceWPerM2'));

function darkVerdict(samples: readonly Sample[]): Verdict {
  const since = from(samples, shieldOpen);
  const before = brightest(between(since, -1, LOOK_S));
  const asked = between(since, LOOK_S, LOOK_S + OPEN_ASK_S + SETTLE_S);
  if (brightest(asked) > before + LIT_WPER_M2) return 'failed';
  if (elapsedS(since) < LOOK_S + OPEN_ASK_S + SETTLE_S) return 'waiting';
  if (since.some((sample) => !shieldOpen(sample))) return 'failed';
  const believed = values(asked, 'irradianceWPerM2').length === asked.length;
  const tripped = asked.some(({ frame }) => frame.trips.includes('shield'));
  return believed && tripped ? 'passed' : 'failed';
}

const staysDark: Step = {
  id: 'lamp-stays-dark',
  title: 'Lamp stays dark, shield open',
  caution: CAUTION,
  todo: 'Open the shield, turn the lamp towards the bench with the UV sensor under it, and step back.',
  meanwhile: `Requests the lamp at 10 % for ${OPEN_ASK_S} s once the shield is open.`,
  outputs: asking(shieldOpen, OPEN_ASK_S),
  expected: 'no light, and a shield trip.',
  question: null,
  verdict: ({ samples }) => darkVerdict(samples),
  ownTrips: ['shield'],
  timeoutS: WAIT_S,
  onFailure:
    'It lit: press the emergency stop and do not use the unit; the shield contact is bridged. No trip: wrong firmware.',
};

function litVerdict(samples: readonly Sample[]): Verdict {
  const since = from(samples, ready);
  if (since.some(shieldOpen)) return 'failed';
  if (elapsedS(since) < LOOK_S + CLOSED_ASK_S + SETTLE_S) return 'waiting';
  const before = brightest(between(since, -1, LOOK_S));
  const lit = brightest(between(since, LOOK_S, LOOK_S + CLOSED_ASK_S));
  const after = values(since, 'irradianceWPerM2').at(-1) ?? Number.POSITIVE_INFINITY;
  const asTenth = lit >= before + LIT_WPER_M2 && lit <= before + TOO_BRIGHT_WPER_M2;
  return asTenth && after <= before + DARK_WPER_M2 ? 'passed' : 'failed';
}

const lights: Step = {
  id: 'lamp-lights',
  title: 'Lamp lights, shield closed',
  caution: CAUTION,
  todo: 'Leave the UV sensor under the lamp and close the shield.',
  meanwhile: `Clears the trip, then lights the lamp at 10 % for ${CLOSED_ASK_S} s.`,
  outputs: (samples) => ({
    ...asking(ready, CLOSED_ASK_S)(samples),
    clearTrips: from(samples, ready).length === 0,
  }),
  expected: 'irradiance rises by 0.5 to 10 mW/cm2, then it is dark again.',
  question: null,
  verdict: ({ samples }) => litVerdict(samples),
  ownTrips: ['shield'],
  timeoutS: WAIT_S,
  onFailure:
    'Dark: fuse F4, first contact of the shield switch, Q4, D8. Far brighter: the dimming input of the driver is inverted. Stays lit: Q4 or Q5 failed, pull out the supply.',
};

/** Nobody reads the cut-out, so that only hands can try it. */
const cutOut: Step = {
  id: 'lamp-cut-out',
  title: 'Thermal cut-out opens when hot',
  caution: 'Hot water scalds. Pull the adapter out first, and keep plug and leads dry.',
  todo: 'Unplug S4. Measure across it with a continuity tester, cold; then hold its metal face in water just off the boil, and then let it cool. Plug it in again.',
  meanwhile: 'Does nothing.',
  outputs: () => QUIET,
  expected: 'closed when cold, open in the hot water, closed again when cool.',
  question: 'Was it closed, open and closed again?',
  verdict: byAnswer,
  ownTrips: [],
  timeoutS: 900,
  onFailure:
    'Never open: do not use the lamp, it would burn itself. Open when cold: wrong type, or a wire.',
};

/**
 * With either of the two contacts of shield or stop the unit looks safe to the board. Only hands
 * show that the one that nobody reads opens by itself.
 */
const cuttingContacts: Step = {
  id: 'cutting-contacts',
  title: 'Cutting contacts open',
  caution: 'Pull the adapter out first, and wait until the status lamp is dark.',
  todo: 'Measure across S3a with a continuity tester: close the shield, lift its edge by a finger, close it again. Then across S1a: press the emergency stop and turn it to release it.',
  meanwhile: 'Does nothing.',
  outputs: () => QUIET,
  expected:
    'S3a closed, open from the first gap of the shield on, closed again; S1a closed, open while pressed, closed again.',
  question: 'Did both contacts open and close like that?',
  verdict: byAnswer,
  ownTrips: [],
  timeoutS: 900,
  onFailure:
    'Never open: welded or bridged; do not use the lamp, because the other contact alone would stop it. Open late: move the switch until the shield forces it at once.',
};

export const LAMP_STEPS: readonly Step[] = [cutOut, cuttingContacts, staysDark, lights];
