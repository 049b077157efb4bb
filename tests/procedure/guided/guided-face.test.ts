/** What the display of a guided procedure shows, through the controller. */
import { describe, expect, test } from 'vitest';
import type { Button } from '../../../src/core/frame.ts';
import type { StepId } from '../../../src/core/guided-events.ts';
import type { Guided } from '../../../src/procedure/guided/guided-state.ts';
import { pass, type Scene, tick, type Unit } from '../../steered-unit.ts';
import { guidedIn } from '../../steering.ts';

const readIn = (step: StepId, scene: Scene = {}): Unit<Guided> => pass(guidedIn(step), 2, scene);
const press = (unit: Unit<Guided>, button: Button): Unit<Guided> =>
  pass(tick(unit, { pressed: [button] }), 0.5);
const displayOf = ({ state }: Unit<Guided>): readonly string[] => state.shown.signals.display;

/** Each page behind MORE, from the first until it comes again. */
function pagesOf(unit: Unit<Guided>): readonly string[] {
  const texts: string[] = [];
  let now = press(unit, 'more');
  for (let n = 0; n < 12; n++) {
    const text = displayOf(now).slice(1, 3).join('|');
    if (texts.includes(text)) return texts;
    texts.push(text);
    now = press(now, 'more');
  }
  return texts;
}

describe('the display of a guided procedure', () => {
  test('shows the mark and title of its step, its lines, and what the buttons do', () => {
    const [first, second, third, fourth] = displayOf(readIn('gauge-join'));
    expect(first).toMatch(/^P2 /);
    expect(second).not.toBe('');
    expect(third).not.toBe('');
    expect(fourth).toContain('YES=ok');
  });

  test('shows the mean of what it reads with the time of the step while it reads', () => {
    const [, live = ''] = displayOf(readIn('air-settle'));
    const [, kPa] = /^(\d+\.\d\d) kPa abs +[12] s$/.exec(live) ?? [];
    // The air of this unit, within half a step of its converter: 400 kPa over 1023.
    expect(Math.abs(Number(kPa) - 100.6)).toBeLessThan(0.2);
  });

  test('says that nothing is read where nothing is', () => {
    const [, live = ''] = displayOf(pass(guidedIn('air-settle'), 0.3, { counts: { pressure: 0 } }));
    expect(live).toMatch(/^no reading +0 s$/);
  });

  test('shows the number that is dialled, which NO lowers and MORE raises', () => {
    const unit = readIn('air-enter');
    const numberOf = (now: Unit<Guided>): number =>
      Number(/^> (\d+\.\d+) kPa/.exec(displayOf(now)[1] ?? '')?.[1]);
    const start = numberOf(unit);
    expect(start).toBeCloseTo(100.6, 0);
    expect(numberOf(press(unit, 'more'))).toBeGreaterThan(start);
    expect(numberOf(press(unit, 'no'))).toBeLessThan(start);
    expect(displayOf(unit)[3]).toBe('NO-  YES=take  MORE+');
  });

  test('asks whether to keep the result, and shows its first two lines', () => {
    const [first, second, third, fourth] = displayOf(readIn('pressure-result'));
    expect(first).toMatch(/^P14 /);
    expect(second?.trim()).toBe('Passed');
    expect(third).toMatch(/^Add at 101 +[+-]\d\.\d\d kPa$/);
    expect(fourth).toBe('YES=keep NO=no  MORE');
  });

  test('shows all lines of the result behind MORE, and after them what they mean', () => {
    const pages = pagesOf(readIn('pressure-result'));
    expect(pages[0]).toMatch(/^Passed *\|Add at 101 /);
    expect(pages[1]).toMatch(/^Add at \d+ .*\|Standard u /);
    expect(pages.length).toBeGreaterThan(2);
  });

  test('shows the explanation alone behind MORE of another step, and no result', () => {
    const pages = pagesOf(readIn('gauge-join'));
    expect(pages.length).toBeGreaterThan(0);
    for (const page of pages) expect(page).not.toMatch(/assed|Add at|Standard u/);
  });

  test('says at its end that the result is kept, or thrown away', () => {
    const kept = press(readIn('pressure-result'), 'yes');
    expect(kept.state.batch).toBe('complete');
    expect(kept.state.endReason).toBe('completed');
    const thrown = press(readIn('pressure-result'), 'no');
    expect(thrown.state.endReason).toBe('stopped-by-person');
    const [one, other] = [kept, thrown].map((now) => displayOf(now).slice(1, 3).join(' '));
    expect(one).not.toBe(other);
  });
});
