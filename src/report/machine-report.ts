/**
 * The report's data as `report.json` holds them: without the sayings behind its English lines,
 * which serve pages in another language.
 */
import type { Claim } from './claims/claim-table.ts';
import type { ReportData } from './report-data.ts';

export const machineClaims = (claims: readonly Claim[]) =>
  claims.map(({ support, objections, ...claim }) => ({
    ...claim,
    support: support.map(({ said: _, ...one }) => one),
    objections: objections.map(({ said: _, ...one }) => one),
  }));

/** The fields keep their order. */
export const machineReport = (report: ReportData) => ({
  ...report,
  claims: machineClaims(report.claims),
});
