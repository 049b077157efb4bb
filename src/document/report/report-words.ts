/**
 * The words of the report, one file a language. What a record holds is data, sayings, and sentences
 * that journals keep in English; the tongue of the language words those.
 */
import type { Measurement } from '../../core/measurements.ts';
import english from '../../panel/catalogues/en/report.json' with { type: 'json' };

export type ReportWords = typeof english;
/** Every measurement has a name. */
export const ENGLISH_REPORT: ReportWords & {
  readonly measured: { readonly names: Readonly<Record<Measurement, string>> };
} = english;
