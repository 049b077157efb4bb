/**
 * Alarms of the thermistors themselves: heat sink and glass must be as warm as air, light and the
 * lamp's power say. Limits are demo values, derived beside each row. The ranges of a sound lamp and
 * pane are in `lamp-heat-settings.ts` and are taken off before.
 */
import type { AlarmRow, LampHeatLoad } from './alarm-row.ts';
import { curing, running, setting } from './alarm-terms.ts';

/** What a row judges, in kelvins, and how it is said. */
const kelvins = (
  key: keyof LampHeatLoad,
  say: 'too-cold-by' | 'too-warm-by' | 'apart-by',
): Pick<AlarmRow, 'seen' | 'seenText'> => ({
  seen: ({ lampHeat }) => lampHeat[key],
  seenText: ({ lampHeat }) => ({ say, with: { by: (lampHeat[key] ?? 0).toFixed(1) } }),
});

export const TEMPERATURE_ROWS: readonly AlarmRow[] = [
  {
    id: 'heat-sink-cold',
    title: 'Lamp not warming',
    priority: 'medium',
    action: 'hold',
    latching: true,
    quantity: 'temperatureDifference',
    trips: 'above',
    // A thermistor's contact lags by some seconds; less than this can be drift and draught.
    limit: setting(2, 1, 10),
    deadband: setting(0.5, 0.2, 2),
    delayS: setting(1, 0.2, 10),
    armed: curing,
    ...kelvins('sinkLackK', 'too-cold-by'),
    expected: { say: 'sink-warms' },
    remedy:
      'The lamp is dark, or the sensor of its heat sink is stuck or off. The dose is kept. Fix the sensor, then go on.',
  },
  {
    id: 'heat-sink-warm',
    title: 'Lamp over-warm',
    priority: 'medium',
    action: 'hold',
    latching: true,
    quantity: 'temperatureDifference',
    trips: 'above',
    // The same, and in the dark a stuck reading must be told while the glass is being scraped.
    limit: setting(2.5, 1, 20),
    deadband: setting(0.5, 0.2, 5),
    delayS: setting(1, 0.2, 10),
    // A held job's lamp is off, and a sensor that is put right jumps.
    armed: running,
    ...kelvins('sinkExcessK', 'too-warm-by'),
    expected: { say: 'sink-as-lamp' },
    remedy:
      'Its air is blocked, its driver is wrong, or its sensor does not follow. Let it cool, free the air slots, then go on.',
  },
  {
    id: 'glass-not-warmed',
    title: 'Glass not warmed',
    priority: 'low',
    action: 'warn',
    latching: false,
    quantity: 'temperatureDifference',
    trips: 'above',
    // Ten times what noise and a count leave of the smoothed reading.
    limit: setting(0.3, 0.2, 2),
    deadband: setting(0.1, 0.05, 1),
    delayS: setting(5, 1, 30),
    armed: curing,
    ...kelvins('glassLackK', 'too-cold-by'),
    expected: { say: 'glass-warms' },
    remedy:
      'The glass sensor is stuck or off the glass, or the light is not on it. Set it flat on the spot. The glass temperature of this job is not shown.',
  },
  {
    id: 'temperatures-apart',
    title: 'Temps differ',
    priority: 'low',
    action: 'warn',
    latching: false,
    quantity: 'temperatureDifference',
    trips: 'above',
    // A pane in 800 W/m2 of sun stands 10 to 12 K over the air (17 W/(m2 K), a fifth absorbed); a
    // room thermometer and both sensors add 3 K.
    limit: setting(15, 5, 30),
    deadband: setting(2, 0.5, 5),
    delayS: setting(10, 1, 60),
    armed: running,
    ...kelvins('apartK', 'apart-by'),
    expected: { say: 'temperatures-agree' },
    remedy:
      'Heat sink, glass and the air of the job sheet do not agree. If no sun and no cold car explains it, a sensor is wrong: temperatures are not shown.',
  },
];
