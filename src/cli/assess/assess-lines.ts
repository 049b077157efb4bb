/** An assessment for a terminal of 80 columns: both answers, then each reason with its grounds. */
import { ANSWER_LINES, type Assessed, TECHNICAL_LINES } from '../../app/prepare/assessment-page.ts';
import type { CheckedRule, Reason } from '../../intake/rules/reason.ts';
import type { RuleSet } from '../../intake/rules/rule-set.ts';
import { knownFromText, reasonLines, setText } from '../../intake/rules/rule-words.ts';
import { wrapped } from '../terminal/text-columns.ts';

export function assessLines({ assessment, ruleSets }: Assessed): readonly string[] {
  const { answer, reasons, technical, checked, disclaimer } = assessment;
  const applied = checked.filter(({ outcome }) => outcome !== 'does-not-apply').length;
  return [
    `${ANSWER_LINES[answer]}.`,
    ...reasons.flatMap(reason),
    TECHNICAL_LINES[technical.answer],
    ...technical.reasons.flatMap(reason),
    `Rules: ${checked.length} in ${ruleSets.length} sets; ${applied} apply.`,
    ...ruleSets.flatMap((set) => wrapped(setText(set), 2, 4)),
    ...metLines(checked, ruleSets),
    ...wrapped(disclaimer),
  ];
}

/** What was satisfied, and how well its figures are known: a permission is worth no more. */
function metLines(
  checked: readonly CheckedRule[],
  ruleSets: readonly RuleSet[],
): readonly string[] {
  const met = checked.filter(({ outcome }) => outcome === 'holds');
  const known = met.map((rule) => {
    const place = ruleSets.length > 1 ? `${rule.set?.jurisdiction}, ` : '';
    return { id: rule.id, from: `${place}${knownFromText(rule)}` };
  });
  const sources = [...new Set(known.map(({ from }) => from))];
  return [
    ...(met.length === 0 ? [] : ['Satisfied, and how the figures are known:']),
    ...sources.flatMap((source) => {
      const ids = known.filter(({ from }) => from === source).map(({ id }) => id);
      return wrapped(`- ${ids.join(', ')}: ${source}`, 2, 4);
    }),
  ];
}

function reason(one: Reason): readonly string[] {
  const [words = '', ...rest] = reasonLines(one);
  return [...wrapped(`- ${words}`, 2, 4), ...rest.flatMap((line) => wrapped(line, 4, 6))];
}

export function ruleSetLines(sets: readonly RuleSet[]): readonly string[] {
  const kinds = { repair: 'repair', 'finished-mark': 'finished mark' } as const;
  return sets.flatMap((set) => [
    set.id,
    ...wrapped(`${setText(set)}; ${kinds[set.kind]}; ${set.rules.length} rules`, 2, 4),
  ]);
}
