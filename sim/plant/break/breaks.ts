/**
 * Breaks as data: demo breaks by kind of damage and the sizes on a job sheet, and a schema for
 * breaks described gap by gap in trade units. Apertures, widths and fingers are demo values:
 * no measurements in windscreens have been published.
 */
import { z } from 'zod';
import { quantity, wholeNumber } from '../../../src/core/settings.ts';
import type { Break } from './break.ts';
import { type Gap, gapOf } from './gap-shapes.ts';

export interface DamageSizes {
  readonly type: 'bullseye' | 'half-moon' | 'star-break' | 'combination-break' | 'crack';
  /** Across the ring or the two longest legs. */
  readonly diameterM: number;
  /** Across the pit. */
  readonly pitM: number;
  /** Depth of the pit; the demo's where it is omitted or was not measured. */
  readonly pitDepthM?: number | null;
  readonly legs: number;
  readonly longestLegM: number;
}

const SHORTEST_M = 0.001;
const DISC = { mouthApertureM: 8e-6, endRatio: 0.3, fingerRatio: 0.4 };
const LEG = { mouthApertureM: 7e-6, endRatio: 0.75, widthM: 0.0012, fingerRatio: 0.2 };
const CRACK = { mouthApertureM: 12e-6, endRatio: 0.5, widthM: 0.0018, fingerRatio: 0.4 };
/** Length of a star's other legs, all alike, relative to its longest. */
const OTHER_LEGS_RATIO = 0.7;

/** A break of a kind, as deep and wide as the job sheet says. */
export function demoBreakOf(sizes: DamageSizes): Break {
  const { type, diameterM, longestLegM } = sizes;
  const turn = 2 * Math.PI;
  switch (type) {
    case 'bullseye':
      return { gaps: [discOf(sizes, turn)] };
    case 'half-moon':
      return { gaps: [discOf(sizes, turn / 2)] };
    case 'star-break':
      return { gaps: legsOf(sizes) };
    case 'combination-break':
      return { gaps: [discOf(sizes, turn), ...legsOf(sizes)] };
    case 'crack': {
      const lengthM = Math.max(SHORTEST_M, longestLegM > 0 ? longestLegM : diameterM);
      return { gaps: [gapOf({ ...CRACK, kind: 'crack', count: 1, lengthM, pitRadiusM: 0 })] };
    }
  }
}

function discOf({ diameterM, pitM }: DamageSizes, turnRad: number): Gap {
  const pitRadiusM = pitM / 2;
  return gapOf({
    ...DISC,
    kind: 'disc',
    count: 1,
    lengthM: Math.max(SHORTEST_M, diameterM / 2 - pitRadiusM),
    widthM: turnRad * pitRadiusM,
    pitRadiusM,
  });
}

/** The longest leg, and one that represents all the others. */
function legsOf({ legs, longestLegM, diameterM }: DamageSizes): Gap[] {
  const lengthM = longestLegM > 0 ? longestLegM : diameterM / 2;
  const leg = (count: number, longM: number): Gap =>
    gapOf({ ...LEG, kind: 'leg', count, lengthM: Math.max(SHORTEST_M, longM), pitRadiusM: 0 });
  const longest = leg(1, lengthM);
  return legs < 2 ? [longest] : [longest, leg(legs - 1, OTHER_LEGS_RATIO * lengthM)];
}

const common = {
  lengthMm: quantity(0.2, 400, 'mm'),
  mouthApertureUm: quantity(0.1, 200, 'µm'),
  endRatio: quantity(0.05, 1, ''),
  fingerPercent: quantity(0, 100, '%'),
};
const straight = {
  ...common,
  count: wholeNumber(1, 20, 'gaps alike'),
  widthMm: quantity(0.1, 10, 'mm'),
};

const gapSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('disc'),
    ...common,
    pitRadiusMm: quantity(0.1, 10, 'mm'),
    /** 360 for a bullseye, about 180 for a half-moon. */
    turnDegrees: quantity(10, 360, 'degrees'),
  }),
  z.strictObject({ kind: z.literal('leg'), ...straight }),
  z.strictObject({ kind: z.literal('crack'), ...straight }),
]);

/** A break in trade units; SI inside. */
export const breakSchema = z
  .strictObject({
    gaps: z.array(gapSchema).min(1, { error: '1 to 8 gaps' }).max(8, { error: '1 to 8 gaps' }),
  })
  .transform(({ gaps }): Break => ({ gaps: gaps.map(gapOfFile) }));

function gapOfFile(file: z.infer<typeof gapSchema>): Gap {
  const disc = file.kind === 'disc';
  const pitRadiusM = disc ? file.pitRadiusMm / 1000 : 0;
  return gapOf({
    kind: file.kind,
    count: disc ? 1 : file.count,
    lengthM: file.lengthMm / 1000,
    mouthApertureM: file.mouthApertureUm * 1e-6,
    endRatio: file.endRatio,
    widthM: disc ? (file.turnDegrees / 180) * Math.PI * pitRadiusM : file.widthMm / 1000,
    pitRadiusM,
    fingerRatio: file.fingerPercent / 100,
  });
}
