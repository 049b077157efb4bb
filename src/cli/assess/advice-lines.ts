/**
 * Advice as plain text for a terminal of 80 columns: what to do first, which bottle, which
 * set-points, and why.
 */
import type { Advice, ResinAdvice } from '../../intake/advice/advice.ts';
import { wrapped } from '../terminal/text-columns.ts';

const HEAD: Readonly<Record<Advice['answer'], string>> = {
  go: 'Advice: the repair can begin.',
  first: 'Advice: not yet. First:',
  decide: 'Advice for the person who must decide; no work begins before that.',
  person: 'Advice: a person must decide; no profile can be advised.',
};

export function adviceLines(advice: Advice): readonly string[] {
  const { lowestC, highestC } = advice.window;
  return [
    HEAD[advice.answer],
    ...advice.first.flatMap(({ weight, words }) =>
      wrapped(`${weight === 'must' ? '!' : '-'} ${words}`, 2, 4),
    ),
    `Glass: ${lowestC} to ${highestC} C.`,
    ...(advice.wanted === null
      ? []
      : [
          `Resin: ${milli(advice.wanted.leastPaS)} to ${milli(advice.wanted.mostPaS)} mPa s on this glass.`,
        ]),
    ...advice.resins.flatMap((resin, index) => resinLines(resin, index === advice.take)),
    ...profileLines(advice),
    ...(advice.reasons.length === 0 ? [] : ['Why:']),
    ...advice.reasons.flatMap((reason) => wrapped(`- ${reason}`, 2, 4)),
  ];
}

const milli = (paS: number): string => (paS * 1000).toFixed(0);

function resinLines(
  { name, lot, viscosityPaS, remarks, suits }: ResinAdvice,
  taken: boolean,
): readonly string[] {
  const state = taken ? 'use this one' : suits ? 'also suitable' : 'not suitable';
  const thickness = viscosityPaS === null ? '' : `, ${milli(viscosityPaS)} mPa s here`;
  return [
    ...wrapped(`${name}, lot ${lot}${thickness}: ${state}`, 2, 4),
    ...remarks.flatMap(({ words }) => wrapped(`- ${words}`, 4, 6)),
  ];
}

function profileLines({ profile }: Advice): readonly string[] {
  if (profile === null) return [];
  const at = (section: string, field: string): unknown =>
    (profile.file[section] as Readonly<Record<string, unknown>>)[field];
  return [
    `Profile: vacuum ${at('vacuum', 'setPointKPaAbs')} kPa abs for ${at('vacuum', 'dwellS')} s, then ${at('pressure', 'setPointKPaGauge')} kPa above`,
    `  ambient for ${at('pressure', 'dwellS')} s, ${at('cycles', 'planned')} cycles; cure ${Number(at('cure', 'targetAtResinMJPerCm2')) / 1000} J/cm2, or more if the depth requires it.`,
  ];
}
