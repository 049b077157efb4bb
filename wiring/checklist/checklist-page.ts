/** The printed checklist: what to do, what the unit does, what to expect, and a box to tick. */
import type { Step } from './step.ts';

const HEAD = `# Bring-up checklist

For a freshly wired unit, in this order. Made from \`checklist.ts\`; \`meniscus bench\` walks through the same steps and judges them itself. Stop at the first step that fails: the steps after it rely on it. Limits are demo values for the demo unit.

Unit: ______________  Date: ______________  Name: ______________
`;

function stepText(step: Step, index: number): string {
  const caution = step.caution === null ? [] : [`**Caution: ${step.caution}**`, ''];
  const question = step.question === null ? [] : [`- Question: ${step.question}`];
  return [
    `## ${index + 1}. ${step.title}`,
    '',
    ...caution,
    `- [ ] ${step.todo}`,
    `- The unit: ${step.meanwhile}`,
    `- Expect within ${step.timeoutS} s: ${step.expected}`,
    ...question,
    `- If not: ${step.onFailure}`,
    '',
  ].join('\n');
}

export const checklistPage = (steps: readonly Step[]): string =>
  [HEAD, ...steps.map(stepText)].join('\n');
