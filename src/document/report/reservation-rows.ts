/**
 * The reservations, for the report and the terminal: the verdict with its headlines, the evidence
 * for each, and the bottles whose resin was used.
 */

import type { ReportData } from '../../report/report-data.ts';
import { headlineOf, joinOf } from '../../report/reservations.ts';
import { capital } from '../../report/words.ts';
import type { Block } from '../blocks.ts';

/** 'process within its limits, but the resin was past its date'. */
export const verdictHeadline = ({
  verdict: { process },
  reservations,
}: Pick<ReportData, 'verdict' | 'reservations'>): string =>
  headlineOf(
    process === 'process within its limits, with reservations'
      ? 'process within its limits'
      : process,
    reservations.map(({ headline }) => headline),
    joinOf(process),
  );

export const reservationsTable = ({ reservations }: ReportData): Block => ({
  kind: 'table',
  heads: ['Reservation', 'Evidence'],
  empty:
    'No check was set aside, no resin was past its date, and no finding contradicts what was stated.',
  rows: reservations.map(({ headline, support }) => [capital(headline), support.join('\n')]),
});

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
