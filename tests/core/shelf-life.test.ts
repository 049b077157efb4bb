import { describe, expect, it } from 'vitest';
import { isExpired, isOpenedTooLong, usableUntil } from '../../src/core/shelf-life.ts';

const life = { expiresOn: '2000-12-31', openedOn: null, usableAfterOpeningDays: 31 };
const opened = { ...life, openedOn: '2000-01-01' };

describe('a bottle of resin', () => {
  it('may be used until it expires or has been open too long, whichever comes first', () => {
    expect(usableUntil(life)).toBe('2000-12-31');
    expect(usableUntil(opened)).toBe('2000-02-01');
    expect(usableUntil({ ...opened, openedOn: '2000-12-15' })).toBe('2000-12-31');
  });

  it('may still be used on its last day and not on the next', () => {
    expect(['2000-12-31', '2001-01-01'].map((day) => isExpired(life, day))).toEqual([false, true]);
    expect(['2000-02-01', '2000-02-02'].map((day) => isOpenedTooLong(opened, day))).toEqual([
      false,
      true,
    ]);
    expect(isOpenedTooLong(life, '2000-12-31')).toBe(false);
  });
});
