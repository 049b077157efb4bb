/**
 * Alarms of heat at the spot and of daylight on exposed resin. Default limits are demo values,
 * derived in `heating-settings.ts`; a long leg tightens the first, the resin's own figure sets the
 * second.
 */
import type { Phrase } from '../core/phrases.ts';
import type { AlarmContext, AlarmRow } from './alarm-row.ts';
import { always, atOnce, fixed, running, setting } from './alarm-terms.ts';
import { amountOf } from './scales.ts';
import { SLOW_GROWTH_PA_SQRT_M } from './watch/heat-stress.ts';

const kelvin = (k: number | null): Phrase => amountOf(k ?? 0, 'temperatureDifference');
const perMinute = (kPerS: number | null): Phrase => amountOf(kPerS ?? 0, 'heatingRate');
const intensity = (paSqrtM: number): string => (paSqrtM / 1e6).toFixed(2);

/** The heating and its possible effect on the leg: numbers on which a person can act. */
const heatText = ({ heating }: AlarmContext): Phrase => ({
  say: 'heat-seen',
  with: {
    over: kelvin(heating.spotOverPaneK),
    rate: perMinute(heating.rateKPerS),
    leg: (heating.legM * 1000).toFixed(0),
    stress: intensity(heating.stressIntensityPaSqrtM),
    growth: intensity(SLOW_GROWTH_PA_SQRT_M),
  },
});

const allowedText = ({ heating }: AlarmContext): Phrase => ({
  say: 'heat-allowed',
  with: {
    over: kelvin(heating.allowedSpotOverPaneK),
    rate: perMinute(heating.allowedRateKPerS),
  },
});

const eitherWayKPerS = ({ heating }: AlarmContext): number | null =>
  heating.rateKPerS === null ? null : Math.abs(heating.rateKPerS);

/** The used share of the allowed heating, by the difference or by the rate. */
function usedShare(context: AlarmContext): number | null {
  const { spotOverPaneK, allowedSpotOverPaneK, allowedRateKPerS } = context.heating;
  const rateKPerS = eitherWayKPerS(context);
  if (spotOverPaneK === null || rateKPerS === null) return null;
  return Math.max(spotOverPaneK / allowedSpotOverPaneK, rateKPerS / allowedRateKPerS);
}

const SPARE_THE_LEGS =
  'Take the heat away. Let it even out in still air: no water, no cold air. Look for new legs.';

export const HEAT_AND_DAYLIGHT_ROWS: readonly AlarmRow[] = [
  {
    id: 'spot-hot',
    title: 'Spot over pane',
    priority: 'high',
    action: 'hold',
    latching: true,
    quantity: 'temperatureDifference',
    trips: 'above',
    limit: setting(20, 2, 20),
    deadband: setting(1, 0.5, 5),
    delayS: setting(0.5, 0, 5),
    armed: always,
    seen: ({ heating }) => heating.spotOverPaneK,
    limitSI: ({ heating }, settingSI) => Math.min(settingSI, heating.allowedSpotOverPaneK),
    seenText: heatText,
    remedy: `${SPARE_THE_LEGS} Then heat wider than the damage, and slower.`,
  },
  {
    id: 'heated-too-fast',
    title: 'Heated too fast',
    priority: 'high',
    action: 'hold',
    latching: true,
    quantity: 'heatingRate',
    trips: 'above',
    limit: setting(60, 1, 60),
    deadband: setting(1, 0.5, 10),
    delayS: setting(0.5, 0, 5),
    armed: always,
    seen: eitherWayKPerS,
    limitSI: ({ heating }, settingSI) => Math.min(settingSI, heating.allowedRateKPerS),
    seenText: heatText,
    remedy: `${SPARE_THE_LEGS} Then heat slower, and wider than the damage.`,
  },
  {
    id: 'heat-near-limit',
    title: 'Heat near limit',
    priority: 'low',
    action: 'warn',
    latching: false,
    quantity: 'share',
    trips: 'above',
    limit: setting(80, 30, 95),
    deadband: setting(15, 5, 25),
    delayS: setting(2, 0, 10),
    // Beyond the limit itself the holding alarm takes over, and a held job cools by itself.
    armed: (c) => running(c) && (usedShare(c) ?? Number.POSITIVE_INFINITY) <= 1,
    seen: usedShare,
    expected: allowedText,
    seenText: heatText,
    remedy: 'Heat wider than the damage and slower. Leg tips must lie inside the warm patch.',
  },
  {
    id: 'daylight-set',
    title: 'Resin saw daylight',
    priority: 'medium',
    action: 'hold',
    latching: true,
    quantity: 'share',
    trips: 'above',
    limit: setting(100, 50, 100),
    deadband: fixed(0),
    delayS: atOnce,
    // Covered resin can only be replaced, and the person who resumes the job confirms that it was.
    armed: ({ openResin }) => openResin.lit,
    seen: ({ openResin }) => openResin.criticalShare,
    expected: { say: 'less-light' },
    seenText: daylightText,
    remedy:
      'Cover it from the light. Resin may have begun to set: put in a fresh drop, then go on.',
  },
  {
    id: 'daylight-near',
    title: 'Daylight on resin',
    priority: 'low',
    action: 'warn',
    latching: false,
    quantity: 'share',
    trips: 'above',
    limit: setting(50, 10, 90),
    deadband: fixed(0),
    delayS: atOnce,
    armed: ({ openResin }) => openResin.lit && (openResin.criticalShare ?? 0) <= 1,
    seen: ({ openResin }) => openResin.criticalShare,
    seenText: daylightText,
    remedy: 'Cover the break and the injector from the light, or start with a fresh drop.',
  },
];

function daylightText({ openResin }: AlarmContext): Phrase {
  return { say: 'light-share', with: { share: amountOf(openResin.criticalShare ?? 0, 'share') } };
}
