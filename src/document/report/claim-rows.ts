/**
 * The claims for the report and the terminal: the verdict with what stands against it, each claim
 * with its state and its support, what no record can show, and the bottles whose resin was used.
 */

import { CANNOT_SHOW } from '../../report/claims/cannot-show.ts';
import type { ClaimState } from '../../report/claims/claim.ts';
import type { Claim } from '../../report/claims/claim-table.ts';
import { type ClaimWords, ENGLISH_CLAIMS, headline } from '../../report/language.ts';
import type { ReportData } from '../../report/report-data.ts';
import { joinOf, objectionsBeside } from '../../report/verdict.ts';
import { type Block, GRADE_MARKS } from '../blocks.ts';

/** 'process within its limits, but the resin was past its date'. */
export const verdictHeadline = (
  { verdict, claims }: Pick<ReportData, 'verdict' | 'claims'>,
  words: ClaimWords,
): string =>
  headline(
    words.headline,
    words.verdicts[verdict.process],
    objectionsBeside(verdict, claims).map(({ id }) => words.objections[id]),
    joinOf(verdict.process),
  );

/** A mark and a word, so that no state is told by colour. */
const STATE_WORDS: Readonly<Record<ClaimState, string>> = {
  shown: `${GRADE_MARKS.good}\u00a0shown`,
  'not shown': `${GRADE_MARKS.caution}\u00a0NOT\u00a0SHOWN`,
  'not met': `${GRADE_MARKS.bad}\u00a0NOT\u00a0MET`,
};

export const claimsTable = ({ claims }: ReportData): Block => ({
  kind: 'table',
  wide: true,
  caption:
    'A claim is shown where everything that it needs was seen and nothing speaks against it. The verdict is no better than the worst of them.',
  heads: ['Claim', 'State', 'What was seen, and by what'],
  empty: 'No claim is made.',
  rows: claims.map((claim) => [
    titleOf(claim),
    STATE_WORDS[claim.state],
    linesOf(claim).join('\n'),
  ]),
});

export const titleOf = ({ title, portion }: Claim): string =>
  portion === null || portion === 'fill and pit' ? title : `${title}, ${portion}`;

/** First what stands against it, then what supports it. */
const linesOf = ({ objections, support }: Claim): readonly string[] => [
  ...objections.flatMap(({ headline, lines }) => [
    `Against: ${headline}`,
    ...lines.map((line) => `– ${line}`),
  ]),
  ...support.map(({ by, line }) => `By ${by}: ${line}`),
];

export const cannotShow: Block = {
  kind: 'list',
  items: CANNOT_SHOW.map((id) => ENGLISH_CLAIMS.cannotShow[id].words),
};

export const bottlesTable = ({ bottles }: ReportData): Block => ({
  kind: 'table',
  caption: 'Resin bottles, as their files state them.',
  heads: ['For', 'Name', 'Lot', 'Expires on', 'Opened on', 'Usable once opened'],
  empty: 'No bottle file was given; the job sheet names the resin.',
  rows: (['fill', 'pit'] as const).flatMap((use) => {
    const bottle = bottles[use];
    if (bottle === null) return [];
    const { name, lot, shelfLife } = bottle;
    if (shelfLife === null) return [[use, name, lot, 'not stated', 'not stated', 'not stated']];
    const { expiresOn, openedOn, usableAfterOpeningDays } = shelfLife;
    const usable = `${usableAfterOpeningDays} days`;
    return [[use, name, lot, expiresOn, openedOn ?? 'sealed', usable]];
  }),
});
