import { expect, test } from 'vitest';
import { alarmPages } from '../../src/panel/page-words.ts';
import { ENGLISH, SPANISH } from './catalogues.ts';

const STUCK = {
  id: 'button-stuck',
  action: 'hold',
  expected: { say: 'at-most', with: { amount: { say: 'time', with: { value: '10.0' } } } },
  seen: {
    say: 'button-down',
    with: { button: 'HOLD', time: { say: 'time', with: { value: '10.1' } } },
  },
} as const;

test('the alarm of a button that stays down calls it by the label that the language gives it', () => {
  const shown = [ENGLISH, SPANISH].map((catalogue) =>
    alarmPages(STUCK, catalogue).flat().join(' '),
  );
  expect(shown[0]).toContain('HOLD');
  expect(shown[1]).toContain('ALTO');
  expect(shown[1]).not.toContain('HOLD');
});
