/** What of a cure's light counts as shown, tick by tick, with the lamp in the test's hand. */
import { describe, expect, test } from 'vitest';
import type { Measured } from '../../src/core/frame.ts';
import {
  gapIsDue,
  type LightProof,
  lengthOfPieceS,
  NO_PROOF,
  type SeenLight,
  stepLightProof,
} from '../../src/cure/light-proof.ts';
import { faulty, measured } from '../frames.ts';

const TICK_S = 0.05;
const LIMITS = { darkestWPerM2: 3, dimmestWPerM2: 20, coveredZeroWPerM2: 0.5 };
const LAMP_W_PER_M2 = 200;

/** A sound sensor under the lamp. */
const sound = (lampOn: boolean): Measured => measured(lampOn ? LAMP_W_PER_M2 : 0);

interface Run {
  readonly proof: LightProof;
  readonly failures: readonly string[];
}
const START: Run = { proof: NO_PROOF, failures: [] };

function play(
  { proof: from, failures: before }: Run,
  lampOn: boolean,
  seconds: number,
  light: Measured = sound(lampOn),
  change: Partial<SeenLight> = {},
): Run {
  let proof = from;
  const failures = [...before];
  const seen = {
    irradianceWPerM2: light,
    lampOn,
    on: 'both',
    steady: true,
    confirmed: true,
    sequence: 7,
  } as const;
  for (let n = 0; n < Math.round(seconds / TICK_S); n++) {
    proof = stepLightProof(proof, { ...seen, ...change }, LIMITS, TICK_S);
    if (proof.failed !== null) failures.push(proof.failed.why);
  }
  return { proof, failures };
}
const dark = (run: Run, seconds = 0.4, light?: Measured) => play(run, false, seconds, light);
const lit = (run: Run, seconds: number, light?: Measured) => play(run, true, seconds, light);

const shownJ = ({ proof }: Run): number => proof.portions.fill.doseJPerM2;
/** The first tick of a piece has no light before it to count with. */
const pieceJ = (seconds: number): number => LAMP_W_PER_M2 * (seconds - TICK_S);

describe('light is shown', () => {
  test('between two gaps that passed, and not a tick before the second has', () => {
    const open = lit(dark(START), 10);
    expect(shownJ(open)).toBe(0);
    expect(shownJ(dark(open, 0.25))).toBe(0);
    const closed = dark(open, 0.3);
    expect(shownJ(closed)).toBeCloseTo(pieceJ(10), 6);
    expect(closed.proof.portions.fill).toMatchObject({ gapsPassed: 1, gapsFailed: 0, pieces: 1 });
    expect(closed.failures).toEqual([]);
  });

  test('for both portions of one exposure alike, and for one alone in its own', () => {
    const both = dark(lit(dark(START), 10));
    expect(both.proof.portions.pit).toBe(both.proof.portions.fill);
    const pit = dark(play(dark(START), true, 10, undefined, { on: 'pit' }));
    expect(pit.proof.portions.fill.doseJPerM2).toBe(0);
    expect(pit.proof.portions.pit.doseJPerM2).toBeCloseTo(pieceJ(10), 6);
  });

  test('less what the sensor reads in the dark beyond what its budget covers, by the worse gap', () => {
    const shown = (before: number, after: number): number =>
      shownJ(dark(lit(dark(START, 0.4, measured(before)), 10), 0.4, measured(after)));
    expect(shown(0.5, 0.5)).toBeCloseTo(pieceJ(10), 6);
    // 2.5 W/m2 beyond 0.5, for the time that counts.
    const beyondJ = 2 * (10 - TICK_S);
    expect(shown(2.5, 0)).toBeCloseTo(pieceJ(10) - beyondJ, 6);
    expect(shown(0, 2.5)).toBeCloseTo(pieceJ(10) - beyondJ, 6);
  });
});

test('light that the lamp’s known output does not confirm is told apart', () => {
  const half = play(lit(dark(START), 10), true, 5, undefined, { confirmed: false });
  const { fill } = dark(half).proof.portions;
  expect(fill.doseJPerM2).toBeCloseTo(pieceJ(15), 6);
  expect(fill.unconfirmedJPerM2).toBeCloseTo(LAMP_W_PER_M2 * 5, 6);
});

describe('a piece never counts', () => {
  const open = lit(dark(START), 10);

  test.each<[string, Measured]>([
    ['reads on as before', measured(LAMP_W_PER_M2)],
    ['keeps an offset just over the limit for the dark', measured(3.01)],
    ['fails', faulty('stale')],
  ])('when the sensor %s in its closing gap', (_, light) => {
    const failed = dark(open, 2, light);
    expect(shownJ(failed)).toBe(0);
    expect(failed.failures).toEqual(['not-dark']);
    expect(failed.proof.portions.fill).toMatchObject({ gapsPassed: 0, gapsFailed: 1 });
    // A person lets it go on, the sensor is sound again: only what comes now counts.
    const later = dark(lit(dark(failed, 0.5), 5));
    expect(shownJ(later)).toBeCloseTo(pieceJ(5), 6);
  });

  test('when the dark comes later than a second after the lamp went out', () => {
    const slow = dark(open, 1, measured(LAMP_W_PER_M2));
    expect(dark(slow, 1).failures).toEqual(['not-dark']);
    expect(shownJ(dark(slow, 1))).toBe(0);
  });

  test('when the lamp burns again before the dark was seen', () => {
    const again = lit(dark(open, 0.2), 10);
    expect(again.failures).toEqual(['not-dark']);
    expect(shownJ(dark(again))).toBe(0);
  });

  test('when its light does not come back with the lamp', () => {
    const missing = lit(dark(START), 2, measured(19));
    expect(missing.failures).toEqual(['not-back']);
    expect(shownJ(dark(lit(missing, 10)))).toBe(0);
  });

  test('when its reading left its level, even if it was back at the end', () => {
    const left = play(open, true, TICK_S, undefined, { steady: false });
    expect(left.failures).toEqual(['unsteady']);
    const closed = dark(lit(left, 5));
    expect(shownJ(closed)).toBe(0);
    expect(closed.failures).toEqual(['unsteady']);
  });

  test('when nobody saw the dark before it', () => {
    const blind = lit(dark(START, 0.4, measured(LAMP_W_PER_M2)), 10);
    expect(blind.failures).toEqual(['not-dark']);
    expect(shownJ(dark(blind))).toBe(0);
  });
});

describe('the gaps', () => {
  test('are due after 20 to 30 s of light, by the number of the frame in which it began', () => {
    const lengths = Array.from({ length: 2000 }, (_, n) => lengthOfPieceS(20_000 + n));
    expect(Math.min(...lengths)).toBeGreaterThanOrEqual(20);
    expect(Math.max(...lengths)).toBeLessThan(30);
    // Frames that are near each other give lengths that are not.
    const steps = lengths.slice(1).map((s, n) => Math.abs(s - (lengths[n] as number)));
    expect(steps.reduce((sum, s) => sum + s, 0) / steps.length).toBeGreaterThan(2);
    expect(lengthOfPieceS(20_000)).toBe(lengthOfPieceS(20_000));
  });

  test('are not due before', () => {
    const dueAfterS = lengthOfPieceS(7);
    expect(gapIsDue(lit(dark(START), dueAfterS - 0.2).proof)).toBe(false);
    expect(gapIsDue(lit(dark(START), dueAfterS + 0.2).proof)).toBe(true);
  });

  test('come soon for a piece that cannot count', () => {
    const spoilt = lit(dark(START), 2, measured(19));
    expect(gapIsDue(lit(spoilt, 1.5).proof)).toBe(false);
    expect(gapIsDue(lit(spoilt, 2.2).proof)).toBe(true);
  });
});
