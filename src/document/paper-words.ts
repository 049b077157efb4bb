/** Everything that words a record's papers in one language. */

import type { Tongue } from '../core/sayings.ts';
import {
  type ClaimWords,
  ENGLISH_CLAIMS,
  ENGLISH_RECORD,
  ENGLISH_TONGUE,
  type RecordWords,
} from '../report/language.ts';
import { type CertificateWords, ENGLISH_CERTIFICATE } from './certificate/certificate-words.ts';
import { ENGLISH_REPORT, type ReportWords } from './report/report-words.ts';

export interface PaperWords {
  readonly certificate: CertificateWords;
  readonly claims: ClaimWords;
  readonly record: RecordWords;
  readonly report: ReportWords;
  readonly tongue: Tongue;
}

export const ENGLISH_PAPERS: PaperWords = {
  certificate: ENGLISH_CERTIFICATE,
  claims: ENGLISH_CLAIMS,
  record: ENGLISH_RECORD,
  report: ENGLISH_REPORT,
  tongue: ENGLISH_TONGUE,
};
