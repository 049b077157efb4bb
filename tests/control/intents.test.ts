import { describe, expect, test } from 'vitest';
import { type Intent, intentOf, type Situation } from '../../src/control/intents.ts';
import { BATCH_STATES } from '../../src/core/events.ts';
import { BUTTONS } from '../../src/core/frame.ts';

const RUNNING: Situation = {
  batch: 'running',
  kind: 'confirm',
  alarm: null,
  helpOpen: false,
  asksEnd: false,
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
    ['no', { batch: 'held' }, { kind: 'ask-end' }],
    ['yes', { batch: 'held', asksEnd: true }, { kind: 'stop', by: 'person' }],
    ['no', { batch: 'held', asksEnd: true }, { kind: 'stay-held' }],
    ['yes', { batch: 'complete' }, { kind: 'end' }],
    ['no', { batch: 'aborted' }, { kind: 'refused' }],
    ['yes', { alarm: 'leak' }, { kind: 'acknowledge', alarm: 'leak' }],
    ['no', { alarm: 'leak' }, { kind: 'refused' }],
  ] as const)('%s in %j: %j', (button, change, meaning) => {
    expect(press(button, change)).toMatchObject(meaning);
  });

  test('nothing but NO counts on a screen that has stood for less than 1.5 s', () => {
    for (const button of ['yes', 'more'] as const) {
      expect(press(button, { shownS: 1.45 }).kind).toBe('refused');
      expect(press(button, { shownS: 1.5 }).kind).not.toBe('refused');
    }
  });

  test('NO holds a job that runs, however short the screen has stood, and answers nothing', () => {
    for (const kind of ['question', 'confirm', 'automatic'] as const) {
      for (const shownS of [0, 0.65, 1.45]) {
        expect(press('no', { kind, shownS }).kind).toBe('hold');
        expect(press('no', { kind, shownS, alarm: 'leak' }).kind).toBe('hold');
      }
    }
    for (const batch of BATCH_STATES.filter((state) => state !== 'running')) {
      expect(press('no', { batch, shownS: 1.45 }).kind).toBe('refused');
    }
  });

  test('an acknowledgement at most, while an alarm is on the screen', () => {
    for (const batch of BATCH_STATES) {
      for (const button of BUTTONS) {
        const { kind } = press(button, { batch, alarm: 'leak', shownS: 1.5 });
        expect(['acknowledge', 'turn-page', 'refused']).toContain(kind);
      }
    }
  });
});
