import { describe, expect, test } from 'vitest';
import { BATCH_STATES } from '../src/events.ts';
import { BUTTONS } from '../src/frame.ts';
import { type Intent, intentOf, type Situation } from '../src/intents.ts';

const RUNNING: Situation = {
  batch: 'running',
  kind: 'confirm',
  alarm: null,
  helpOpen: false,
  shownS: 5,
};
const press = (button: 'yes' | 'no' | 'more', change: Partial<Situation> = {}): Intent =>
  intentOf({ kind: 'button', button }, { ...RUNNING, ...change });

describe('a button means', () => {
  test.each([
    ['yes', {}, { kind: 'answer', answer: 'yes' }],
    ['no', {}, { kind: 'hold' }],
    ['yes', { kind: 'question' }, { kind: 'answer', answer: 'yes' }],
    ['no', { kind: 'question' }, { kind: 'answer', answer: 'no' }],
    ['no', { kind: 'automatic' }, { kind: 'hold' }],
    ['yes', { kind: 'automatic' }, { kind: 'refused' }],
    ['no', { kind: 'question', helpOpen: true }, { kind: 'hold' }],
    ['yes', { kind: 'question', helpOpen: true }, { kind: 'close-help' }],
    ['more', {}, { kind: 'turn-page' }],
    ['yes', { batch: 'held' }, { kind: 'restart' }],
    ['no', { batch: 'held' }, { kind: 'stop', by: 'person' }],
    ['yes', { batch: 'complete' }, { kind: 'end' }],
    ['no', { batch: 'aborted' }, { kind: 'refused' }],
    ['yes', { alarm: 'leak' }, { kind: 'acknowledge', alarm: 'leak' }],
    ['no', { alarm: 'leak' }, { kind: 'refused' }],
  ] as const)('%s in %j: %j', (button, change, meaning) => {
    expect(press(button, change)).toMatchObject(meaning);
  });

  test('nothing while the screen has not been up long enough to be read', () => {
    for (const button of BUTTONS) {
      expect(press(button, { shownS: 0.2 }).kind).toBe('refused');
      expect(press(button, { shownS: 0.25 }).kind).not.toBe('refused');
    }
  });

  test('an acknowledgement at most, while an alarm is on the screen', () => {
    for (const batch of BATCH_STATES) {
      for (const button of BUTTONS) {
        const { kind } = press(button, { batch, alarm: 'leak' });
        expect(['acknowledge', 'turn-page', 'refused']).toContain(kind);
      }
    }
  });
});
