/**
 * Steps that only read: supply, each analogue channel at rest and moved by hand, each button. The
 * outputs stay safe, except for the vent, which must be closed for a breath to show. Limits are
 * demo values for the demo unit, wide enough for any bench.
 */
import { BUTTONS, type Button } from '../../src/core/frame.ts';
import { kFromCelsius, paFromKPa, wPerM2FromMWPerCm2 } from '../../src/core/units.ts';
import {
  acting,
  elapsedS,
  passedWhen,
  type Quantity,
  quiet,
  type Sample,
  type Step,
  type Verdict,
  values,
} from './step.ts';

const LOOKING = {
  caution: null,
  meanwhile: 'Nothing: pump off, vent open, lamp off.',
  outputs: quiet,
  question: null,
  ownTrips: [],
} as const;

const REST_S = 2;

interface AtRest {
  readonly id: string;
  readonly title: string;
  readonly quantity: Quantity;
  readonly lowest: number;
  readonly highest: number;
  readonly range: string;
  readonly onFailure: string;
}

const AT_REST: readonly AtRest[] = [
  {
    id: 'supply',
    title: 'Supply voltage',
    quantity: 'supplyV',
    lowest: 10.8,
    highest: 13.2,
    range: '10.8 to 13.2 V (12 V and 10 % either way)',
    onFailure: 'Measure 12 V at the main fuse. No 12 V: supply, main fuse. 12 V there: R25, R26.',
  },
  {
    id: 'pressure-at-rest',
    title: 'Pressure at rest',
    quantity: 'pressurePa',
    lowest: paFromKPa(60),
    highest: paFromKPa(108.5),
    range: '60 to 108.5 kPa absolute, the air of any inhabited place',
    onFailure:
      'No value: plug and wires of the pressure transmitter. A wrong value: its range, its 5 V.',
  },
  {
    id: 'irradiance-at-rest',
    title: 'Irradiance at rest',
    quantity: 'irradianceWPerM2',
    lowest: 0,
    highest: wPerM2FromMWPerCm2(10),
    range: '0 to 10 mW/cm2',
    onFailure: 'No value: plug and wires of the UV sensor. High: sunlight, or a lamp that is on.',
  },
  {
    id: 'glass-at-rest',
    title: 'Glass thermistor at rest',
    quantity: 'glassK',
    lowest: kFromCelsius(0),
    highest: kFromCelsius(45),
    range: '0 to 45 degrees C',
    onFailure:
      'No value: open or shorted cable. A wrong value: R23, or a thermistor of another type.',
  },
  {
    id: 'heat-sink-at-rest',
    title: 'Heat sink thermistor at rest',
    quantity: 'heatSinkK',
    lowest: kFromCelsius(0),
    highest: kFromCelsius(50),
    range: '0 to 50 degrees C',
    onFailure:
      'No value: open or shorted cable. A wrong value: R24, or a thermistor of another type.',
  },
];

/** Every sample for a while is valid and inside the range. */
function restedInside(samples: readonly Sample[], { quantity, lowest, highest }: AtRest): boolean {
  const seen = values(samples, quantity);
  const inside = seen.every((value) => value >= lowest && value <= highest);
  return seen.length === samples.length && inside && elapsedS(samples) >= REST_S;
}

const restStep = (row: AtRest): Step => ({
  ...LOOKING,
  id: row.id,
  title: row.title,
  todo: 'Touch nothing.',
  expected: `${row.range}, for ${REST_S} s.`,
  verdict: ({ samples }) => passedWhen(restedInside(samples, row)),
  timeoutS: 5,
  onFailure: row.onFailure,
});

/** Rises above its lowest value by `rise`, and, where asked, returns to within `back` of it. */
export function rose(
  samples: readonly Sample[],
  quantity: Quantity,
  rise: number,
  back: number | null,
): boolean {
  let lowest = Number.POSITIVE_INFINITY;
  let risen = false;
  for (const value of values(samples, quantity)) {
    if (!risen) lowest = Math.min(lowest, value);
    risen ||= value >= lowest + rise;
    if (risen && (back === null || value <= lowest + back)) return true;
  }
  return false;
}

const BREATH = { risePa: 1500, backPa: 1000 } as const;
const TOUCH_RISE_K = 1;
const LIGHT = { riseWPerM2: 3, backWPerM2: 1.5 } as const;

const blow: Step = {
  ...LOOKING,
  id: 'pressure-moves',
  title: 'Pressure follows a breath',
  caution: 'Use a clean hose end with no resin in it. Blow; never draw in.',
  todo: 'Take the hose off the injector, blow gently into its end, then take it from your mouth.',
  meanwhile: 'The vent is closed, the pump stays off.',
  outputs: () => acting({ ventOpen: false }),
  expected: 'a rise of 1.5 kPa or more, then back to within 1 kPa.',
  verdict: ({ samples }) => passedWhen(rose(samples, 'pressurePa', BREATH.risePa, BREATH.backPa)),
  timeoutS: 30,
  onFailure: 'Hose and trap blocked? Vent not closing? Is the transmitter on the manifold?',
};

const warm = (id: string, title: string, quantity: Quantity, what: string): Step => ({
  ...LOOKING,
  id,
  title,
  todo: `Hold the ${what} between two fingers.`,
  expected: `a rise of ${TOUCH_RISE_K} K or more.`,
  verdict: ({ samples }) => passedWhen(rose(samples, quantity, TOUCH_RISE_K, null)),
  timeoutS: 60,
  onFailure: 'Cold fingers, or the two thermistors are swapped: hold the other and look again.',
});

const light: Step = {
  ...LOOKING,
  id: 'irradiance-reacts',
  title: 'UV sensor sees light and dark',
  caution: 'Do not look into a UV torch. Do not use the lamp of the unit for this.',
  todo: 'Cover the UV sensor with your hand, hold it into daylight or a UV torch, cover it again. An ordinary torch gives too little UV.',
  expected: 'a rise of 0.3 mW/cm2 or more, then dark again.',
  verdict: ({ samples }) =>
    passedWhen(rose(samples, 'irradianceWPerM2', LIGHT.riseWPerM2, LIGHT.backWPerM2)),
  timeoutS: 60,
  onFailure:
    'Too little UV behind window glass? Wires of the sensor; the sensor looks at the lamp, not away from it.',
};

const ladderAtRest: Step = {
  ...LOOKING,
  id: 'ladder-at-rest',
  title: 'Buttons at rest',
  todo: 'Touch nothing.',
  expected: `no button down, and a ladder that is not open, for ${REST_S} s.`,
  verdict: ({ samples }) => {
    const released = samples.every(({ frame }) => frame.ladder === 'released');
    return passedWhen(released && elapsedS(samples) >= REST_S);
  },
  timeoutS: 5,
  onFailure:
    'Open: cable of the buttons, R38. HOLD: the wire is shorted to ground, or SB4 is stuck. Between two buttons: R27, R38, moisture.',
};

/** Whether nothing but this button and rest was read, and the button was pressed and let go. */
function pressedAlone(samples: readonly Sample[], name: Button): Verdict {
  const read = samples.map(({ frame }) => frame.ladder);
  const pressed = samples.flatMap(({ frame }) => frame.pressed);
  const strange = read.some((step) => step !== 'released' && step !== name);
  if (strange || pressed.some((other) => other !== name)) return 'failed';
  return passedWhen(pressed.length > 0 && read.at(-1) === 'released');
}

const button = (name: Button): Step => ({
  ...LOOKING,
  id: `button-${name}`,
  title: `Button ${name.toUpperCase()}`,
  todo: `Press ${name.toUpperCase()} once, for half a second, and let it go.`,
  expected: `${name.toUpperCase()}, no other button, and then none.`,
  verdict: ({ samples }) => pressedAlone(samples, name),
  timeoutS: 20,
  onFailure:
    'Another button was read: two resistors of the ladder are swapped. One between two buttons: a wrong resistor, or a worn contact. None: wire of the ladder.',
});

export const INPUT_STEPS: readonly Step[] = [
  ...AT_REST.map(restStep),
  blow,
  warm('glass-warms', 'Glass thermistor warms', 'glassK', 'glass thermistor'),
  warm(
    'heat-sink-warms',
    'Heat sink thermistor warms',
    'heatSinkK',
    'thermistor of the lamp heat sink',
  ),
  light,
  ladderAtRest,
  ...BUTTONS.map(button),
];
