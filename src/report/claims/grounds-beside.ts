/**
 * What people decided and stated: the rules asked, checks and findings that were set aside, and
 * whether what was found is what was stated.
 */
import { STEP_NUMBERS } from '../../core/phases.ts';
import { celsiusWords, clockWords, HOLD_REASON_WORDS, kPaAbs, plainWords } from '../words.ts';
import type { AboutFacts, RuleFact, SetAside } from './about-facts.ts';
import { type Finding, type Ground, lacks, notInHeader, objects, supports } from './claim.ts';
import type { ClaimFacts } from './claim-facts.ts';
import type { ObjectionId } from './objections.ts';

const objectsEach = (id: ObjectionId, lines: readonly string[], otherwise: string) =>
  (lines.length > 0 ? lines : [otherwise]).map((line) => objects(id, line));

/** The rule first: a line that is cut loses its edition, not its words. */
const ruleLine = ({ words, ruleSet, edition, measured }: RuleFact): string => {
  const said = filled(words, measured).join(': ');
  const from = filled(ruleSet, edition).join(', ');
  return from === '' ? said : `${said} (${from})`;
};

const filled = (...parts: readonly string[]): readonly string[] =>
  parts.filter((part) => part !== '');

const allowed: Ground = ({ about: { assessment } }) => {
  if (assessment === null)
    return [objects('not-assessed', 'no intake sheet was assessed with this job')];
  const { answer, rules, ruleSets, technical, technicalReasons } = assessment;
  const unsuited =
    technical === 'can' || technical === ''
      ? []
      : objectsEach('damage-unsuited', technicalReasons, 'damage: a person had to decide');
  return [...byRules(answer, rules, ruleSets), ...unsuited];
};

function byRules(
  answer: string,
  rules: readonly RuleFact[],
  ruleSets: readonly string[],
): readonly Finding[] {
  const lines = rules.map(ruleLine);
  if (answer === 'not-allowed-here') return objectsEach('rules-forbid', lines, 'no rule is named');
  if (answer !== 'allowed') return objectsEach('rules-left-open', lines, 'no rule is named');
  return [supports('assessment', `allowed by ${ruleSets.join('; ') || 'the rules chosen'}`)];
}

const SET_ASIDE_IDS: Readonly<Partial<Record<string, ObjectionId>>> = {
  assessment: 'assessment-set-aside',
  resin: 'resin-set-aside',
  'pit-resin': 'resin-set-aside',
};

const noCheck: Ground = ({ about: { setAside } }) => {
  if (setAside === null) return [notInHeader('which checks were set aside')];
  if (setAside.length === 0) return [supports('gate before the job', 'no check was set aside')];
  return setAside.flatMap((one) =>
    objectsEach(SET_ASIDE_IDS[one.item] ?? 'check-set-aside', one.against, reasonLine(one)),
  );
};

const reasonLine = ({ item, reason }: SetAside): string => `${plainWords(item)}: ${reason}`;

/** The bubbles are the resin's last word on the air: a person pressed on all the same. */
const noFinding: Ground = ({ events }) =>
  events.flatMap((event) =>
    event.kind === 'answer' && event.phase === 'bubbles-stay' && event.answer === 'yes'
      ? [
          objects(
            'bubbles-stayed',
            `at ${clockWords(event.timeS)} min the longest vacuum was over, bubbles still rose, and a person went on`,
          ),
        ]
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
  what: string,
  stated: number | null,
  found: number | null,
  within: number,
  words: (value: number) => string,
): readonly Finding[] {
  if (stated === null) return [lacks(`${what}: nothing was stated`)];
  if (found === null)
    return [lacks(`${what}: nothing was measured when the sheet was asked about`)];
  const line = `${what}: stated ${words(stated)}; measured ${words(found)}`;
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
    return [supports('job and intake sheets', 'break: stated dry; no seal test found moisture')];
  }
  return wet.map(({ atS, why }) =>
    objects(
      'stated-dry-found-wet',
      `intake sheet: dry; seal test at ${clockWords(atS)} min found moisture: ${why}`,
    ),
  );
}

/** The break was judged as it was then. Who holds the job for one of these has seen it change. */
const stayedAsJudged: Ground = ({ events }) =>
  events.flatMap((event) =>
    event.kind === 'hold-reason' && event.reason !== 'something-else'
      ? [
          objects(
            event.reason,
            `at ${clockWords(event.timeS)} min, in step ${STEP_NUMBERS[event.phase]}, a person held the job because ${HOLD_REASON_WORDS[event.reason]}`,
          ),
        ]
      : [],
  );

export const RULES_GROUNDS: readonly Ground[] = [allowed];
export const SET_ASIDE_GROUNDS: readonly Ground[] = [noCheck, noFinding];
export const STATED_GROUNDS: readonly Ground[] = [asStated, stayedAsJudged];
