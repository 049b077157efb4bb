/**
 * The words of the certificate, one file a language. Numbers keep their units. The sentences claim
 * a process within its limits and nothing about the glass.
 */
import { filled } from '../../core/phrases.ts';
import english from '../../panel/catalogues/en/certificate.json' with { type: 'json' };

export type CertificateWords = typeof english;
export const ENGLISH_CERTIFICATE: CertificateWords = english;

/** Measures of the damage as the job sheet names them. */
export const DAMAGE_FIELDS = ['diameterMm', 'pitMm', 'legs', 'longestLegMm', 'depthMm'] as const;

/** 'simulated board'; a real one is called by its name. */
export const kindNamed = ({ kinds }: CertificateWords, kind: string): string =>
  (kinds as Readonly<Record<string, string>>)[kind] ?? kind;

/** 'a simulated board'. */
export function boardNamed({ boards }: CertificateWords, kind: string): string {
  const { other, ...known } = boards;
  return (known as Readonly<Record<string, string>>)[kind] ?? filled(other, { kind });
}
