import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { askQuestions } from '../../../src/cli/assess/ask.ts';
import { WHOLE_CONVERSATION } from '../../intake/said.ts';

const CONTEXT = { today: '2000-01-02', ruleSets: [{ id: 'one', name: 'The first' }] };

/** A person who types these lines and then goes away. */
async function converse(lines: readonly string[]) {
  const input = new PassThrough();
  const output = new PassThrough();
  let printed = '';
  output.on('data', (data) => {
    printed += data;
  });
  const asked = askQuestions({ input, output }, {}, CONTEXT);
  input.end(lines.map((line) => `${line}\n`).join(''));
  return { ...(await asked), printed };
}

describe('questions at a terminal', () => {
  test('are asked until all are answered', async () => {
    const { end, answers, printed } = await converse(WHOLE_CONVERSATION);
    expect(end).toBe('complete');
    expect(answers).toMatchObject({ reference: 'van-7', 'pane.widthMm': 1397, notes: '' });
    expect(printed).toContain('u: don’t know.  ?: help.  <: one question back.');
    expect(printed).toContain('Which rules apply where the vehicle is used?\n  1  The first\n');
  });

  test('lines typed after the end are not heard', async () => {
    const { end, answers } = await converse([...WHOLE_CONVERSATION, '<', 'other']);
    expect(end).toBe('complete');
    expect(answers).toMatchObject({ reference: 'van-7' });
  });

  test('a person who goes away leaves it unfinished', async () => {
    const { end } = await converse(WHOLE_CONVERSATION.slice(0, -1));
    expect(end).toBe('gone');
  });

  test('save hands back what was answered', async () => {
    const { end, answers } = await converse(['van-7', 'save', 'today']);
    expect(end).toBe('saved');
    expect(answers).toEqual({ reference: 'van-7' });
  });
});
