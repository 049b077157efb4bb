/**
 * The claims of a job that was done in more than one attempt. Each row says how a claim of this
 * attempt is joined with the same claim of the attempts before it: nothing is better than the worst
 * of those that bear on the result, and light counts only within one attempt. No figure is at hand
 * for what light before a pause in the dark is still worth, so a cure begins again from nothing.
 */
import { CURE_PHASES, PHASE_IDS, PHASES, partOf } from '../../core/phases.ts';
import { type Filling, figure, recorded, type Saying } from '../../core/sayings.ts';
import { type CuredPortion, isSamePart } from '../dose-part.ts';
import { ENGLISH_RECORD, say, sayOf } from '../language.ts';
import type { CountedDose } from '../report-dose.ts';
import type { CycleRow } from '../timeline.ts';
import { doseWords, hoursWords, plainWords } from '../words.ts';
import type { AttemptFacts, EarlierAttempt } from './attempt-facts.ts';
import {
  type Finding,
  type Objection,
  objection,
  objects,
  supportIn,
  supports,
  worstOf,
} from './claim.ts';
import type { Claim, ClaimId } from './claim-table.ts';
import { OBJECTIONS, type ObjectionId } from './objections.ts';

/**
 * `own`: this attempt alone; `worst`: every attempt; `lit`: every attempt in which the lamp was on;
 * `air`: every attempt, without this one where it works no air; `cured`: the attempt that cured the
 * portion.
 */
type Join = 'own' | 'worst' | 'lit' | 'air' | 'cured';

const JOINS: Readonly<Record<ClaimId, Join>> = {
  'set-aside': 'worst',
  rules: 'worst',
  resin: 'worst',
  'as-stated': 'worst',
  // The last look is at the result of all attempts.
  filled: 'own',
  dose: 'cured',
  pressure: 'air',
  temperature: 'lit',
  seal: 'air',
  // Judged over the cycles of all attempts.
  held: 'own',
  clock: 'worst',
  interlocks: 'lit',
  calibrations: 'worst',
  care: 'worst',
  uninterrupted: 'own',
  // An attempt that broke off is finished by the next.
  completed: 'own',
  record: 'worst',
};

export const joinedClaims = (
  claims: readonly Claim[],
  attempt: AttemptFacts | null,
): readonly Claim[] => (attempt === null ? claims : claims.map((claim) => joined(claim, attempt)));

function joined(claim: Claim, given: AttemptFacts): Claim {
  const attempt = given.entry === null ? harmOnly(given) : given;
  const own = withFindings(claim, BESIDE[claim.id]?.(claim, attempt) ?? []);
  switch (JOINS[claim.id]) {
    case 'own':
      return own;
    case 'worst':
      return withEarlier(own, attempt.earlier);
    case 'lit':
      return withEarlier(own, attempt.earlier.filter(isLit));
    case 'air':
      return withEarlier(worksAir(attempt) ? own : emptied(own), attempt.earlier);
    case 'cured':
      return curedBefore(attempt, claim.portion)
        ? withEarlier(emptied(own), attempt.earlier.slice(-1))
        : own;
  }
}

/**
 * Where nothing had been pressed in, an earlier attempt bears on the result only by what it did to
 * the pane: what it did not come to show, this one shows.
 */
const harmOnly = (attempt: AttemptFacts): AttemptFacts => ({
  ...attempt,
  earlier: attempt.earlier.map((one) => ({
    ...one,
    claims: one.claims.map((claim) =>
      claim.state === 'not met' ? claim : { ...claim, state: 'shown' as const, objections: [] },
    ),
  })),
});

const isLit = ({ doses }: EarlierAttempt): boolean => doses.some((one) => one.doseJPerM2 > 0);

/** Null: it began again from the start. */
const worksAir = ({ entry }: AttemptFacts): boolean =>
  entry === null || !['cure', 'finish'].includes(partOf(entry.at));

/** This attempt went on after that portion's cure. */
function curedBefore({ entry }: AttemptFacts, portion: CuredPortion | null): boolean {
  if (entry === null) return false;
  const cure = PHASE_IDS.findLastIndex(
    (phase) => CURE_PHASES.has(phase) && 'portion' in PHASES[phase] === (portion !== 'fill'),
  );
  return PHASE_IDS.indexOf(entry.at) > cure;
}

/** The doses that count: this attempt's, or the last attempt's where that cured the portion. */
export const joinedDoses = (
  doses: readonly CountedDose[],
  attempt: AttemptFacts | null,
): readonly CountedDose[] =>
  doses.map((dose) => {
    if (attempt === null || !curedBefore(attempt, dose.portion)) return dose;
    const before = attempt.earlier.at(-1)?.doses.find((one) => isSamePart(one, dose));
    return before ?? dose;
  });

/** Cycles of every attempt; one that was begun again is judged as it was run last. */
export function joinedCycles(
  cycles: readonly CycleRow[],
  attempt: AttemptFacts | null,
): readonly CycleRow[] {
  if (attempt === null || attempt.entry === null) return cycles;
  const again = new Set(cycles.map(({ cycle }) => cycle));
  const before = attempt.earlier.flatMap((one) => one.cycles);
  const kept = before.filter(
    ({ cycle }, index) =>
      !again.has(cycle) && before.findLastIndex((one) => one.cycle === cycle) === index,
  );
  return [...kept, ...cycles];
}

const emptied = (claim: Claim): Claim => ({
  ...claim,
  state: 'shown',
  support: [],
  objections: [],
});

/** With what stood against the same claim before; shown only where all of them show it. */
function withEarlier(claim: Claim, earlier: readonly EarlierAttempt[]): Claim {
  const against = earlier.flatMap(({ number, claims }) =>
    claims
      .filter((one) => one.id === claim.id && isSamePart(one, claim))
      .flatMap(({ objections }) =>
        objections.flatMap(({ id, lines, said }) =>
          id in OBJECTIONS
            ? lines.map((english, at) => {
                const line = said?.[at] ?? recorded(english);
                return objects(
                  id as ObjectionId,
                  say('lines.attempt', { number: String(number), line }),
                );
              })
            : [],
        ),
      ),
  );
  const shown = earlier.flatMap(({ number, claims }) =>
    claims
      .filter((one) => one.id === claim.id && isSamePart(one, claim))
      .filter(({ state }) => state === 'shown')
      .map(() => supports('program', say('lines.attempt-shown', { number: String(number) }))),
  );
  const missing =
    claim.support.length === 0 && shown.length === 0 && against.length === 0 && earlier.length > 0
      ? [objects('record-cut', say('lines.no-attempt-shows'))]
      : [];
  return withFindings(claim, [...shown, ...against, ...missing]);
}

function withFindings(claim: Claim, findings: readonly Finding[]): Claim {
  if (findings.length === 0) return claim;
  const added = findings.flatMap((one) => (one.stand === 'against' ? [one] : []));
  const objections = added.reduce<readonly Objection[]>(withObjection, claim.objections);
  return {
    ...claim,
    state: worstOf(objections.map(({ id }) => OBJECTIONS[id].leaves)),
    support: [...claim.support, ...supportIn(findings)],
    objections,
  };
}

function withObjection(
  objections: readonly Objection[],
  { id, line }: { readonly id: ObjectionId; readonly line: Saying },
): readonly Objection[] {
  const found = objections.find((one) => one.id === id);
  const added = objection(id, [...(found?.said ?? []), line]);
  if (found === undefined) return [...objections, added];
  return objections.map((one) => (one === found ? added : one));
}

/** What several attempts say beside the claims of each. */
const BESIDE: Readonly<
  Partial<Record<ClaimId, (claim: Claim, attempt: AttemptFacts) => readonly Finding[]>>
> = {
  uninterrupted: (_, { earlier, apartS }) =>
    earlier.map(({ number, end, phase }, index) => {
      const values = {
        number: String(number),
        how: end.reason in ENGLISH_RECORD.ends ? sayOf('ends', end.reason) : end.reason,
        phase: phaseNamed(phase),
        why: recorded(end.why.replace(/\.$/, '')),
      };
      const isLast = index === earlier.length - 1;
      const line = isLast
        ? say('lines.attempt-ended-last', { ...values, apart: hoursWords(apartS) })
        : say('lines.attempt-ended', values);
      return objects('broken-off', line);
    }),
  resin: (_, { resinStood, apartS }) =>
    resinStood
      ? [objects('resin-stood', say('lines.resin-stood', { apart: hoursWords(apartS) }))]
      : [],
  dose: (claim, attempt) =>
    curedBefore(attempt, claim.portion)
      ? []
      : attempt.earlier.flatMap(({ number, doses }) =>
          doses
            .filter((one) => isSamePart(one, claim) && one.doseJPerM2 > 0)
            .map(({ doseJPerM2, uncertainty }) =>
              supports('program', uncounted(number, doseJPerM2, uncertainty)),
            ),
        ),
};

/** A phase of an older version has only its name. */
const phaseNamed = (phase: string): Filling =>
  phase in ENGLISH_RECORD.phases ? sayOf('phases', phase) : plainWords(phase);

function uncounted(
  number: number,
  doseJPerM2: number,
  uncertainty: CountedDose['uncertainty'],
): Saying {
  const values = { number: String(number), dose: figure(doseWords(doseJPerM2)) };
  if (uncertainty === null) return say('lines.uncounted', values);
  const least = figure(doseWords(uncertainty.shownJPerM2));
  return say('lines.uncounted-least', { ...values, least });
}
