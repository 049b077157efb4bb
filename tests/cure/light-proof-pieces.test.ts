/** What is told of a piece before its gap, and what of several pieces adds up. */
import { describe, expect, test } from 'vitest';
import type { Measured } from '../../src/core/frame.ts';
import {
  type LightProof,
  lengthOfPieceS,
  NO_PROOF,
  type SeenLight,
  stepLightProof,
  withOpenPiece,
} from '../../src/cure/light-proof.ts';
import { measured } from '../frames.ts';

const TICK_S = 0.05;
const LIMITS = { darkestWPerM2: 3, dimmestWPerM2: 20, coveredZeroWPerM2: 0.5 };

function play(
  from: LightProof,
  lampOn: boolean,
  seconds: number,
  light: Measured = measured(lampOn ? 200 : 0),
  change: Partial<SeenLight> = {},
): LightProof {
  const seen: SeenLight = {
    irradianceWPerM2: light,
    lampOn,
    on: 'both',
    steady: true,
    confirmed: true,
    sequence: 7,
    ...change,
  };
  let proof = from;
  for (let n = 0; n < Math.round(seconds / TICK_S); n++) {
    proof = stepLightProof(proof, seen, LIMITS, TICK_S);
  }
  return proof;
}
const dark = (from: LightProof, light?: Measured) => play(from, false, 0.4, light);
const lit = (from: LightProof, seconds: number, light?: Measured) =>
  play(from, true, seconds, light);

describe('the lamp’s light, for what is still to come', () => {
  const once = dark(lit(dark(NO_PROOF), 5));

  test('is not known before the first half second of light', () => {
    expect(lit(dark(NO_PROOF), 0.4).litWPerM2).toBeNull();
    expect(lit(dark(NO_PROOF), 0.7).litWPerM2).toBe(200);
  });

  test('stands through a gap and through the rise after it, and then follows', () => {
    expect(once.litWPerM2).toBe(200);
    expect(lit(once, 0.4, measured(60)).litWPerM2).toBe(200);
    expect(lit(once, 0.7, measured(60)).litWPerM2).toBe(60);
  });
});

describe('the light once the open piece is shown too', () => {
  const shown = (proof: LightProof, portion: 'fill' | 'pit' = 'fill') =>
    withOpenPiece(proof, portion, LIMITS);

  test('is what is shown and that piece, which counts as a piece of its own', () => {
    const open = lit(dark(lit(dark(NO_PROOF), 5)), 3);
    const { doseJPerM2, lampOnS, pieces } = shown(open);
    expect(doseJPerM2).toBeCloseTo(200 * (4.95 + 2.95), 6);
    expect([lampOnS, pieces]).toEqual([expect.closeTo(7.9, 6), 2]);
  });

  test('less what the gap before it read beyond the covered zero', () => {
    const open = lit(dark(NO_PROOF, measured(2.5)), 5);
    expect(shown(open).doseJPerM2).toBeCloseTo((200 - 2) * 4.95, 6);
  });

  test('and without a piece that cannot count, or that lies on the other portion', () => {
    const before = dark(lit(dark(NO_PROOF), 5));
    const spoilt = play(before, true, 3, measured(200), { steady: false });
    expect(shown(spoilt).doseJPerM2).toBeCloseTo(200 * 4.95, 6);
    const onPit = play(dark(NO_PROOF), true, 5, measured(200), { on: 'pit' });
    expect(shown(onPit).doseJPerM2).toBe(0);
    expect(shown(onPit, 'pit').doseJPerM2).toBeCloseTo(200 * 4.95, 6);
  });
});

test('two pieces that passed add up: dose, time, pieces and gaps', () => {
  const twice = dark(lit(dark(lit(dark(NO_PROOF), 5)), 5));
  expect(twice.portions.fill).toMatchObject({
    doseJPerM2: expect.closeTo(2 * 200 * 4.95, 6),
    lampOnS: expect.closeTo(2 * 4.95, 6),
    pieces: 2,
    gapsPassed: 2,
  });
});

test('a failed gap tells what light it lost, once', () => {
  const open = lit(dark(NO_PROOF), 10);
  const waiting = play(open, false, 0.95, measured(200));
  expect(waiting.failed).toBeNull();
  const failed = play(waiting, false, TICK_S, measured(200));
  expect(failed.failed).toEqual({
    on: 'both',
    why: 'not-dark',
    lostJPerM2: expect.closeTo(200 * 9.95, 6),
  });
  expect(failed.piece).toBeNull();
  expect(play(failed, false, TICK_S, measured(200)).failed).toBeNull();
});

test('a piece of no more than what its gaps read is nothing, and never less', () => {
  // The light came back, and then hardly any was left of it.
  const faint = lit(lit(dark(NO_PROOF, measured(3)), TICK_S, measured(25)), 5, measured(1));
  expect(faint.piece?.spoiltBy).toBeNull();
  expect(withOpenPiece(faint, 'fill', LIMITS).doseJPerM2).toBe(0);
});

test('a piece spoilt near its end is not drawn out beyond the length that was due', () => {
  const dueS = lengthOfPieceS(7);
  const open = lit(dark(NO_PROOF), dueS - 1);
  const spoilt = play(open, true, TICK_S, measured(200), { steady: false });
  expect(spoilt.piece?.dueAfterS).toBe(dueS);
});
