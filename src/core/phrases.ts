/**
 * Words as data: a phrase is a key with figures, so that each language can express it. This file
 * holds the words of the record, which is always in English; the catalogues of `panel/` hold those
 * of the display, under the same keys. Figures are written alike in all languages.
 */
import type { Trip } from './frame.ts';

export const RECORD_PHRASES = {
  absolutePressure: '{value} kPa abs',
  gaugePressure: '{value} kPa gauge',
  pressureDifference: '{value} kPa off',
  temperature: '{value} C',
  temperatureDifference: '{value} K',
  heatingRate: '{value} K/min',
  share: '{value} %',
  irradiance: '{value} mW/cm2',
  dose: '{value} mJ/cm2',
  voltage: '{value} V',
  time: '{value} s',
  leakRate: '{value} Pa m3/s',
  state: '{value}',
  'no-end': 'no end',

  'at-most': 'at most {amount}',
  'at-least': 'at least {amount}',
  'no-reading': 'no reading',
  'pressure-in-time': '{pressure} in {seconds} s',
  'own-air': "the air's {pressure}",
  'follows-pump': 'pressure follows the pump',
  'behind-pump': '{pressure} kPa behind it',
  'button-released': 'button released',
  'button-pressed': 'button pressed',
  'one-button': 'one button or none',
  'ladder-open': 'wire open',
  'between-buttons': 'between two buttons',
  'button-down': '{button} down for {time}',
  'switch-closed': 'switch closed',
  'switch-open': 'switch open',
  'shield-closed': 'shield closed',
  'shield-open': 'shield open',
  'shield-seen-open': 'shield seen open before this cure',
  'shield-never-open': 'closed all the time',

  'believable-reading': 'a believable reading',
  'steady-light': 'light that keeps its level',
  'dark-in-gap': 'dark within 1 s of the lamp',
  'a-value': 'a value',
  stale: 'stale',
  'out-of-range': 'out-of-range',
  implausible: 'implausible',
  missing: 'missing',
  'all-checks-pass': 'all checks pass',
  'not-finished': 'not finished',
  found: '{findings}',
  'pressure-sensor-says': 'pressure {fault}',
  'light-sensor-says': 'light {fault}',
  'glass-sensor-says': 'glass temp. {fault}',
  'lamp-sensor-says': 'lamp temp. {fault}',
  'supply-sensor-says': 'supply {fault}',
  'board-tripped': 'board tripped: {trips}',
  'not-at-air-pressure': 'not at air pressure',
  'vacuum-of-no-use': 'vacuum leaves {share} % of this air, at most {most} % is of use',
  'strong-light': 'strong light',

  'cure-in-time': 'a cure in {seconds} s',
  'heat-allowed': 'at most {over} over the pane and {rate}',
  'heat-seen':
    '{over} over the pane, {rate}; {leg} mm leg: K up to {stress}, growth from {growth} MPa m^0.5',
  'sink-warms': 'a heat sink that warms with the lamp',
  'sink-as-lamp': 'no more than the lamp explains',
  'glass-warms': 'glass that warms in the light',
  'temperatures-agree': 'heat sink, glass and air alike',
  'too-cold-by': '{by} K too cold',
  'too-warm-by': '{by} K too warm',
  'apart-by': '{by} K apart',
  'less-light': 'less light than sets the resin',
  'light-share': '{share} of what sets the resin',

  'messages-pass': 'messages that pass their check',
  'failed-check': 'a failed check',
  'every-frame': 'every frame in its turn',
  'a-gap': 'a gap',
  'clock-off': '{percent} % off',
  'only-numbers': 'a number from every calculation',
  'no-number': 'none for {place}',
  'none-tripped': 'no protection tripped',
  'nothing-tripped': 'nothing tripped',
  tripped: '{trips}',
  'trip-emergency-stop': 'emergency stop',
  'trip-over-pressure-switch': 'over-pressure switch',
  'trip-pressure-ceiling': 'pressure too high',
  'trip-pressure-sensor': 'no pressure reading',
  'trip-shield': 'shield open',
  'trip-heat-sink': 'lamp too hot',
  'trip-lamp-time': 'lamp on too long',
  'trip-watchdog': 'board restarted',
  'trip-settings': 'its limits were spoilt',
  'trip-glass-hot': 'glass too hot',
  'trip-memory': 'its memory is faulty',
  'trip-program': 'its program is faulty',
  'trip-output-pins': 'output not obeyed',
  'trip-converter': 'no measurements',
  'trip-registers': 'chip set-up changed',
  'trip-restart-unknown': 'restarted, no cause',
  'trip-restart-loop': 'restarts repeatedly',
} as const;

export type PhraseKey = keyof typeof RECORD_PHRASES;
export const PHRASE_KEYS = Object.keys(RECORD_PHRASES) as readonly PhraseKey[];

export type Filling = string | Phrase | readonly Phrase[];

export interface Phrase {
  readonly say: PhraseKey;
  readonly with?: Readonly<Record<string, Filling>>;
}

export const tripPhrases = (trips: readonly Trip[]): readonly Phrase[] =>
  trips.map((trip) => ({ say: `trip-${trip}` }));

type PhraseWords = Readonly<Record<PhraseKey, string>>;

/** Renders a phrase with the words of the record, or of a catalogue. */
export function worded(phrase: Phrase, words: PhraseWords = RECORD_PHRASES): string {
  const filling = Object.entries(phrase.with ?? {});
  const said = filling.map(([name, value]) => [name, fillingWords(value, words)] as const);
  return filled(words[phrase.say], Object.fromEntries(said));
}

function fillingWords(filling: Filling, words: PhraseWords): string {
  if (typeof filling === 'string') return filling;
  const phrases = 'say' in filling ? [filling] : filling;
  return phrases.map((phrase) => worded(phrase, words)).join(', ');
}

const PLACEHOLDER = /\{(\w+)\}/g;

/** Fills a template's placeholders; one without a value is left as it stands. */
export const filled = (template: string, values: Readonly<Record<string, string>>): string =>
  template.replace(PLACEHOLDER, (whole, name: string) => values[name] ?? whole);

/** Each name once, in alphabetical order: languages use different word orders. */
export const placeholdersOf = (template: string): readonly string[] =>
  [...new Set([...template.matchAll(PLACEHOLDER)].map(([, name]) => name ?? ''))].sort();
