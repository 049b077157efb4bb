/**
 * Answers about the damage that cannot both be true: sizes that do not fit into each other, and
 * features that a type of damage does not have. A star is measured across its two longest legs, so
 * its span lies between one leg length and two leg lengths plus the pit.
 */
import { type ConflictRow, isOneOf, over, sum } from './conflict-row.ts';

/** Thickest outer ply and interlayer found in windscreens: common practice, no source. */
const THICKEST_OUTER_PLY_MM = 3;
const THICKEST_INTERLAYER_MM = 1.6;

const WITHOUT_CRACKS = ['bullseye', 'half-moon', 'surface-pit'];
/** Every type except a crack is named after the mark that a stone leaves. */
const FROM_AN_IMPACT = [
  'bullseye',
  'half-moon',
  'star-break',
  'combination-break',
  'surface-pit',
] as const;
const WITH_LEGS = ['star-break', 'combination-break'];

export const DAMAGE_CONFLICTS: readonly ConflictRow[] = [
  {
    between: ['damage.pitMm', 'damage.diameterMm'],
    why: 'the pit is part of the damage and cannot be larger than it',
    clash: ({ damage }) => over(damage.pitMm, damage.diameterMm),
  },
  {
    between: ['damage.bodyMm', 'damage.diameterMm'],
    why: 'the body is part of the damage and cannot be larger than it',
    clash: ({ damage }) => over(damage.bodyMm, damage.diameterMm),
  },
  {
    between: ['damage.pitMm', 'damage.bodyMm'],
    why: 'the pit lies in the body and cannot be larger than it',
    clash: ({ damage }) => damage.type === 'combination-break' && over(damage.pitMm, damage.bodyMm),
  },
  {
    between: ['damage.type', 'damage.legs'],
    why: 'this type of damage has no legs; with legs it is a star or a combination',
    clash: ({ damage }) => isOneOf(damage.type, WITHOUT_CRACKS) && over(damage.legs, 0),
  },
  {
    between: ['damage.type', 'damage.legs'],
    why: 'a star break has at least one leg',
    clash: ({ damage }) => damage.type === 'star-break' && damage.legs === 0,
  },
  {
    between: ['damage.type', 'damage.longestLegMm'],
    why: 'this type of damage has no leg that could have a length',
    clash: ({ damage }) => isOneOf(damage.type, WITHOUT_CRACKS) && over(damage.longestLegMm, 0),
  },
  {
    between: ['damage.type', 'damage.longestLegMm'],
    why: 'a crack has a length',
    clash: ({ damage }) => damage.type === 'crack' && damage.longestLegMm === 0,
  },
  {
    between: ['damage.legs', 'damage.longestLegMm'],
    why: 'existing legs have a length',
    clash: ({ damage }) =>
      isOneOf(damage.type, WITH_LEGS) && over(damage.legs, 0) && damage.longestLegMm === 0,
  },
  {
    between: ['damage.legs', 'damage.longestLegMm'],
    why: 'without legs there is no longest one',
    clash: ({ damage }) =>
      isOneOf(damage.type, WITH_LEGS) && damage.legs === 0 && over(damage.longestLegMm, 0),
  },
  {
    between: ['damage.longestLegMm', 'damage.diameterMm'],
    why: 'the damage is at least as wide as its longest leg is long',
    clash: ({ damage }) =>
      isOneOf(damage.type, WITH_LEGS) && over(damage.longestLegMm, damage.diameterMm),
  },
  {
    between: ['damage.diameterMm', 'damage.longestLegMm'],
    why: 'two legs of this length with the pit between them do not span that width',
    clash: ({ damage }) =>
      damage.type === 'star-break' &&
      over(damage.diameterMm, sum(damage.longestLegMm, damage.longestLegMm, damage.pitMm)),
  },
  {
    between: ['damage.diameterMm', 'damage.longestLegMm'],
    why: 'the body with a leg of this length on either side does not span that width',
    clash: ({ damage }) =>
      damage.type === 'combination-break' &&
      over(damage.diameterMm, sum(damage.bodyMm, damage.longestLegMm, damage.longestLegMm)),
  },
  {
    between: ['damage.diameterMm', 'damage.longestLegMm'],
    why: 'a crack is at least as long along its course as in a straight line',
    clash: ({ damage }) =>
      damage.type === 'crack' &&
      !over(damage.legs, 1) &&
      over(damage.diameterMm, sum(damage.longestLegMm, damage.pitMm)),
  },
  {
    between: ['damage.type', 'damage.diameterMm'],
    why: 'a surface pit is only the pit: damage wider than its pit is of another type',
    clash: ({ damage }) => damage.type === 'surface-pit' && over(damage.diameterMm, damage.pitMm),
  },
  {
    between: ['damage.type', 'damage.interlayerTouched'],
    why: 'a surface pit does not reach the interlayer',
    clash: ({ damage }) => damage.type === 'surface-pit' && damage.interlayerTouched === true,
  },
  {
    between: ['damage.type', 'damage.innerPlyTouched'],
    why: 'a surface pit does not reach the inner ply',
    clash: ({ damage }) => damage.type === 'surface-pit' && damage.innerPlyTouched === true,
  },
  {
    between: ['damage.depthMm', 'damage.interlayerTouched'],
    why: `deeper than ${THICKEST_OUTER_PLY_MM} mm is through the outer ply, so the interlayer is touched`,
    clash: ({ damage }) =>
      over(damage.depthMm, THICKEST_OUTER_PLY_MM) && damage.interlayerTouched === false,
  },
  {
    between: ['damage.depthMm', 'damage.innerPlyTouched'],
    why: 'this depth goes through outer ply and interlayer, so the inner ply is touched',
    clash: ({ damage }) =>
      over(damage.depthMm, THICKEST_OUTER_PLY_MM + THICKEST_INTERLAYER_MM) &&
      damage.innerPlyTouched === false,
  },
  {
    between: ['damage.type', 'damage.cracksMeet'],
    why: 'this type of damage has no cracks that could meet',
    clash: ({ damage }) => isOneOf(damage.type, WITHOUT_CRACKS) && damage.cracksMeet === true,
  },
  {
    between: ['damage.type', 'damage.impactPoint'],
    why: 'this type of damage comes from an impact; without one it is a crack',
    clash: ({ damage }) => isOneOf(damage.type, FROM_AN_IMPACT) && damage.impactPoint === false,
  },
  {
    between: ['damage.pitMm', 'damage.impactPoint'],
    why: 'a pit is the point of impact',
    clash: ({ damage }) => over(damage.pitMm, 0) && damage.impactPoint === false,
  },
];
