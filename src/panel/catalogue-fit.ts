/**
 * Checks whether a catalogue can be shown: every character exists on the display, every line fits
 * its place with the widest figures, no explanation exceeds nine pages, and each text takes the
 * same figures as the reference's. It reports everything that does not fit; `catalogue.ts` has
 * already checked that nothing is missing.
 */

import { DISPLAY_COLUMNS } from '../core/frame.ts';
import { LETTER_SLOTS } from '../core/letters.ts';
import { PHASE_IDS, STEP_NUMBERS } from '../core/phases.ts';
import { filled, placeholdersOf } from '../core/phrases.ts';
import type { SettingsProblem } from '../core/settings.ts';
import { BUTTON_KEYS, type ButtonKey, type Catalogue, type StateKey } from './catalogue.ts';
import { canBeShown, lettersIn, pages, plain, wrap } from './text.ts';

type Misfit = Omit<SettingsProblem, 'file'>;

export function catalogueMisfits(catalogue: Catalogue, reference: Catalogue): readonly Misfit[] {
  return [
    ...leafMisfits(catalogue, reference, ''),
    ...letterMisfits(catalogue),
    ...lineMisfits(catalogue),
    ...buttonMisfits(catalogue),
    ...textMisfits(catalogue),
  ];
}

/** The display has room for eight letters: a text with others would be shown without their marks. */
function letterMisfits(catalogue: Catalogue): readonly Misfit[] {
  const { letters, ...words } = catalogue;
  const others = lettersIn(JSON.stringify(words)).filter((letter) => !letters.includes(letter));
  if (others.length === 0) return [];
  const accepted = `texts without ${others.join(' ')}, or these letters named, at most ${LETTER_SLOTS} in all`;
  return [misfit('letters', letters, accepted)];
}

const misfit = (path: string, words: string, accepted: string): Misfit => ({
  path,
  value: JSON.stringify(words),
  accepted,
});

/** Compares each string with the one at the same path of the reference. */
function leafMisfits(own: unknown, reference: unknown, path: string): readonly Misfit[] {
  if (typeof own === 'string') return stringMisfits(own, String(reference ?? ''), path);
  if (typeof own !== 'object' || own === null) return [];
  const others = (reference ?? {}) as Readonly<Record<string, unknown>>;
  const missing = Object.keys(others).filter((key) => !(key in own));
  return [
    ...Object.entries(own).flatMap(([key, value]) =>
      leafMisfits(value, others[key], path === '' ? key : `${path}.${key}`),
    ),
    ...missing.map((key) => ({
      path: `${path}.${key}`,
      value: 'missing',
      accepted: 'a text, as in the built-in catalogues',
    })),
  ];
}

function stringMisfits(own: string, reference: string, path: string): readonly Misfit[] {
  const found: Misfit[] = [];
  if (!canBeShown(own.replaceAll(/[{}]/g, ''))) {
    found.push(misfit(path, own, 'letters, digits and signs that the display has'));
  }
  const [has, needs] = [own, reference].map((words) => placeholdersOf(words));
  if (String(has) !== String(needs)) {
    const names = (needs ?? []).map((name) => `{${name}}`).join(', ');
    found.push(misfit(path, own, names === '' ? 'a text without {}' : `a text with ${names}`));
  }
  return found;
}

const LONGEST_STEP = Math.max(...Object.values(STEP_NUMBERS).map(({ length }) => length));
const AFTER_HELD = DISPLAY_COLUMNS - LONGEST_STEP - ' || '.length;
const AFTER_ASKED = DISPLAY_COLUMNS - LONGEST_STEP - ' ||? '.length;
const AFTER_END = DISPLAY_COLUMNS - '-- '.length;

const STATE_ROOM: Readonly<Record<StateKey, number>> = {
  holding: AFTER_HELD,
  held: AFTER_HELD,
  endAsked: AFTER_ASKED,
  whyAsked: DISPLAY_COLUMNS - LONGEST_STEP - ' |? '.length,
  restarting: AFTER_HELD,
  caution: AFTER_HELD,
  stopping: AFTER_END,
  stopped: AFTER_END,
  aborting: AFTER_END,
  aborted: AFTER_END,
  complete: AFTER_END,
  makingSafe: DISPLAY_COLUMNS,
  outputsOff: DISPLAY_COLUMNS,
  wait: DISPLAY_COLUMNS,
};

function lineMisfits(catalogue: Catalogue): readonly Misfit[] {
  const { prompts, states, seal, recharge, remedies, alarms, jobs } = catalogue;
  const place = { at: '99', of: '99' };
  const lines: (readonly [path: string, words: string, room: number])[] = [
    ...PHASE_IDS.flatMap((phase) => {
      const { title, lines: own } = prompts[phase];
      const room = DISPLAY_COLUMNS - STEP_NUMBERS[phase].length - ' ? '.length;
      return [
        [`prompts.${phase}.title`, title, room] as const,
        ...own.map((words, i) => [`prompts.${phase}.lines.${i}`, words, DISPLAY_COLUMNS] as const),
      ];
    }),
    ...Object.entries(states).map(
      ([key, words]) => [`states.${key}`, words, STATE_ROOM[key as StateKey]] as const,
    ),
    ...Object.entries(jobs).map(
      ([key, words]) => [`jobs.${key}`, filled(words, place), DISPLAY_COLUMNS] as const,
    ),
    ...Object.entries(seal).map(([key, words]) => [`seal.${key}`, words, DISPLAY_COLUMNS] as const),
    ...Object.entries(remedies).flatMap(([id, { title, lines: own }]) =>
      [title, ...own].map((words) => [`remedies.${id}`, words, DISPLAY_COLUMNS] as const),
    ),
    ...Object.entries(recharge).map(
      ([key, words]) => [`recharge.${key}`, words, DISPLAY_COLUMNS] as const,
    ),
    ...Object.entries(alarms).map(
      ([id, { title }]) => [`alarms.${id}.title`, title, DISPLAY_COLUMNS - '! '.length] as const,
    ),
    ...widestLiveLines(catalogue),
  ];
  return lines.flatMap(([path, words, room]) =>
    plain(words).length <= room ? [] : [misfit(path, words, `at most ${room} characters`)],
  );
}

/** A name is cut at the end of its line, but a plate must stand there whole. */
const LEAST_NAME = '0123456789';

/** Live lines with the widest figures that occur in practice. */
function widestLiveLines({ live, damage }: Catalogue) {
  const time = filled(live.timeLeft, { seconds: '1800' });
  const shortTime = filled(live.timeLeft, { seconds: '600' });
  const rows: readonly (readonly [string, string])[] = [
    ['live.pressure', `${filled(live.pressure, { pressure: '-95' })} ${time}`],
    ['live.pressureUnknown', live.pressureUnknown],
    [
      'live.pressureBrief',
      `5.2 !? ${filled(live.pressureBrief, { pressure: '-95' })} ${shortTime}`,
    ],
    ['live.doseBrief', `6.5 !? ${filled(live.doseBrief, { dose: '9.99', target: '9.99' })}`],
    ['live.dose', `${filled(live.dose, { dose: '9.99', target: '9.99' })} ${shortTime}`],
    ['live.timeUnknown', `${filled(live.pressure, { pressure: '-95' })} ${live.timeUnknown}`],
    ['live.margin', filled(live.margin, { margin: '9.99' })],
    ['live.vacuumChanged', filled(live.vacuumChanged, { asked: '60', given: '60' })],
    ['live.vacuumLeaves', filled(live.vacuumLeaves, { share: '60' })],
    ['live.daylight', filled(live.daylight, { share: '999' })],
    ['live.glass', `${live.hoseOff} ${filled(live.glass, { celsius: '-20' })}`],
    ['live.glassNow', filled(live.glassNow, { celsius: '-10.5', rate: '-10.5' })],
    ['live.glassUnknown', live.glassUnknown],
    ['live.warmTo', filled(live.warmTo, { low: '10', high: '40' })],
    ['live.coolTo', filled(live.coolTo, { low: '10', high: '40' })],
    ['live.glassInside', live.glassInside],
    ['live.legLimit', filled(live.legLimit, { mm: '400' })],
    ['live.legLimitUnknown', live.legLimitUnknown],
    ['live.cyclePlanned', filled(live.cyclePlanned, { cycle: '10', planned: '10', most: '20' })],
    ['live.cycleExtra', filled(live.cycleExtra, { cycle: '20', most: '20' })],
    ['live.vacuumLeft', filled(live.vacuumLeft, { seconds: '900' })],
    ['live.vacuumLongest', live.vacuumLongest],
    ['live.clear', live.clear],
    ['live.markRemains', live.markRemains],
    ...Object.entries(damage).map(
      ([type, words]) =>
        [`damage.${type}`, filled(live.job, { damage: words, mm: '400' })] as const,
    ),
  ];
  const names = (['vehicle', 'resin', 'lot', 'reference'] as const).map((key) => {
    const words = filled(live[key], { name: LEAST_NAME });
    return [`live.${key}`, words] as const;
  });
  const goesOn = filled(live.goesOn, { step: '9.99' });
  const others = [['live.noVehicle', live.noVehicle] as const, ['live.goesOn', goesOn] as const];
  return [...rows, ...names, ...others].map(
    ([path, words]) => [path, words, DISPLAY_COLUMNS] as const,
  );
}

/** Where pages are counted, the page mark stands at the right end. */
const PAGED: ReadonlySet<ButtonKey> = new Set([
  'help',
  'alarm',
  'held',
  'heldToEnd',
  'endAsked',
  'whyAsked',
  'end',
]);
const LONGEST_MARK = '9/9';

function buttonMisfits({ buttons }: Catalogue): readonly Misfit[] {
  return BUTTON_KEYS.flatMap((key) => {
    const [left, right] = buttons[key];
    const ends = [right, ...(PAGED.has(key) ? [LONGEST_MARK] : [])];
    const end = ends.filter((words) => words !== '').join(' ');
    const room = DISPLAY_COLUMNS - plain(end).length - 1;
    if (plain(left).length <= room) return [];
    return [misfit(`buttons.${key}.0`, left, `at most ${room} characters`)];
  });
}

const MOST_PAGES = 9;
const ROWS = 2;
/** As long as the text of most alarms' expected and seen values; tests use every alarm's own. */
const TOLD = 'at most 172.0 kPa gauge';

function textMisfits(catalogue: Catalogue): readonly Misfit[] {
  const { prompts, advice, remedies, live, alarms, alarmFigures, reasons } = catalogue;
  const figures = { irradiance: '999', eye: '999', skin: '999' };
  const filling = {
    advice: longest(Object.values(advice)),
    remedy: longest(Object.values(remedies).map(({ more }) => more)),
    remedyCaution: longest(Object.values(remedies).map(({ caution }) => caution)),
    sheet: [live.reference, live.vehicle, live.resin, live.lot]
      .map((words) => filled(words, { name: LEAST_NAME }))
      .join(', '),
    light: longest([filled(live.lightKnown, figures), live.lightUnknown]),
    expected: TOLD,
    seen: TOLD,
  };
  const texts: readonly (readonly [path: string, words: readonly string[]])[] = [
    ...PHASE_IDS.map(
      (phase) =>
        [`prompts.${phase}.more`, [prompts[phase].more, prompts[phase].caution ?? '']] as const,
    ),
    ...Object.entries(alarms).map(
      ([id, { happened, did, now }]) =>
        [`alarms.${id}`, [`${happened} ${alarmFigures.told}`, did, now]] as const,
    ),
    ...Object.entries(reasons).map(([key, words]) => [`reasons.${key}`, [words]] as const),
  ];
  return texts.flatMap(([path, words]) =>
    textMisfit(
      path,
      words.map((w) => filled(w, filling)),
    ),
  );
}

function textMisfit(path: string, parts: readonly string[]): readonly Misfit[] {
  const count = parts.filter((part) => part !== '').flatMap((part) => pages(part, ROWS)).length;
  const words = parts.join(' ');
  if (count > MOST_PAGES) {
    return [misfit(path, words, `at most ${MOST_PAGES} pages of two lines, these are ${count}`)];
  }
  const whole = parts.every((part) => wrap(part).join(' ') === plain(part));
  return whole ? [] : [misfit(path, words, `words of at most ${DISPLAY_COLUMNS} letters`)];
}

const longest = (texts: readonly string[]): string =>
  texts.reduce((best, words) => (words.length > best.length ? words : best), '');
