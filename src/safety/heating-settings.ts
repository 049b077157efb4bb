/**
 * How much and how fast a damaged pane may be heated at the spot: the unit's own limits, whatever
 * the leg, and the figures by which a leg's length tightens them. `heat-stress.ts` calculates which
 * of the two governs a job.
 */
import { z } from 'zod';
import { quantity } from '../core/settings.ts';

/**
 * Derivation of the defaults (demo, to be checked on coupons):
 * - 8 K above the pane: where the K of a 5 mm leg reaches slow growth; shorter legs get no higher
 *   limit.
 * - 10 K/min: a ramp is detected to 60 % after 16 s and a person answers in 30 s; by then it has
 *   risen 8 K.
 * - 70 % of the upper bound on K: a star of n legs has 2 sqrt(n - 1) / n of sigma sqrt(pi a)
 *   (Westmann 1964, from memory), 0.8 / 1.12 for five; a single leg counts with half its length.
 * - 400 s: heat stored in 2 x 2 mm of glass over the films of both faces, 8.2 kJ/(m2 K) by 15 W/(m2
 *   K) indoors to 33 outdoors: 550 to 250 s.
 */
export const heatingSchema = z
  .strictObject({
    greatestSpotOverPaneK: quantity(2, 20, 'K').default(8),
    greatestRateKPerMin: quantity(1, 60, 'K/min').default(10),
    legSharePercent: quantity(20, 100, '%').default(70),
    outerPlyMm: quantity(1, 6, 'mm').default(2.1),
    paneFollowsAirS: quantity(60, 3600, 's').default(400),
  })
  .prefault({})
  .transform((file) => ({
    own: {
      spotOverPaneK: file.greatestSpotOverPaneK,
      rateKPerS: file.greatestRateKPerMin / 60,
    },
    legShare: file.legSharePercent / 100,
    plyM: file.outerPlyMm / 1000,
    paneFollowsAirS: file.paneFollowsAirS,
  }));
