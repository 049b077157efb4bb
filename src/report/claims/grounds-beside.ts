/**
 * What people decided and stated: the rules asked, checks and findings that were set aside, and
 * whether what was found is what was stated.
 */
import { STEP_NUMBERS } from '../../core/phases.ts';
import { type Filling, figure, recorded, type Saying } from '../../core/sayings.ts';
import { ENGLISH_RECORD, say, sayOf } from '../language.ts';
import { celsiusWords, clockWords, kPaAbs, plainWords } from '../words.ts';
import type { AboutFacts, RuleFact, SetAside } from './about-facts.ts';
import { type Finding, type Ground, lacks, notInHeader, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import type { ObjectionId } from './objections.ts';

const objectsEach = (id: ObjectionId, lines: readonly Saying[], otherwise: Saying) =>
  (lines.length > 0 ? lines : [otherwise]).map((line) => objects(id, line));

/** The rule first: a line that is cut loses its edition, not its words. */
const ruleLine = ({ words, ruleSet, edition, measured }: RuleFact): Saying => {
  const [rule, found] = [recorded(words), recorded(measured)];
  const said =
    measured === '' || words === ''
      ? say('lines.rule', { rule: words === '' ? found : rule })
      : say('lines.rule-measured', { rule, measured: found });
  const from = filled(ruleSet, edition).join(', ');
  return from === '' ? said : say('lines.rule-from', { rule: said, from });
};

const given = (text: Filling): Saying => say('lines.given', { text });

const filled = (...parts: readonly string[]): readonly string[] =>
  parts.filter((part) => part !== '');

const allowed: Ground = ({ about: { assessment } }) => {
  if (assessment === null) return [objects('not-assessed', say('lines.no-sheet-assessed'))];
  const { answer, rules, ruleSets, technical, technicalReasons } = assessment;
  const unsuited =
    technical === 'can' || technical === ''
      ? []
      : objectsEach(
          'damage-unsuited',
          technicalReasons.map((reason) => given(recorded(reason))),
          say('lines.damage-to-a-person'),
        );
  return [...byRules(answer, rules, ruleSets), ...unsuited];
};

function byRules(
  answer: string,
  rules: readonly RuleFact[],
  ruleSets: readonly string[],
): readonly Finding[] {
  const lines = rules.map(ruleLine);
  const none = say('lines.no-rule-named');
  if (answer === 'not-allowed-here') return objectsEach('rules-forbid', lines, none);
  if (answer !== 'allowed') return objectsEach('rules-left-open', lines, none);
  const sets = ruleSets.join('; ');
  const by =
    sets === '' ? say('lines.allowed-by-chosen') : say('lines.allowed-by', { ruleSets: sets });
  return [supports('assessment', by)];
}

const SET_ASIDE_IDS: Readonly<Partial<Record<string, ObjectionId>>> = {
  assessment: 'assessment-set-aside',
  resin: 'resin-set-aside',
  'pit-resin': 'resin-set-aside',
};

const noCheck: Ground = ({ about: { setAside } }) => {
  if (setAside === null) return [notInHeader(say('lines.which-checks'))];
  if (setAside.length === 0) return [supports('gate before the job', say('lines.no-check'))];
  return setAside.flatMap((one) =>
    objectsEach(
      SET_ASIDE_IDS[one.item] ?? 'check-set-aside',
      one.against.map((line) => given(recorded(line))),
      reasonLine(one),
    ),
  );
};

const reasonLine = ({ item, reason }: SetAside): Saying =>
  say('lines.check-reason', { check: checkNamed(item), reason });

/** A check of an older version has only its name. */
export const checkNamed = (item: string): Filling =>
  item in ENGLISH_RECORD.checks ? sayOf('checks', item) : plainWords(item);

/** The bubbles are the resin's last word on the air: a person pressed on all the same. */
const noFinding: Ground = ({ events }) =>
  events.flatMap((event) =>
    event.kind === 'answer' && event.phase === 'bubbles-stay' && event.answer === 'yes'
      ? [objects('bubbles-stayed', say('lines.bubbles-pressed', { at: clockWords(event.timeS) }))]
      : [],
  );

/**
 * How far a stated figure may differ from the measured one; demo values. A pane changes between
 * inspection and work, and the air pressure changes by less than this within a day (from memory).
 */
const STATED_WITHIN = { glassK: 5, airPa: 2000 } as const;

const asStated: Ground = (facts) => {
  const { stated } = facts.about;
  const found = foundIn(facts);
  return [
    ...alike('glass', stated.glassK, found.glassK, STATED_WITHIN.glassK, celsiusWords),
    ...alike('air', stated.airPa, found.airPa, STATED_WITHIN.airPa, kPaAbs),
    ...moisture(stated, facts),
  ];
};

/** What the job had measured when it asked a person whether the job sheet is right. */
const foundIn = ({ snapshots, atmospherePa }: ClaimFacts) => ({
  glassK:
    snapshots.find(({ phase, glassK }) => phase === 'job-sheet' && glassK !== null)?.glassK ?? null,
  airPa: atmospherePa,
});

function alike(
  what: 'glass' | 'air',
  stated: number | null,
  found: number | null,
  within: number,
  words: (value: number) => string,
): readonly Finding[] {
  if (stated === null) return [lacks(say(`lines.${what}-unstated`))];
  if (found === null) return [lacks(say(`lines.${what}-unmeasured`))];
  const line = say(`lines.${what}-stated`, {
    stated: figure(words(stated)),
    measured: figure(words(found)),
  });
  return [
    Math.abs(stated - found) <= within
      ? supports('job and intake sheets', line)
      : objects('not-as-stated', line),
  ];
}

function moisture(stated: AboutFacts['stated'], { sealTests }: ClaimFacts): readonly Finding[] {
  if (stated.moisture !== 'dry' || sealTests.length === 0) return [];
  const wet = sealTests.filter(({ finding }) => finding === 'moisture');
  if (wet.length === 0) {
    return [supports('job and intake sheets', say('lines.stayed-dry'))];
  }
  return wet.map(({ atS, why }) =>
    objects(
      'stated-dry-found-wet',
      say('lines.found-wet', { at: clockWords(atS), why: recorded(why) }),
    ),
  );
}

/** The dose is said to set this resin, and a person found that it had not. */
const foundSoft: Ground = ({ events }) =>
  events.flatMap((event) =>
    event.kind === 'answer' && event.phase === 'scrape' && event.answer === 'no'
      ? [objects('found-soft', say('lines.scraped-soft', { at: clockWords(event.timeS) }))]
      : [],
  );

/** The break was judged as it was then. Who holds the job for one of these has seen it change. */
const stayedAsJudged: Ground = ({ events }) =>
  events.flatMap((event) =>
    event.kind === 'hold-reason' && event.reason !== 'something-else'
      ? [
          objects(
            event.reason,
            say('lines.held-because', {
              at: clockWords(event.timeS),
              step: STEP_NUMBERS[event.phase],
              reason: say(`holdReasons.${event.reason}`),
            }),
          ),
        ]
      : [],
  );

export const RULES_GROUNDS: readonly Ground[] = [allowed];
export const SET_ASIDE_GROUNDS: readonly Ground[] = [noCheck, noFinding];
export const STATED_GROUNDS: readonly Ground[] = [asStated, foundSoft, stayedAsJudged];
