/** Pump, vent, selector, hose, seal, relief valve, lamp, supply, and the contacts. */
import { AIR_PHASES, AT_START, LIGHT_PHASES, one, type Row } from './row.ts';

export const AIR_ROWS: readonly Row[] = [
  { id: 'pump-dead', title: 'pump dead', faults: [one('pump-dead')] },
  { id: 'pump-stuck-on', title: 'pump stuck at full drive', faults: [one('pump-stuck-on')] },
  { id: 'pump-stuck-part', title: 'pump stuck at 30 %', faults: [one('pump-stuck-at', 0.3)] },
  {
    id: 'pump-worn',
    title: 'pump moves 30 %',
    faults: [one('pump-worn', 0.3)],
    phases: AIR_PHASES,
  },
  {
    id: 'pump-worn-out',
    title: 'pump moves 5 %',
    faults: [one('pump-worn', 0.05)],
    phases: AIR_PHASES,
  },
  { id: 'pump-reversed', title: 'pump’s ports exchanged', faults: [one('pump-reversed')] },
  { id: 'vent-stuck-closed', title: 'vent stuck shut', faults: [one('vent-stuck-closed')] },
  { id: 'vent-stuck-open', title: 'vent stuck open', faults: [one('vent-stuck-open')] },
  { id: 'vent-slow', title: 'vent passes 2 %', faults: [one('vent-slow', 0.02)] },
  { id: 'vent-drive-shorted', title: 'vent driver shorted', faults: [one('vent-drive-shorted')] },
  {
    id: 'selector-vacuum',
    title: 'selector stuck at vacuum',
    faults: [one('selector-stuck-vacuum')],
  },
  {
    id: 'selector-pressure',
    title: 'selector stuck at pressure',
    faults: [one('selector-stuck-pressure')],
  },
  {
    id: 'selector-leaks',
    title: 'selector leaks 0.002 dm3/(s bar)',
    faults: [one('selector-leaks', 0.002)],
  },
  {
    id: 'selector-leaks-much',
    title: 'selector leaks 0.02 dm3/(s bar)',
    faults: [one('selector-leaks', 0.02)],
  },
  {
    id: 'leak-in-dwell',
    title: 'a hole of three times the seal test’s limit opens in a dwell',
    faults: [one('selector-leaks', 0.00015)],
    phases: ['vacuum-dwell', 'pressure-dwell'],
  },
  { id: 'hose-off', title: 'hose off', faults: [one('hose-off')], phases: AIR_PHASES },
  {
    id: 'hose-kinked',
    title: 'hose passes 0.2 %',
    faults: [one('hose-kinked', 0.002)],
    phases: AIR_PHASES,
  },
  {
    id: 'hose-blocked',
    title: 'hose blocked by resin',
    faults: [one('hose-kinked', 0)],
    phases: AIR_PHASES,
  },
  {
    id: 'hose-splits',
    title: 'hose splits, 0.001 dm3/(s bar) more each minute',
    faults: [one('hose-splits', 0.001)],
    phases: AIR_PHASES,
  },
  { id: 'seal-leak', title: 'seal leaks', faults: [one('seal-leak')], phases: AIR_PHASES },
  { id: 'wet-break', title: 'water in the break', faults: [one('wet-break')], phases: AIR_PHASES },
  {
    id: 'outgassing',
    title: 'the break gives off gas',
    faults: [one('outgassing')],
    phases: AIR_PHASES,
  },
  {
    id: 'relief-stuck-shut',
    title: 'relief valve stuck shut',
    faults: [one('relief-stuck-shut')],
    phases: AT_START,
  },
  {
    id: 'relief-early',
    title: 'relief valve opens at 120 kPa',
    faults: [one('relief-opens-early', 120_000)],
    phases: AIR_PHASES,
  },
  {
    id: 'relief-very-early',
    title: 'relief valve opens at 50 kPa',
    faults: [one('relief-opens-early', 50_000)],
    phases: AIR_PHASES,
  },
  {
    id: 'injector-lifted',
    title: 'the injector is lifted off the glass for two seconds',
    faults: [one('injector-lifted', undefined, { lastsS: 2 })],
    phases: AIR_PHASES,
  },
];

export const LAMP_ROWS: readonly Row[] = [
  {
    id: 'lamp-aged',
    title: 'lamp at 65 %',
    faults: [one('lamp-aged', 0.65)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'lamp-worn-out',
    title: 'lamp at 35 %',
    faults: [one('lamp-aged', 0.35)],
    phases: LIGHT_PHASES,
  },
  { id: 'lamp-dead', title: 'lamp dead', faults: [one('lamp-dead')], phases: LIGHT_PHASES },
  { id: 'lamp-stuck-on', title: 'lamp stuck at full drive', faults: [one('lamp-stuck-on')] },
  {
    id: 'lamp-undimmed',
    title: 'lamp at full when less is asked for',
    faults: [one('lamp-undimmed')],
    phases: LIGHT_PHASES,
  },
  {
    id: 'lamp-flickers',
    title: 'lamp flickers, 0.4 s a period',
    faults: [one('lamp-flickers', 0.4)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'lamp-blinks',
    title: 'lamp goes out for half of every 10 s',
    faults: [one('lamp-flickers', 10)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'lamp-beside',
    title: 'lamp not over the break: 30 % of its light falls on it',
    faults: [one('lamp-beside', 0.3)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'shield-on-nothing',
    title: 'shield closed beside the break: no light falls on it',
    faults: [one('lamp-beside', 0)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'lamp-fan-dead',
    title: 'lamp cannot shed 25 W',
    faults: [one('heat-sink-hot', 25)],
    phases: LIGHT_PHASES,
  },
  {
    id: 'cut-out-shorted',
    title: 'thermal cut-out shorted, and 25 W that the lamp cannot shed',
    faults: [one('cut-out-shorted'), one('heat-sink-hot', 25)],
    phases: LIGHT_PHASES,
  },
  { id: 'glass-heated', title: '5 W on the spot', faults: [one('glass-hot', 5)] },
  { id: 'air-gun', title: 'air gun of 60 °C on the spot', faults: [one('air-gun', 333.15)] },
  { id: 'sun', title: 'sun of 800 W/m2 on the pane', faults: [one('sun', 800)] },
  {
    id: 'hot-pane',
    title: 'pane comes in at 52 °C',
    faults: [one('hot-pane', 325)],
    phases: AT_START,
  },
  {
    id: 'cold-pane',
    title: 'pane comes in at 3 °C',
    faults: [one('cold-pane', 276.15)],
    phases: AT_START,
  },
  { id: 'daylight', title: 'sun on open resin', faults: [one('daylight', 20)] },
  { id: 'supply-low', title: 'supply at 9.8 V', faults: [one('supply-low', 9.8)] },
  { id: 'supply-dips', title: 'supply dips to 7 V every 5 s', faults: [one('supply-dips', 7)] },
  {
    id: 'brown-out',
    title: 'supply at 4 V for a third of a second, and the board restarts',
    faults: [
      one('supply-low', 4, { lastsS: 0.3 }),
      one('board-restart', undefined, { lastsS: 0.3 }),
    ],
  },
];

/** A contact that is shorted shows when its switch should have told something. */
export const CONTACT_ROWS: readonly Row[] = [
  {
    id: 'over-pressure-switch',
    title: 'over-pressure switch open',
    faults: [one('over-pressure-switch')],
  },
  {
    id: 'over-pressure-shorted',
    title: 'over-pressure switch shorted',
    faults: [one('over-pressure-shorted')],
    phases: AIR_PHASES,
  },
  {
    id: 'over-pressure-shorted-pump-on',
    title: 'over-pressure switch shorted, and the pump stuck on',
    faults: [
      one('over-pressure-shorted'),
      one('pump-stuck-on', undefined, { begins: { afterS: 5 } }),
    ],
    phases: AIR_PHASES,
  },
  { id: 'shield-opened', title: 'shield lifted', faults: [one('shield-opened')] },
  {
    id: 'shield-read-shorted',
    title: 'the shield’s contact that is read is shorted from power-up',
    faults: [one('shield-read-shorted', undefined, { begins: 'at-power-up' })],
    phases: AT_START,
  },
  {
    id: 'shield-read-shorted-later',
    title: 'the shield’s contact that is read is shorted',
    faults: [one('shield-read-shorted')],
    phases: LIGHT_PHASES,
  },
  {
    id: 'shield-read-shorted-opened',
    title: 'the shield’s contact that is read is shorted, and the shield lifted 5 s later',
    faults: [
      one('shield-read-shorted'),
      one('shield-opened', undefined, { begins: { afterS: 5 } }),
    ],
    phases: LIGHT_PHASES,
  },
  {
    id: 'shield-cut-shorted',
    title: 'the shield’s contact that cuts the lamp’s supply is shorted, and nobody lifts it',
    faults: [one('shield-cut-shorted', undefined, { begins: 'at-power-up' })],
    phases: AT_START,
  },
  {
    id: 'shield-cut-shorted-opened',
    title: 'the shield’s contact that cuts the lamp’s supply is shorted, and the shield lifted',
    faults: [one('shield-cut-shorted'), one('shield-opened', undefined, { begins: { afterS: 5 } })],
    phases: LIGHT_PHASES,
  },
  { id: 'emergency-stop', title: 'emergency stop pressed', faults: [one('emergency-stop')] },
  {
    id: 'stop-read-shorted',
    title: 'the stop’s contact that is read is shorted, and it is pressed',
    faults: [one('stop-read-shorted'), one('emergency-stop', undefined, { begins: { afterS: 2 } })],
  },
  {
    id: 'stop-cut-shorted',
    title: 'the stop’s contact that cuts off is shorted, and it is pressed',
    faults: [one('stop-cut-shorted'), one('emergency-stop', undefined, { begins: { afterS: 2 } })],
  },
  {
    id: 'stop-contact-shorted',
    title: 'one contact of the stop is shorted, and nobody presses it',
    faults: [one('stop-read-shorted')],
    phases: AT_START,
  },
  { id: 'yes-stuck', title: 'YES stays down', faults: [one('yes-stuck')] },
  { id: 'no-stuck', title: 'NO stays down', faults: [one('no-stuck')] },
  { id: 'no-reads-yes', title: 'NO reads as YES', faults: [one('no-reads-yes')] },
  { id: 'hold-stuck', title: 'HOLD stays down', faults: [one('hold-stuck')] },
  { id: 'buttons-shorted', title: 'the buttons’ wire shorted', faults: [one('ladder-shorted')] },
  { id: 'buttons-open', title: 'the buttons’ wire open', faults: [one('ladder-open')] },
  {
    id: 'buttons-wet',
    title: '10 kΩ of water at the buttons',
    faults: [one('ladder-wet', 10_000)],
  },
  {
    id: 'no-drifts',
    title: 'NO’s resistor a quarter too large',
    faults: [one('no-drifts', 1.25)],
  },
];
