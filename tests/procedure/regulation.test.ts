import { describe, expect, test } from 'vitest';
import { REGULATOR_AT_REST, stepRegulation } from '../../src/procedure/regulation.ts';

const TICK_S = 0.05;
const vacuum = { air: 'vacuum', setPointPa: 25_000 } as const;
const pressure = { air: 'pressure', setPointPa: 239_000 } as const;
const wound = { selector: 'vacuum', integralRatio: 0.5 } as const;

describe('without a pressure that can be believed', () => {
  test.each([vacuum, pressure])(
    'nothing is pumped, the vent is open, nothing winds up',
    (demand) => {
      const before = { selector: demand.air, integralRatio: 0.5 };
      const { state, command } = stepRegulation(before, demand, null, TICK_S);
      expect(command).toEqual({ pumpRatio: 0, selector: demand.air, ventOpen: true });
      expect(state).toEqual({ selector: demand.air, integralRatio: 0 });
    },
  );
});

describe('regulating', () => {
  test('works at full drive far from the set-point, with the vent shut', () => {
    for (const [demand, pa] of [
      [vacuum, 100_000],
      [pressure, 100_000],
    ] as const) {
      const { command } = stepRegulation(REGULATOR_AT_REST, demand, pa, TICK_S);
      expect(command).toEqual({ pumpRatio: 1, selector: demand.air, ventOpen: false });
    }
  });

  test('stops where the set-point is passed: it can only pump', () => {
    expect(stepRegulation(REGULATOR_AT_REST, vacuum, 20_000, TICK_S).command.pumpRatio).toBe(0);
    expect(stepRegulation(REGULATOR_AT_REST, pressure, 245_000, TICK_S).command.pumpRatio).toBe(0);
  });

  test('adds drive for as long as a little is missing near the set-point, and only there', () => {
    const drives = (pa: number) => {
      let state = REGULATOR_AT_REST;
      const ratios: number[] = [];
      for (let n = 0; n < 400; n++) {
        const step = stepRegulation(state, vacuum, pa, TICK_S);
        state = step.state;
        ratios.push(step.command.pumpRatio);
      }
      return ratios;
    };
    const near = drives(26_000);
    // 1 of 8 kPa at once, and as much again in 4 s.
    expect(near[0]).toBeCloseTo(0.125 + (0.125 * TICK_S) / 4, 6);
    expect(near[79]).toBeCloseTo(0.25, 6);
    const far = drives(29_000);
    expect(new Set(far)).toEqual(new Set([0.5]));
  });

  test('forgets what it had added once it changes sides or is vented', () => {
    expect(stepRegulation(wound, pressure, 238_000, TICK_S).state.integralRatio).toBeLessThan(0.01);
    for (const air of ['vented', 'isolated'] as const) {
      const { state, command } = stepRegulation(wound, { air }, 100_000, TICK_S);
      expect(state.integralRatio).toBe(0);
      expect(command).toMatchObject({ pumpRatio: 0, ventOpen: air === 'vented' });
    }
  });
});
