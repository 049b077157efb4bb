/**
 * The files of an assessment: sheet, assessment, drawing and page in one folder. Existing files are
 * never overwritten, and each file gets a temporary name first, so that none is ever half-written.
 */
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { namedFileProblem, writeNamed } from '../../app/papers/named-file.ts';
import { type Assessed, assessmentPage } from '../../app/prepare/assessment-page.ts';
import type { SettingsProblem } from '../../core/settings.ts';
import { renderHtml } from '../../document/html.tsx';
import { makePrivateFolder } from '../../journal/private-file.ts';

const NAMES = ['intake.json', 'assessment.json', 'pane.svg', 'assessment.html'] as const;
/** For `meniscus run`, where something is advised. */
const JOB_NAMES = ['profile.json', 'job.json'] as const;
const DRAFT = 'intake-part';

/** Why an assessment must not be written there. */
export function inTheWay(folder: string): readonly SettingsProblem[] {
  const accepted = 'a folder without an assessment, outside the records';
  return [...NAMES, ...JOB_NAMES].flatMap((name) => {
    const place = { option: '--out', records: null, force: false, accepted };
    return namedFileProblem(join(folder, name), place) ?? [];
  });
}

/** The folder for an assessment where none was named. */
export function freeFolder(reference: string): string {
  const plain = reference.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '') || 'sheet';
  const base = join('assessments', plain);
  let folder = base;
  for (let count = 2; existsSync(folder); count += 1) folder = `${base}-${count}`;
  return folder;
}

export function writeAssessment(
  folder: string,
  raw: unknown,
  assessed: Assessed,
  today: string,
): readonly string[] {
  const { sheet, ruleSets, assessment, drawingSvg } = assessed;
  const named = ruleSets.map(({ id, jurisdiction, name, edition, outOfForce }) => ({
    id,
    jurisdiction,
    name,
    edition,
    outOfForce,
  }));
  const data = {
    schema: 'meniscus/assessment@1',
    reference: sheet.reference,
    assessedOn: today,
    ruleSets: named,
    ...assessment,
  };
  const contents: Readonly<Record<(typeof NAMES)[number], string>> = {
    'intake.json': jsonText(raw),
    'assessment.json': jsonText(data),
    'pane.svg': `${drawingSvg}\n`,
    'assessment.html': renderHtml(assessmentPage(assessed, today)),
  };
  makePrivateFolder(folder);
  return NAMES.map((name) => writeWhole(join(folder, name), contents[name]));
}

export const writeJobFiles = (
  folder: string,
  files: Readonly<Record<string, unknown>>,
): readonly string[] =>
  JOB_NAMES.filter((name) => name in files).map((name) =>
    writeWhole(join(folder, name), jsonText(files[name])),
  );

/** Into the draft that was continued, or into a new one. */
export function writeDraft(draft: unknown, from: string | null, folder: string): string {
  if (from !== null) return writeWhole(from, jsonText(draft));
  let path = join(folder, `${DRAFT}.json`);
  for (let count = 2; existsSync(path); count += 1) path = join(folder, `${DRAFT}-${count}.json`);
  makePrivateFolder(dirname(path));
  return writeWhole(path, jsonText(draft));
}

const jsonText = (data: unknown): string => `${JSON.stringify(data, null, 2)}\n`;

function writeWhole(path: string, content: string): string {
  writeNamed(path, content);
  return path;
}
