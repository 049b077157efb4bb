/** Light, lamp, and heat and daylight on pane and resin. */
import {
  abortHigh,
  above,
  below,
  holdHighLatched,
  holdLow,
  holdMedium,
  holdMediumLatched,
  type SafetyRow,
  warnLow,
} from './safety-row.ts';

export const LIGHT_SPECIFICATION: readonly SafetyRow[] = [
  {
    id: 'lamp-weak',
    harm: 'The cure would not end within an hour of UV light on one spot.',
    ...holdMedium,
    ...above(3600, 's', 3),
  },
  {
    id: 'lamp-was-weak',
    harm: 'Nobody yet: the lamp can be cleaned before resin is in.',
    ...warnLow,
    ...above(3600, 's', 0),
  },
  {
    id: 'lamp-no-light',
    harm: 'Resin stays liquid, or the light goes where nobody measures it.',
    ...holdMedium,
    ...below(2, 'mW/cm2', 0.5),
  },
  {
    id: 'light-too-bright',
    harm: 'A dose is counted that nothing gave: soft resin is called cured. Going dark proves nothing.',
    ...holdMediumLatched,
    ...above(130, '% of the lamp', 0.5),
  },
  {
    id: 'light-not-dark',
    harm: 'A stuck sensor counts a dose that nothing gave. It must be seen to, whatever it reads next.',
    ...holdMediumLatched,
    ...above(0.3, 'mW/cm2', 0.5),
  },
  {
    id: 'light-lamp-off',
    harm: 'The lamp burns against its command: UV light in an eye once the shield is opened.',
    ...abortHigh,
    ...above(3, 'mW/cm2', 1, 0.5),
  },
  {
    id: 'lamp-hot',
    harm: 'The lamp burns fingers and itself. It cools by itself once it is off.',
    ...holdMedium,
    ...above(70, 'C', 0.5, 10),
  },
  {
    id: 'glass-hot',
    harm: 'Legs run and the interlayer blisters. The pane must be looked at before more is done.',
    ...holdHighLatched,
    ...above(60, 'C', 0.5, 3),
  },
  {
    id: 'glass-cold',
    harm: 'Nobody: resin is too thick to flow and water may be in the break. Warmth ends it.',
    ...holdLow,
    ...below(0, 'C', 1, 0.5),
  },
  {
    id: 'spot-hot',
    harm: 'Legs run by the stress around a hot spot. New legs must be looked for first.',
    ...holdHighLatched,
    ...above(20, 'K', 0.5, 1),
  },
  {
    id: 'heated-too-fast',
    harm: 'Legs run by the stress through a ply. New legs must be looked for first.',
    ...holdHighLatched,
    ...above(60, 'K/min', 0.5, 1),
  },
  {
    id: 'heat-near-limit',
    harm: 'Nobody yet: heat can still be taken away.',
    ...warnLow,
    ...above(80, '% of what is allowed', 2, 15),
  },
  {
    id: 'heat-sink-cold',
    harm: 'A lamp too hot would not be seen, or the lamp is dark and no resin sets. Its sensor must be looked at.',
    ...holdMediumLatched,
    ...above(2, 'K short of the lamp', 1),
  },
  {
    id: 'heat-sink-warm',
    harm: 'The lamp is on its way to burn itself, or its sensor stopped following it.',
    ...holdMediumLatched,
    ...above(2.5, 'K over the lamp', 1),
  },
  {
    id: 'glass-not-warmed',
    harm: 'Nobody by the lamp alone, which gives a few kelvins. What the glass sensor says is not shown.',
    ...warnLow,
    ...above(0.3, 'K short of the light', 5),
  },
  {
    id: 'temperatures-apart',
    harm: 'Nobody yet: a sensor that is wrong by less cannot be told from sun or a cold car.',
    ...warnLow,
    ...above(15, 'K apart', 10, 2),
  },
  {
    id: 'daylight-set',
    harm: 'Resin has begun to set outside the break. Covered, it is not liquid again: a fresh drop.',
    ...holdMediumLatched,
    ...above(100, '% of what sets it', 0),
  },
  {
    id: 'daylight-near',
    harm: 'Nobody yet: it can still be covered.',
    ...warnLow,
    ...above(50, '% of what sets it', 0),
  },
];
