import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { BUTTONS, CHANNEL_FAULTS, TRIPS } from '../../src/core/frame.ts';
import { PHASE_IDS, type PhaseId } from '../../src/core/phases.ts';
import { PHRASE_KEYS, placeholdersOf, RECORD_PHRASES } from '../../src/core/phrases.ts';
import { BUTTON_KEYS, type ButtonKey, type Catalogue } from '../../src/panel/catalogue.ts';
import { catalogueMisfits } from '../../src/panel/catalogue-fit.ts';
import { choiceSignals, OFFER_KINDS } from '../../src/panel/choice-face.ts';
import { alarmPages, helpPages } from '../../src/panel/page-words.ts';
import { SCALES } from '../../src/safety/scales.ts';
import { CATALOGUES, ENGLISH } from './catalogues.ts';
import { TOLD_ALARMS } from './told-alarms.ts';
import {
  alarmViews,
  composeSignals,
  LIVE,
  liveViews,
  restViews,
  stepViews,
  view,
} from './views.ts';

/** Whether something in it may hurt eyes, skin, hands or the pane; of every phase, so that none is forgotten. */
const MAY_HURT: Readonly<Record<PhaseId, boolean>> = {
  'self-test': false,
  'air-jump': false,
  'vacuum-note': false,
  'job-sheet': false,
  protect: true,
  inspect: true,
  'glass-gate': true,
  'end-stop': true,
  'clean-pit': true,
  'dry-pit': true,
  'set-bridge': false,
  'close-seal': true,
  'connect-hose': true,
  'seal-pull': false,
  'seal-watch': false,
  reseat: true,
  'dry-again': true,
  'long-pull': false,
  'test-again': false,
  'seal-open': false,
  'seal-press': true,
  'press-watch': true,
  'press-off': false,
  'foot-lifts': true,
  'move-injector': true,
  'charge-injector': true,
  evacuate: true,
  'vacuum-dwell': true,
  'ask-bubbles': true,
  'bubbles-stay': false,
  release: false,
  pressurise: true,
  'pressure-dwell': true,
  vent: false,
  'ask-clear': false,
  'offer-remedy': true,
  'try-remedy': true,
  'offer-cycle': false,
  'ask-resin': false,
  recharge: true,
  'accept-mark': false,
  'cycle-or-end': false,
  'measure-leg': true,
  'injector-off': true,
  'cover-fill': true,
  'place-lamp-fill': true,
  'cure-fill': true,
  'uncover-fill': true,
  'fill-pit': true,
  'cover-film': false,
  'place-lamp': true,
  cure: true,
  'move-lamp': true,
  scrape: true,
  polish: true,
  'clean-injector': true,
  'final-look': false,
  result: false,
};

const allViews = (catalogue: Catalogue) => [
  ...stepViews(catalogue),
  ...liveViews(catalogue),
  ...restViews(catalogue, TOLD_ALARMS),
  ...alarmViews(catalogue, TOLD_ALARMS),
];

describe.each(CATALOGUES.map((catalogue) => [catalogue.language, catalogue] as const))(
  'the catalogue %s',
  (_, catalogue) => {
    test('fits the display and takes the figures that the English one takes', () => {
      expect(catalogueMisfits(catalogue, ENGLISH)).toEqual([]);
    });

    test('gives every screen four lines of 20 characters, no hole and nothing unknown', () => {
      const shown = new RegExp(`^[\\x20-\\x5b\\x5d-\\x7a|${catalogue.letters}]{20}$`);
      const wrong = allViews(catalogue)
        .map((view) => composeSignals(view).display)
        .filter((lines) => !lines.every((line) => shown.test(line)));
      expect(wrong).toEqual([]);
    });

    test('counts no more than nine pages, whatever an alarm has seen', () => {
      for (const alarm of TOLD_ALARMS) {
        expect(alarmPages(alarm, catalogue).length, alarm.id).toBeLessThanOrEqual(9);
      }
    });

    test('explains every step, and what may hurt in it after that', () => {
      for (const phase of PHASE_IDS) {
        const pages = helpPages({ catalogue, phase, notClearAdvice: 'warm-the-pane', live: LIVE });
        const cautions = pages.map(({ caution }) => caution);
        expect(cautions[0], phase).toBe(false);
        expect(cautions, phase).toEqual([...cautions].sort());
        expect(cautions.includes(true), phase).toBe(MAY_HURT[phase]);
      }
    });

    test('has two lines in every step that has no live one', () => {
      for (const phase of PHASE_IDS) {
        const [, first, second] = composeSignals(view({ catalogue, phase })).display;
        expect(first.trim(), phase).not.toBe('');
        expect(second.trim(), phase).not.toBe('');
      }
    });

    test('names the buttons by its own labels, where the English one names them', () => {
      const named = ({ buttons, names }: Catalogue, key: ButtonKey): readonly string[] => {
        const words: readonly string[] = buttons[key].join(' ').match(/\p{L}+/gu) ?? [];
        return BUTTONS.filter((button) => words.includes(names[button]));
      };
      for (const key of BUTTON_KEYS) {
        expect(named(catalogue, key), key).toEqual(named(ENGLISH, key));
      }
    });

    test('says nowhere the label of a button in another language', () => {
      const own = Object.values(catalogue.names);
      const others = CATALOGUES.flatMap(({ names }) => Object.values(names)).filter(
        (label) => !own.includes(label),
      );
      const words: readonly string[] = JSON.stringify(catalogue).match(/\p{L}+/gu) ?? [];
      expect(words.filter((word) => others.includes(word))).toEqual([]);
    });

    test('asks for no figure that a phrase does not bring', () => {
      for (const key of PHRASE_KEYS) {
        const brought = placeholdersOf(RECORD_PHRASES[key]);
        const others = placeholdersOf(catalogue.phrases[key]).filter((n) => !brought.includes(n));
        expect(others, key).toEqual([]);
      }
    });
  },
);

test('no text of a catalogue is left that no screen shows', () => {
  const { marked, marks } = withMarks(ENGLISH);
  const seen = [...allViews(marked).map(composeSignals), ...choiceScreens(marked)]
    .map(({ display }) => display.join(' '))
    .join(' ');
  const unseen = [...marks].filter(([mark]) => !seen.includes(mark)).map(([, path]) => path);
  const used = sourcesBut('phrases.ts');
  const elsewhere = unseen.filter((path) => !(path.startsWith('phrases.') && used(path.slice(8))));
  expect(elsewhere).toEqual([]);
});

/** The list of jobs, with every offer that it makes. */
const choiceScreens = (catalogue: Catalogue) => [
  choiceSignals({ at: 0, asks: false }, [], catalogue),
  ...OFFER_KINDS.flatMap((kind) =>
    [false, true].flatMap((either) => {
      const offer = { kind, name: 'DEMO-1' };
      return [
        choiceSignals({ at: 0, asks: either }, [offer], catalogue),
        choiceSignals({ at: 0, asks: either }, [{ ...offer, refused: true }], catalogue),
      ];
    }),
  ),
];

/** Each text replaced by a mark of its own that keeps its placeholders. */
function withMarks(catalogue: Catalogue) {
  const marks = new Map<string, string>();
  const mark = (value: unknown, path: string): unknown => {
    if (typeof value === 'string') {
      // Labels stand in the texts as they are.
      if (path.startsWith('names.')) return value;
      if (value === '' || path === 'schema' || path === 'language' || path === 'letters')
        return value;
      const name = `#${marks.size}#`;
      marks.set(name, path);
      return [name, ...placeholdersOf(value).map((holder) => `{${holder}}`)].join(' ');
    }
    if (Array.isArray(value)) return value.map((item, i) => mark(item, `${path}.${i}`));
    const entries = Object.entries(value as object);
    return Object.fromEntries(
      entries.map(([key, inner]) => [key, mark(inner, path === '' ? key : `${path}.${key}`)]),
    );
  };
  return { marked: mark(catalogue, '') as Catalogue, marks };
}

/** Whether the controller's sources name a phrase, by itself or as one of a family. */
function sourcesBut(file: string) {
  const folder = fileURLToPath(new URL('../../src/', import.meta.url));
  const source = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && name !== file)
    .map((name) => readFileSync(folder + name, 'utf8'))
    .join('\n');
  const families: readonly string[] = [
    ...Object.keys(SCALES),
    ...TRIPS.map((trip) => `trip-${trip}`),
    ...CHANNEL_FAULTS,
  ];
  return (key: string): boolean => families.includes(key) || source.includes(`'${key}'`);
}
