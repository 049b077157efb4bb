/**
 * The claims for the report and the terminal: the verdict with what stands against it, each claim
 * with its state and its support, what no record can show, and the bottles whose resin was used.
 */

import { countedForm } from '../../core/language-file.ts';
import { filled } from '../../core/phrases.ts';
import { said } from '../../core/sayings.ts';
import { CANNOT_SHOW } from '../../report/claims/cannot-show.ts';
import type { ClaimState } from '../../report/claims/claim.ts';
import type { Claim } from '../../report/claims/claim-table.ts';
import { type ClaimWords, headline } from '../../report/language.ts';
import type { ReportData } from '../../report/report-data.ts';
import { joinOf, objectionsBeside } from '../../report/verdict.ts';
import { type Block, GRADE_MARKS } from '../blocks.ts';
import type { PaperWords } from '../paper-words.ts';
import { fieldText } from './field-text.ts';

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
const STATE_MARKS: Readonly<Record<ClaimState, string>> = {
  shown: GRADE_MARKS.good,
  'not shown': GRADE_MARKS.caution,
  'not met': GRADE_MARKS.bad,
};

export const claimsTable = ({ claims: rows }: ReportData, words: PaperWords): Block => {
  const { claims } = words.report;
  return {
    kind: 'table',
    wide: true,
    caption: claims.about,
    heads: [claims.claim, claims.state, claims.seen],
    empty: claims.noClaim,
    rows: rows.map((claim) => [
      titleOf(claim, words),
      `${STATE_MARKS[claim.state]} ${claims.states[claim.state]}`.replaceAll(' ', '\u00a0'),
      linesOf(claim, words).join('\n'),
    ]),
  };
};

const titleOf = ({ id, portion, field = null }: Claim, words: PaperWords): string => {
  const { claims, portions } = words.claims;
  return [
    claims[id].title,
    ...(portion === null || portion === 'fill and pit' ? [] : [portions[portion]]),
    ...(field === null ? [] : [fieldText(field, words)]),
  ].join(', ');
};

/** First what stands against it, then what supports it. */
function linesOf(
  { objections, support }: Claim,
  { report, claims, tongue }: PaperWords,
): readonly string[] {
  return [
    ...objections.flatMap((objection) => [
      filled(report.claims.against, { headline: claims.objections[objection.id] }),
      ...objection.said.map((line) => `– ${said(line, tongue)}`),
    ]),
    ...support.map(({ by, said: line }) =>
      filled(report.claims.by, { witness: claims.witnesses[by], line: said(line, tongue) }),
    ),
  ];
}

export const cannotShow = ({ claims }: PaperWords): Block => ({
  kind: 'list',
  items: CANNOT_SHOW.map((id) => claims.cannotShow[id].words),
});

export const bottlesTable = ({ bottles: files }: ReportData, words: PaperWords): Block => {
  const { bottles, said: texts, language } = words.report;
  return {
    kind: 'table',
    caption: bottles.about,
    heads: [
      bottles.for,
      bottles.name,
      bottles.lot,
      bottles.expires,
      bottles.opened,
      bottles.usable,
    ],
    empty: bottles.noFile,
    rows: (['fill', 'pit'] as const).flatMap((use) => {
      const bottle = files[use];
      if (bottle === null) return [];
      const { name, lot, shelfLife } = bottle;
      const bottleFor = words.claims.portions[use];
      const none = texts.notStated;
      if (shelfLife === null) return [[bottleFor, name, lot, none, none, none]];
      const { expiresOn, openedOn, usableAfterOpeningDays: days } = shelfLife;
      const usable = filled(countedForm(bottles.days, days, language), { count: String(days) });
      return [[bottleFor, name, lot, expiresOn, openedOn ?? bottles.sealed, usable]];
    }),
  };
};
