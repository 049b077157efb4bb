/**
 * All rules as one page of Markdown: each limit with its zone, consequence, provenance and source,
 * set by set, and the technical exclusions. The page lies beside the data files, and a test
 * compares them, so that a figure can be checked without reading JSON.
 */
import { MEASURES } from '../sheet/measures.ts';
import { ANYWHERE, type Rule, type RuleSet } from './rule-set.ts';
import {
  answerText,
  limitText,
  outOfForceText,
  PROVENANCE_WORDS,
  quotationText,
  setText,
} from './rule-words.ts';
import { TECHNICAL_EXCLUSIONS, type TechnicalExclusion } from './technical-exclusions.ts';

const HEAD = `# Rules that come with the unit

Written by \`meniscus assess --rules-table\`; do not edit. Figures come from public texts in the
editions named, or from weaker sources, as the column "known from" states; "looked at" is the day on
which the source was looked at. Local law decides, and the person who may decide under it. A set of
kind "finished mark" limits the mark that may remain in the glass: before the repair it only asks
for a person. Alone it is no permission; neither are figures from memory, nor an edition that is not
in force.
`;

const MEANS: Readonly<Record<Rule['then'] | TechnicalExclusion['means'], string>> = {
  'not-allowed': 'not allowed',
  cannot: 'cannot be repaired',
  'needs-a-person': 'a person decides',
};

export function rulesTable(ruleSets: readonly RuleSet[]): string {
  return [HEAD, ...ruleSets.map(setSection), technicalSection()].join('\n');
}

function setSection(set: RuleSet): string {
  const zones = set.zones.map(({ id, words }) => `- zone \`${id}\`: ${words}`);
  return [
    `## ${setText(set)}\n`,
    `\`${set.id}\`, ${set.kind === 'repair' ? 'conditions for repairing' : 'limits on the finished mark'} (${set.force}); covers ${coverText(set)}; in force from: ${set.inForceFrom ?? 'date not known'}. Source: ${set.source}.\n`,
    ...(set.outOfForce === null
      ? []
      : [
          `**Out of force**: ${outOfForceText(set.outOfForce)} (${PROVENANCE_WORDS[set.outOfForce.provenance]}: ${set.outOfForce.source}). What it accepts is no permission: a person decides.\n`,
        ]),
    ...(zones.length === 0 ? [] : [`${zones.join('\n')}\n`]),
    table(
      [
        'rule',
        'where',
        'about',
        'accepted',
        'otherwise',
        'quotation',
        'known from',
        'source',
        'looked at',
      ],
      set.rules.map((rule) => [
        `\`${rule.id}\``,
        rule.in.map((zone) => (zone === ANYWHERE ? zone : `\`${zone}\``)).join(', '),
        aboutText(rule),
        limitText(rule),
        MEANS[rule.then],
        quotationText(rule),
        PROVENANCE_WORDS[rule.provenance],
        rule.source,
        rule.lookedOn ?? '-',
      ]),
    ),
    ...set.notes.map((note) => `- ${note}`),
    '',
  ].join('\n');
}

function technicalSection(): string {
  return [
    '## Technical exclusions\n',
    'Whatever the law allows: when a repair cannot succeed, or a person must judge it.\n',
    table(
      ['rule', 'about', 'accepted', 'otherwise', 'why', 'known from'],
      TECHNICAL_EXCLUSIONS.map((row) => [
        `\`${row.id}\``,
        aboutText(row),
        limitText(row),
        MEANS[row.means],
        row.words,
        sourceText(row),
      ]),
    ),
  ].join('\n');
}

/** Where there is no source, the provenance says so. */
const sourceText = ({ provenance, source }: TechnicalExclusion): string =>
  PROVENANCE_WORDS[provenance] === source ? source : `${PROVENANCE_WORDS[provenance]}: ${source}`;

function coverText({ covers }: RuleSet): string {
  const { vehicles, overKg, upToKg, fewerSeatsThan, use } = covers;
  return [
    vehicles === 'all' ? 'all vehicles' : vehicles.join(', '),
    ...(overKg === null ? [] : [`over ${overKg} kg`]),
    ...(upToKg === null ? [] : [`up to ${upToKg} kg`]),
    ...(fewerSeatsThan === null ? [] : [`with fewer than ${fewerSeatsThan} seats`]),
    ...(use === 'any' ? [] : ['in commercial use']),
  ].join(' ');
}

function aboutText({ about, when }: Pick<Rule, 'about' | 'when'>): string {
  const only = Object.entries(when).map(([name, wanted]) => {
    const measure = name as keyof typeof MEASURES;
    const answers = wanted.map((answer) => answerText(measure, answer)).join(', ');
    return `${MEASURES[measure].words}: ${answers}`;
  });
  return `${MEASURES[about].words}${only.length === 0 ? '' : ` (${only.join('; ')})`}`;
}

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return `${[line(heads), line(heads.map(() => '---')), ...rows.map(line)].join('\n')}\n`;
}
