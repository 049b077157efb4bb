/** The verdict on a record in lines for the terminal: what was shown, and what stands against the rest. */
import { filled } from '../../core/phrases.ts';
import { escapedValue } from '../../core/plain-text.ts';
import { said } from '../../core/sayings.ts';
import { verdictHeadline } from '../../document/report/claim-rows.ts';
import type { Objection } from '../../report/claims/claim.ts';
import { type Claim, shortTitleOf } from '../../report/claims/claim-table.ts';
import { OBJECTIONS } from '../../report/claims/objections.ts';
import type { ReportData } from '../../report/report-data.ts';
import { joulesPerCm2 } from '../../report/words.ts';
import type { JobWords } from '../prepare/terminal-words.ts';

/** What was shown, by name, and everything that stands against the rest. */
export function verdictLines(data: ReportData, words: JobWords): readonly string[] {
  const { claims, doses } = data;
  const { verdict } = words.terminal;
  const shown = claims
    .filter(({ state }) => state === 'shown')
    .map((one) => shortTitleOf(one, words.claims));
  const others = claims.filter(({ state }) => state !== 'shown');
  return [
    filled(verdict.verdict, { headline: verdictHeadline(data, words.claims) }),
    filled(verdict.shown, { claims: shown.join(', ') || verdict.nothing }),
    ...againstLines(others, words),
    ...doses.map((dose) => doseLine(dose, words)),
  ];
}

/** What stands against several claims for the same reason is said once, with their names. */
function againstLines(claims: readonly Claim[], words: JobWords): readonly string[] {
  const { verdict } = words.terminal;
  const reasons = claims.flatMap((claim) =>
    claim.objections.map((objection) => ({ claim, objection, key: reasonOf(objection) })),
  );
  return reasons.flatMap(({ objection, key }, at) => {
    if (reasons.findIndex((one) => one.key === key) < at) return [];
    const against = reasons.filter((one) => one.key === key).map(({ claim }) => claim);
    const names = against.map((one) => shortTitleOf(one, words.claims)).join(', ');
    return [
      filled(verdict[OBJECTIONS[objection.id].leaves], {
        reason: words.claims.objections[objection.id],
        claims: against.length > 1 ? ` (${names})` : '',
      }),
      ...objection.said.map((line) => `  ${escapedValue(said(line, words.tongue))}`),
    ];
  });
}

const reasonOf = ({ id, lines }: Objection): string => [id, ...lines].join('\n');

function doseLine(
  { portion, doseJPerM2, targetJPerM2, uncertainty, verdict: found }: ReportData['dose'],
  { terminal: { verdict }, tongue, claims }: JobWords,
): string {
  const joules = (jPerM2: number): string => tongue.figure(joulesPerCm2(jPerM2).toFixed(2));
  const values = {
    name:
      portion === 'fill and pit'
        ? verdict.dose
        : filled(verdict.doseOf, { portion: claims.portions[portion] }),
    dose: joules(doseJPerM2),
    target: targetJPerM2 === null ? '' : filled(verdict.ofTarget, { target: joules(targetJPerM2) }),
  };
  if (found === 'not recorded') return filled(verdict.cut, values);
  const least =
    uncertainty === null ? '' : filled(verdict.atLeast, { dose: joules(uncertainty.shownJPerM2) });
  return filled(verdict.line, { ...values, found: verdict.met[found], least });
}
