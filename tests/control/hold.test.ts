/**
 * HOLD on a hand-made unit: whatever phase of a repair and whatever step of a guided procedure, the
 * outputs are safe in the tick of the press, and nothing goes on until a person has said so.
 */
import { describe, expect, test } from 'vitest';
import type { ProcedureTypes } from '../../src/control/controller-state.ts';
import { STEP_IDS } from '../../src/core/guided-events.ts';
import { PHASE_IDS, type PhaseId } from '../../src/core/phases.ts';
import {
  actuatorsOf,
  pass,
  passUntil,
  type Scene,
  TICK_S,
  tick,
  type Unit,
} from '../steered-unit.ts';
import { guidedIn, repairIn } from '../steering.ts';

/** Typed here: pump off, vent open, lamp off. */
const isSafe = <P extends ProcedureTypes>(unit: Unit<P>): boolean => {
  const { pumpRatio, ventOpen, lampEnabled, lampRatio } = actuatorsOf(unit);
  return pumpRatio === 0 && ventOpen && !lampEnabled && lampRatio === 0;
};

/** A chamber of this unit comes to the air's pressure in less. */
const VENTED_IN_S = 5;

/** From here on nobody presses anything: safe all the time, and held at the end. */
function staysHeld<P extends ProcedureTypes>(pressed: Unit<P>): Unit<P> {
  expect(isSafe(pressed)).toBe(true);
  expect(pressed.state.batch).toMatch(/^h(olding|eld)$/);
  const held = passUntil(pressed, VENTED_IN_S, {}, (now) => {
    expect(isSafe(now)).toBe(true);
    return false;
  });
  expect(held.state.batch).toBe('held');
  return held;
}

/** What a finger on HOLD does to the frame, alone and with others. */
const PRESSES: readonly (readonly [string, Scene])[] = [
  ['HOLD', { ladder: 'hold', pressed: ['hold'] }],
  ['HOLD with YES', { ladder: 'hold', pressed: ['hold', 'yes'] }],
  ['YES and MORE before HOLD', { ladder: 'hold', pressed: ['yes', 'more', 'hold'] }],
  ['HOLD that is down and was never told', { ladder: 'hold', pressed: [] }],
  ['HOLD of a board that tells no ladder', { ladder: null, pressed: ['hold'] }],
];

/** What a phase waits for has not come yet. */
const SEEN_THERE: Readonly<Partial<Record<PhaseId, Scene>>> = { 'glass-gate': { glassK: 276.15 } };

/** Just come there, within 0.8 s, and once it has been read. */
const WAITS_S = [0, 0.7, 2];

describe.each(PHASE_IDS)('HOLD in %s', (phase) => {
  test.each(WAITS_S)('makes safe in its tick and holds the job, %s s after it began', (waitS) => {
    const start = repairIn(phase);
    const there = waitS === 0 ? start : pass(start, waitS, SEEN_THERE[phase]);
    if (there.state.batch !== 'running') throw new Error(`${phase} does not wait`);
    for (const [how, scene] of PRESSES) {
      const pressed = tick(there, scene);
      expect(isSafe(pressed), how).toBe(true);
      expect(pressed.state.batch, how).toMatch(/^h(olding|eld)$/);
      expect(pressed.log.slice(there.log.length).map(({ kind }) => kind)).not.toContain('answer');
    }
    const held = staysHeld(tick(there, { ladder: 'hold', pressed: ['hold'] }));
    // An alarm that waits to be seen stands before the question.
    expect(held.state.why?.asks).toBe('leg-grew');
  });
});

describe.each(STEP_IDS)('HOLD in the guided step %s', (step) => {
  test('makes safe in its tick and holds, and asks nothing: no pane is there', () => {
    const start = guidedIn(step);
    for (const waitS of [TICK_S, 0.7]) {
      const there = pass(start, waitS);
      if (there.state.batch !== 'running') continue;
      const held = staysHeld(tick(there, { ladder: 'hold', pressed: ['hold'] }));
      expect(held.step?.outputs.display[0]).toContain('|| Held');
    }
  });
});

describe('a job that works', () => {
  const WORKING = ['evacuate', 'pressure-dwell', 'cure'] as const;

  test.each(WORKING)('in %s is at rest in the very tick of HOLD', (phase) => {
    const there = passUntil(repairIn(phase), 3, {}, (now) => !isSafe(now));
    expect(isSafe(there)).toBe(false);
    expect(isSafe(tick(there, { ladder: 'hold', pressed: ['hold'] }))).toBe(true);
  });

  test.each(WORKING)('in %s does not go on while the finger stays on HOLD', (phase) => {
    const down: Scene = { ladder: 'hold' };
    const held = pass(tick(repairIn(phase), { ...down, pressed: ['hold'] }), 6, down);
    const asked = tick(held, { ...down, pressed: ['yes'] });
    expect(pass(asked, 3, down).state.batch).toBe('held');
  });

  test('is held again by HOLD in the second in which it restarts', () => {
    const there = repairIn('pressure-dwell');
    let unit = answer(answer(pass(tick(there, { pressed: ['hold'] }), 8), 'no'), 'no');
    unit = tick(pass(unit, 2), { pressed: ['yes'] });
    expect(unit.state.batch).toBe('restarting');
    staysHeld(tick(unit, { ladder: 'hold', pressed: ['hold'] }));
  });

  test('is held by HOLD while an alarm is on the screen, which stays to be seen', () => {
    const warned = pass(repairIn('vacuum-dwell'), 0.2, { ladder: 'between' });
    expect(warned.step?.outputs.display[0]).toContain('! Button not clear');
    const held = pass(tick(warned, { ladder: 'hold', pressed: ['hold'] }), 5);
    expect(isSafe(held)).toBe(true);
    expect(held.state.batch).toBe('held');
    expect(held.step?.outputs.display[0]).toContain('! Button not clear');
    const seen = pass(tick(held, { pressed: ['yes'] }), 1);
    expect(seen.step?.outputs.display[0]).toContain('|? Why HOLD?');
  });
});

/** A press on a screen that has been read. */
const answer = <P extends ProcedureTypes>(unit: Unit<P>, button: 'yes' | 'no'): Unit<P> =>
  tick(pass(unit, 2), { pressed: [button] });

const heldIn = (phase: 'pressure-dwell' | 'vacuum-dwell') =>
  pass(tick(repairIn(phase), { pressed: ['hold'] }), 8);

/** Restarted, and in the first tick of its step. */
const goneOn = <P extends ProcedureTypes>(unit: Unit<P>): Unit<P> => {
  const running = passUntil(unit, 2, {}, ({ state }) => state.batch === 'running');
  expect(running.state.batch).toBe('running');
  return running;
};

const reasonsOf = ({ log }: Pick<Unit<ProcedureTypes>, 'log'>) =>
  log.flatMap((event) => (event.kind === 'hold-reason' ? [[event.phase, event.reason]] : []));

describe('why HOLD was pressed', () => {
  test('is asked one reason after the other, and the answer is on record', () => {
    const held = heldIn('pressure-dwell');
    expect(reasonsOf(answer(held, 'yes'))).toEqual([['pressure-dwell', 'leg-grew']]);
    const second = answer(held, 'no');
    expect(reasonsOf(second)).toEqual([]);
    expect(second.step?.outputs.display[1]).toBe('Does resin show on  ');
    expect(reasonsOf(answer(second, 'yes'))).toEqual([['pressure-dwell', 'resin-inside']]);
    expect(reasonsOf(answer(second, 'no'))).toEqual([['pressure-dwell', 'something-else']]);
  });

  test('is answered by no press within 0.8 s of the question', () => {
    const coming = tick(repairIn('pressure-dwell'), { pressed: ['hold'] });
    const asked = passUntil(coming, 10, {}, ({ state }) => state.batch === 'held');
    for (const waitS of [TICK_S, 0.4, 0.75]) {
      for (const button of ['yes', 'no'] as const) {
        const early = tick(pass(asked, waitS), { pressed: [button] });
        expect(reasonsOf(pass(early, 0.5))).toEqual([]);
        expect(early.state.why?.asks).toBe('leg-grew');
      }
    }
  });

  test('is asked anew when HOLD is pressed again: both answers are on record', () => {
    const mistaken = answer(answer(heldIn('pressure-dwell'), 'no'), 'yes');
    const again = pass(tick(mistaken, { pressed: ['hold'] }), 2);
    expect(again.step?.outputs.display[1]).toBe('Did a leg grow, or a');
    const said = answer(answer(again, 'no'), 'no');
    expect(reasonsOf(said).map(([, reason]) => reason)).toEqual(['resin-inside', 'something-else']);
    expect(pass(answer(said, 'yes'), 2).state.batch).toBe('running');
  });

  test('a leg that grew: half the vacuum and pressure when a person lets it go on', () => {
    const asked = answer(heldIn('pressure-dwell'), 'yes');
    expect(pass(asked, 60).state.batch).toBe('held');
    const measuring = goneOn(answer(asked, 'yes'));
    expect(measuring.state.procedure.phase).toBe('measure-leg');
    const gentler = tick(answer(measuring, 'no'), {});
    const { state } = gentler;
    expect(state.procedure.phase).toBe('pressurise');
    const airPa = state.procedure.atmospherePa ?? 0;
    const full = repairIn('pressure-dwell').state.setPointPa ?? 0;
    expect((state.setPointPa ?? 0) - airPa).toBeCloseTo((full - airPa) / 2, 6);
    const adapted = gentler.log.filter((event) => event.kind === 'adapted');
    expect(adapted.map(({ what, why }) => [what, why])).toEqual([
      ['vacuum', 'a leg grew'],
      ['pressure', 'a leg grew'],
    ]);
    const inVacuum = tick(
      answer(goneOn(answer(answer(heldIn('vacuum-dwell'), 'yes'), 'yes')), 'no'),
      {},
    );
    const deep = repairIn('vacuum-dwell').state.setPointPa ?? 0;
    expect(airPa - (inVacuum.state.setPointPa ?? 0)).toBeCloseTo((airPa - deep) / 2, 6);
  });

  describe('measuring the leg', () => {
    const measuring = () => goneOn(answer(answer(heldIn('pressure-dwell'), 'yes'), 'yes'));

    test('waits vented, and shows how far the lamp’s even spot of 30 mm reaches from the pit', () => {
      const unit = pass(measuring(), 2);
      expect(isSafe(unit)).toBe(true);
      expect(unit.step?.outputs.display[1]?.trimEnd()).toBe('Longest over 15 mm?');
      expect(pass(unit, 60).state.procedure.phase).toBe('measure-leg');
    });

    test('YES stops with that reason, and asks before it ends', () => {
      const stopped = pass(answer(measuring(), 'yes'), 8);
      expect(stopped.state.batch).toBe('held');
      expect(stopped.state.why?.asks).toBe('end');
      expect(stopped.log).toContainEqual(
        expect.objectContaining({ kind: 'answer', phase: 'measure-leg', answer: 'yes' }),
      );
      const held = stopped.log.filter((event) => event.kind === 'batch' && event.to === 'holding');
      expect(held.at(-1)).toMatchObject({
        why: 'The leg that grew is past the limit of this repair.',
      });
      const ended = pass(answer(stopped, 'yes'), 8);
      expect(ended.state).toMatchObject({ batch: 'stopped', endReason: 'stopped-by-person' });
    });

    test('a rule that allows less than the light reaches is what is shown, and named at the end', () => {
      const { config, ...unit } = measuring();
      const legRule = { longestM: 0.012, rule: 'Demo rule of a shop. (Demo shop)' };
      const ruled = pass({ ...unit, config: { ...config, legRule } }, 2);
      expect(ruled.step?.outputs.display[1]?.trimEnd()).toBe('Longest over 12 mm?');
      const stopped = pass(answer(ruled, 'yes'), 8);
      expect(stopped.state.why?.record).toBe(
        'The leg that grew is past the limit of this repair. Rule: Demo rule of a shop. (Demo shop)',
      );
      // The light's own reach ends it where the rule allows more.
      const wide = { ...config, legRule: { ...legRule, longestM: 0.02 } };
      const lit = pass({ ...unit, config: wide }, 2);
      expect(lit.step?.outputs.display[1]?.trimEnd()).toBe('Longest over 15 mm?');
      expect(pass(answer(lit, 'yes'), 8).state.why?.record).not.toContain('Rule:');
    });

    test('a leg that grows once more lowers once more, and the job goes on where it was', () => {
      const again = answer(pass(tick(measuring(), { pressed: ['hold'] }), 8), 'yes');
      const twice = tick(answer(goneOn(answer(again, 'yes')), 'no'), {});
      expect(twice.state.procedure).toMatchObject({ phase: 'pressurise', loadRatio: 0.25 });
    });

    test('vacuum and pressure never rise again in the job, whatever is answered', () => {
      const gone = tick(answer(measuring(), 'no'), {});
      const other = answer(answer(pass(tick(gone, { pressed: ['hold'] }), 8), 'no'), 'no');
      expect(goneOn(answer(other, 'yes')).state.procedure.loadRatio).toBe(0.5);
    });
  });

  test('is not asked for where nothing acts on the break yet', () => {
    const held = pass(tick(repairIn('clean-pit'), { pressed: ['hold'] }), 8);
    expect(goneOn(answer(answer(held, 'yes'), 'yes')).state.procedure.phase).toBe('clean-pit');
  });

  test('resin on the inner side: YES is refused and sounds, and NO leads to the end', () => {
    const told = answer(answer(heldIn('pressure-dwell'), 'no'), 'yes');
    const refused = answer(told, 'yes');
    expect(refused.state.batch).toBe('held');
    expect(refused.step?.outputs.buzzer).toBe('once');
    expect(refused.log.at(-1)).toMatchObject({ kind: 'refused', request: 'yes' });
    expect(pass(told, 2).step?.outputs.display[3]).toMatch(/^NO=end/);
    const ended = pass(answer(answer(told, 'no'), 'yes'), 8);
    expect(ended.state).toMatchObject({ batch: 'stopped', endReason: 'stopped-by-person' });
  });

  test('resin on the inner side: no other attempt may go on from the end that it was brought to', () => {
    const told = answer(answer(heldIn('pressure-dwell'), 'no'), 'yes');
    const ended = pass(answer(answer(told, 'no'), 'yes'), 8);
    expect(ended.state.why?.mustEnd).toBe(true);
    const pressed = pass(tick(told, { switches: { emergencyStopPressed: true } }), 8);
    expect(pressed.state).toMatchObject({ batch: 'aborted', why: { mustEnd: true } });
    // Until the answer is taken back, also while it is asked for anew.
    const again = tick(told, { pressed: ['hold'] });
    expect(again.state.why?.mustEnd).toBe(true);
    expect(answer(answer(again, 'no'), 'no').state.why?.mustEnd).toBeUndefined();
  });

  test('something else: it goes on from a safe step when a person says so', () => {
    const told = answer(answer(heldIn('vacuum-dwell'), 'no'), 'no');
    expect(pass(told, 60).state.batch).toBe('held');
    expect(goneOn(answer(told, 'yes')).state.procedure.phase).toBe('evacuate');
  });
});

describe('the end of a held job', () => {
  const told = () => answer(answer(heldIn('vacuum-dwell'), 'no'), 'no');

  test('is asked once more: YES ends, and NO goes back to why it is held', () => {
    const asked = answer(told(), 'no');
    expect(asked.state.batch).toBe('held');
    const { display } = pass(asked, 2).step?.outputs ?? { display: [] };
    expect(display.join('|')).toContain('End the job? YES    |ends, NO goes back. ');
    expect(display[3]).toContain('YES=end NO=back');
    expect(pass(answer(asked, 'yes'), 8).state.batch).toBe('stopped');
    const back = pass(answer(asked, 'no'), 2);
    expect(back.state.batch).toBe('held');
    expect(back.step?.outputs.display[1]).toContain('You pressed HOLD.');
    expect(pass(answer(back, 'yes'), 2).state.batch).toBe('running');
  });

  test('is not brought by a YES that comes before the question could be read', () => {
    const early = tick(pass(answer(told(), 'no'), 1), { pressed: ['yes'] });
    expect(pass(early, 1).state.batch).toBe('held');
  });
});
