import { describe, expect, test } from 'vitest';
import {
  holdStaysDown,
  type Intent,
  intentOf,
  type Situation,
  withHoldFirst,
} from '../../src/control/intents.ts';
import { BATCH_STATES } from '../../src/core/events.ts';
import type { Button } from '../../src/core/frame.ts';

const RUNNING: Situation = {
  batch: 'running',
  kind: 'confirm',
  alarm: null,
  helpOpen: false,
  asks: null,
  mustEnd: false,
  shownS: 5,
};
const press = (button: Button, change: Partial<Situation> = {}): Intent =>
  intentOf({ kind: 'button', button }, { ...RUNNING, ...change });

const OTHERS = ['yes', 'no', 'more'] as const;
const KINDS = ['automatic', 'confirm', 'question', 'entry'] as const;
const LIVE = ['idle', 'running', 'holding', 'held', 'restarting'] as const;

describe('a button means', () => {
  test.each([
    ['yes', {}, { kind: 'answer', answer: 'yes' }],
    ['no', {}, { kind: 'refused' }],
    ['yes', { kind: 'question' }, { kind: 'answer', answer: 'yes' }],
    ['no', { kind: 'question' }, { kind: 'answer', answer: 'no' }],
    ['no', { kind: 'automatic' }, { kind: 'refused' }],
    ['yes', { kind: 'automatic' }, { kind: 'refused' }],
    ['no', { kind: 'question', helpOpen: true }, { kind: 'refused' }],
    ['yes', { kind: 'question', helpOpen: true }, { kind: 'close-help' }],
    ['more', {}, { kind: 'turn-page' }],
    ['yes', { batch: 'held' }, { kind: 'restart' }],
    ['no', { batch: 'held' }, { kind: 'ask-end' }],
    ['yes', { batch: 'held', mustEnd: true }, { kind: 'refused' }],
    ['no', { batch: 'held', mustEnd: true }, { kind: 'ask-end' }],
    ['yes', { batch: 'held', asks: 'end' }, { kind: 'stop', by: 'person' }],
    ['yes', { batch: 'held', asks: 'end', mustEnd: true }, { kind: 'stop', by: 'person' }],
    ['no', { batch: 'held', asks: 'end' }, { kind: 'stay-held' }],
    ['yes', { batch: 'held', asks: 'leg-grew' }, { kind: 'say-why', answer: 'yes' }],
    ['no', { batch: 'held', asks: 'resin-inside' }, { kind: 'say-why', answer: 'no' }],
    ['more', { batch: 'held', asks: 'leg-grew' }, { kind: 'turn-page' }],
    ['yes', { batch: 'complete' }, { kind: 'end' }],
    ['no', { batch: 'aborted' }, { kind: 'refused' }],
    ['yes', { alarm: 'leak' }, { kind: 'acknowledge', alarm: 'leak' }],
    ['no', { alarm: 'leak' }, { kind: 'refused' }],
  ] as const)('%s in %j: %j', (button, change, meaning) => {
    expect(press(button, change)).toMatchObject(meaning);
  });

  test.each([
    ['no', {}, 'nothing was asked that it answers'],
    ['yes', { kind: 'automatic' }, 'nothing was asked that it answers'],
    ['no', { kind: 'question', helpOpen: true }, 'help is open'],
    ['yes', { batch: 'held', mustEnd: true }, 'this job can only be ended'],
    ['no', { batch: 'complete' }, 'the job is over'],
    ['no', { alarm: 'leak' }, 'an alarm is on the screen'],
    ['yes', { batch: 'holding' }, 'the job is holding'],
    ['yes', { batch: 'restarting' }, 'the job is restarting'],
    ['yes', { shownS: 1.4 }, 'pressed before the screen could be read'],
    ['hold', { batch: 'complete' }, 'the job is over and made safe'],
    ['hold', { batch: 'stopping' }, 'the job is over and made safe'],
    ['hold', { batch: 'aborting' }, 'the job is over and made safe'],
  ] as const)('nothing for %s in %j, and why is on record: %s', (button, change, why) => {
    expect(press(button, change)).toEqual({ kind: 'refused', request: button, why });
  });

  test('nothing for a number that nobody asked for', () => {
    const enter = { kind: 'enter', valueSI: 3 } as const;
    expect(intentOf(enter, RUNNING)).toEqual({
      kind: 'refused',
      request: 'number',
      why: 'no number is asked for',
    });
    expect(intentOf(enter, { ...RUNNING, kind: 'entry' })).toEqual(enter);
  });

  test('who held it, by button or console', () => {
    expect(press('hold')).toEqual({ kind: 'hold', why: 'HOLD was pressed.' });
    const asked = intentOf({ kind: 'hold' }, RUNNING);
    expect(asked).toEqual({ kind: 'hold', why: 'Held from the console.' });
  });

  test('nothing is read on a screen that has stood for less than 1.5 s, HOLD aside', () => {
    for (const batch of BATCH_STATES) {
      for (const kind of ['automatic', 'confirm', 'question'] as const) {
        for (const button of OTHERS) {
          expect(press(button, { batch, kind, shownS: 1.45 }).kind).toBe('refused');
        }
      }
    }
    expect(press('yes', { shownS: 1.5 }).kind).toBe('answer');
  });

  test('an acknowledgement at most, while an alarm is on the screen, HOLD aside', () => {
    for (const batch of BATCH_STATES) {
      for (const button of OTHERS) {
        const { kind } = press(button, { batch, alarm: 'leak', shownS: 1.5 });
        expect(['acknowledge', 'turn-page', 'refused']).toContain(kind);
      }
    }
  });
});

describe('HOLD', () => {
  test('holds on every screen of a job that is not over, however short it has stood', () => {
    for (const batch of LIVE) {
      for (const kind of KINDS) {
        for (const change of [
          {},
          { alarm: 'leak' },
          { helpOpen: true },
          { asks: 'end' },
        ] as const) {
          for (const shownS of [0, 0.05, 0.75, 5]) {
            expect(press('hold', { batch, kind, shownS, ...change })).toMatchObject({
              kind: 'hold',
              why: 'HOLD was pressed.',
            });
          }
        }
      }
    }
  });

  test('is told to be too late in a job that is over or ending: it is safe', () => {
    for (const batch of BATCH_STATES.filter((state) => !LIVE.some((live) => live === state))) {
      expect(press('hold', { batch }).kind).toBe('refused');
    }
  });

  test('alone is heeded when it is pressed together with others, but for an end', () => {
    const hold = press('hold');
    const stop: Intent = { kind: 'stop', by: 'interrupt', why: 'Ended by SIGINT.' };
    const others = [press('yes'), press('yes', { batch: 'held' }), press('more')];
    expect(withHoldFirst([...others, hold, ...others])).toEqual([hold]);
    expect(withHoldFirst([hold, stop])).toEqual([hold, stop]);
    expect(withHoldFirst(others)).toEqual(others);
  });

  test('that stays down holds what would run, and asks no more than once', () => {
    expect(BATCH_STATES.filter((batch) => holdStaysDown('hold', batch))).toEqual([
      'idle',
      'running',
      'restarting',
    ]);
    for (const ladder of [null, 'released', 'yes', 'no', 'more', 'between', 'open'] as const) {
      expect(holdStaysDown(ladder, 'running')).toBe(false);
    }
  });
});
