import { expect, test } from 'vitest';
import { PHASE_IDS } from '../../../src/core/phases.ts';
import { ENGLISH_REPORT } from '../../../src/document/report/report-words.ts';
import { PHASE_TABLE } from '../../../src/procedure/repair/phase-table.ts';

// Without words of its own the record would call a NO to it "Step done".
test('the record words every question that a repair asks', () => {
  const questions = PHASE_IDS.filter((phase) => PHASE_TABLE[phase].kind === 'question');
  expect(questions).toContain('ask-clear');
  expect(questions.filter((phase) => !(phase in ENGLISH_REPORT.questions))).toEqual([]);
});
