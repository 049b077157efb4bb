/**
 * The intake sheet of a job, at the rim: assesses it, compares the job sheet with it, and lists the
 * objections to starting. `src/intake/` holds the rules and their meaning.
 */

import type { Checked, SettingsProblem } from '../../core/settings.ts';
import type { DrawingWords } from '../../intake/drawing/drawing-words.ts';
import { paneDrawing } from '../../intake/drawing/pane-drawing.tsx';
import { legLimitOf } from '../../intake/rules/grown-leg.ts';
import { reasonLines } from '../../intake/rules/rule-words.ts';
import type { IntakeSheet } from '../../intake/sheet/intake-sheet.ts';
import type { JobSheet } from '../../intake/sheet/job-sheet.ts';
import { assessmentFactsOf } from './assessment-facts.ts';
import { assessmentOf } from './assessment-of.ts';
import type { JobFacts } from './job-facts.ts';

export interface JobIntake {
  readonly about: NonNullable<JobFacts['intake']>;
  /** Objections to starting; empty where rules allow the repair and it is feasible. */
  readonly against: readonly string[];
}

export interface IntakeSource {
  readonly file: string;
  readonly raw: unknown;
}

export function jobIntake(
  { raw, file }: IntakeSource,
  job: JobSheet,
  jobFile: string,
  today: string,
  words: DrawingWords,
): Checked<JobIntake> {
  const assessed = assessmentOf(raw, [], file, today, words);
  if (!assessed.ok) return assessed;
  const { sheet, ruleSets, assessment, drawingSvg } = assessed.value;
  const differing = differences(sheet, file, job, jobFile);
  if (differing.length > 0) return { ok: false, problems: differing };
  const briefSvg = paneDrawing(sheet, ruleSets, words, 'brief');
  const facts = assessmentFactsOf(assessment, ruleSets);
  const reasons = [...assessment.reasons, ...assessment.technical.reasons];
  const clear = assessment.answer === 'allowed' && assessment.technical.answer === 'can';
  return {
    ok: true,
    value: {
      about: {
        sheet: raw,
        assessment: facts,
        drawingSvg,
        briefSvg,
        legLimit: legLimitOf(sheet, ruleSets),
      },
      against: clear
        ? []
        : [
            `${assessment.answer}, technically ${assessment.technical.answer}`,
            ...reasons.map((reason) => reasonLines(reason).join('; ')),
          ],
    },
  };
}

/** Both describe one break of one vehicle: where both state an answer they must agree. */
function differences(
  { reference, damage }: IntakeSheet,
  file: string,
  job: JobSheet,
  jobFile: string,
): readonly SettingsProblem[] {
  const mm = (metres: number | null): number | null =>
    metres === null ? null : Math.round(metres * 1e6) / 1e3;
  const stated = {
    type: job.damage.type,
    diameterMm: mm(job.damage.diameterM),
    pitMm: mm(job.damage.pitM),
    legs: job.damage.legs,
    longestLegMm: mm(job.damage.longestLegM),
    depthMm: mm(job.damage.depthM),
  } as const;
  const problem = (path: string, value: unknown, answer: unknown): SettingsProblem => ({
    file: jobFile,
    path,
    value: JSON.stringify(value),
    accepted: `${JSON.stringify(answer)}, as ${file} states for the same break`,
  });
  const other = reference === job.reference ? [] : [problem('reference', job.reference, reference)];
  const differing = Object.entries(stated).flatMap(([name, value]) => {
    const answer = damage[name as keyof typeof stated];
    if (value === null || answer === 'unknown' || answer === value) return [];
    return [problem(`damage.${name}`, value, answer)];
  });
  return [...other, ...differing];
}
