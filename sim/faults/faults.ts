/**
 * Faults as data: what goes wrong, when it begins, and what a technician can do about it, with a
 * schema and presets by name. The kinds are a table in `fault-kinds.ts`, their effects in
 * `fault-effects.ts`: a new one is a row in the first and an effect in the second.
 */
import { z } from 'zod';
import { CHANNELS, type Channel } from '../../src/core/frame.ts';
import { PHASES, type PhaseId } from '../../src/core/phases.ts';
import { choice, quantity } from '../../src/core/settings.ts';
import { type SeenStep, stepShownAs } from '../people/screen-reading.ts';
import { FAULT_KINDS, type FaultKind, faultRow } from './fault-kinds.ts';

/** What a technician does about it while the job is held. */
export const REMEDIES = [
  'reseat',
  'dry',
  'recharge',
  'film',
  'connect-hose',
  'close-shield',
  'warm',
  'shade',
  'repair',
] as const;
export type Remedy = (typeof REMEDIES)[number];

const atS = z.strictObject({ atS: quantity(0, 36_000, 's') });
const afterS = quantity(0, 3600, 's');
const inPhase = z.strictObject({
  phase: z.enum(Object.keys(PHASES) as [PhaseId, ...PhaseId[]], {
    error: 'a phase such as vacuum-dwell',
  }),
  afterS,
});
/**
 * A step as shown on the display: the number of a phase, or the mark of a guided procedure's step.
 */
const inStep = z.strictObject({
  step: z.string().transform((shown, payload): SeenStep => {
    const step = stepShownAs(shown);
    if (step !== null) return step;
    payload.issues.push({ code: 'custom', input: shown, message: 'a step such as 5.2, or P6' });
    return z.NEVER;
  }),
  afterS,
});

const faultFields = z.strictObject({
  kind: choice(FAULT_KINDS),
  /** Meaning and range depend on the kind. */
  amount: z.number().optional(),
  /** For sensor faults only. */
  channel: choice(CHANNELS).optional(),
  from: z.union([atS, inPhase, inStep], {
    error: '{ atS }, { phase, afterS } or { step, afterS }',
  }),
  lastsS: quantity(0.01, 36_000, 's').optional(),
  mendedBy: choice(REMEDIES).optional(),
});
export type Fault = z.infer<typeof faultFields>;

export const faultSchema = faultFields.check((payload) => {
  const { kind, amount, channel } = payload.value;
  const row = faultRow(kind);
  const refuse = (path: string, input: unknown, message: string): void =>
    void payload.issues.push({ code: 'custom', input, path: [path], message });
  if (amount !== undefined) {
    const { amount: range } = row;
    if (range === null) refuse('amount', amount, `nothing: ${kind} has no amount`);
    else if (!(amount >= range.min && amount <= range.max)) {
      refuse('amount', amount, `a number from ${range.min} to ${range.max} ${range.unit}`);
    }
  }
  if (row.actsOn === 'sensor' && channel === undefined) {
    refuse('channel', channel, `one of ${CHANNELS.join(', ')}`);
  }
  if (row.actsOn !== 'sensor' && channel !== undefined) {
    refuse('channel', channel, `nothing: ${kind} has no channel`);
  }
});

export interface FaultPreset {
  readonly title: string;
  readonly faults: readonly Fault[];
}

const START = { atS: 0 } as const;
const during = (phase: PhaseId, afterS: number) => ({ phase, afterS });
const sensor = (kind: FaultKind, channel: Channel, phase: PhaseId, afterS: number): Fault => ({
  kind,
  channel,
  from: during(phase, afterS),
  mendedBy: 'repair',
});

/** Fault presets by name, for the command line and the tests of whole repairs. */
export const FAULT_PRESETS: Readonly<Record<string, FaultPreset>> = {
  'leaky-seal': {
    title: 'grit under the seal',
    faults: [{ kind: 'seal-leak', from: START, mendedBy: 'reseat' }],
  },
  'loose-clamp': {
    title: 'the clamp was not turned home: pressure lifts the foot',
    faults: [{ kind: 'clamp-loose', amount: 30, from: START, mendedBy: 'reseat' }],
  },
  'short-charge': {
    title: 'too little resin was put into the injector: it runs dry',
    faults: [{ kind: 'short-charge', amount: 3, from: START, mendedBy: 'recharge' }],
  },
  'wet-break': {
    title: 'water was left in the break',
    faults: [{ kind: 'wet-break', from: START, mendedBy: 'dry' }],
  },
  outgassing: {
    title: 'the faces of the break give off gas under vacuum',
    faults: [{ kind: 'outgassing', from: START }],
  },
  'hose-off': {
    title: 'the hose comes off in the vacuum dwell',
    faults: [{ kind: 'hose-off', from: during('vacuum-dwell', 20), mendedBy: 'connect-hose' }],
  },
  'cold-pane': {
    title: 'the pane comes in from the cold',
    faults: [{ kind: 'cold-pane', amount: 276.15, from: START, mendedBy: 'warm' }],
  },
  'hot-glass': {
    title: 'the pane comes in from the sun',
    faults: [{ kind: 'hot-pane', amount: 325, from: START, mendedBy: 'shade' }],
  },
  'heated-too-fast': {
    title: 'a hot air gun on the break during pressure',
    faults: [
      { kind: 'air-gun', amount: 323.15, from: during('pressure-dwell', 10), mendedBy: 'shade' },
    ],
  },
  daylight: {
    title: 'the sun finds the break while resin waits in it',
    faults: [{ kind: 'daylight', amount: 20, from: during('evacuate', 5), mendedBy: 'shade' }],
  },
  'weak-lamp': {
    title: 'an aged lamp: the cure takes longer',
    faults: [{ kind: 'lamp-aged', amount: 0.65, from: START }],
  },
  'worn-out-lamp': {
    title: 'a lamp too weak to finish',
    faults: [{ kind: 'lamp-aged', amount: 0.4, from: START }],
  },
  'dead-lamp': {
    title: 'the lamp gives no light',
    faults: [{ kind: 'lamp-dead', from: during('cure', 60), mendedBy: 'repair' }],
  },
  'stuck-lamp': {
    title: 'the lamp stays on',
    faults: [{ kind: 'lamp-stuck-on', from: during('cure', 200) }],
  },
  'frozen-light-sensor': {
    title: 'the lamp dies and the light reading freezes but for its last digit',
    faults: [
      { kind: 'lamp-dead', from: during('cure', 10) },
      sensor('sensor-dither', 'irradiance', 'cure', 10),
    ],
  },
  'light-gain': {
    title: 'the light sensor reads twice what there is',
    faults: [{ kind: 'sensor-gain', channel: 'irradiance', amount: 2, from: START }],
  },
  'light-zero': {
    title: 'the light sensor reads light in the dark, over a weak lamp',
    faults: [
      { kind: 'sensor-offset', channel: 'irradiance', amount: 51, from: during('place-lamp', 0) },
      { kind: 'lamp-aged', amount: 0.6, from: during('place-lamp', 0) },
    ],
  },
  'hot-lamp': {
    title: 'the lamp cannot shed its heat',
    faults: [{ kind: 'heat-sink-hot', amount: 25, from: during('cure', 10), mendedBy: 'repair' }],
  },
  'shield-opened': {
    title: 'the shield is lifted in mid-cure',
    faults: [{ kind: 'shield-opened', from: during('cure', 90), mendedBy: 'close-shield' }],
  },
  'emergency-stop': {
    title: 'the emergency stop is pressed under pressure',
    faults: [{ kind: 'emergency-stop', from: during('pressure-dwell', 30) }],
  },
  'dead-pump': {
    title: 'the pump does not turn',
    faults: [{ kind: 'pump-dead', from: during('evacuate', 0.2), mendedBy: 'repair' }],
  },
  'runaway-pump': {
    title: 'the pump stays on under pressure',
    faults: [{ kind: 'pump-stuck-on', from: during('pressure-dwell', 5) }],
  },
  'stuck-vent': {
    title: 'the vent does not open',
    faults: [{ kind: 'vent-stuck-closed', from: during('pressure-dwell', 5) }],
  },
  'stuck-pressure-sensor': {
    title: 'the pressure reading freezes',
    faults: [sensor('sensor-stuck', 'pressure', 'vacuum-dwell', 10)],
  },
  'drifting-sensor': {
    title: 'the pressure reading drifts by 4 kPa',
    faults: [
      {
        kind: 'sensor-offset',
        channel: 'pressure',
        amount: 8,
        from: during('vacuum-dwell', 10),
        mendedBy: 'repair',
      },
    ],
  },
  'broken-pressure-wire': {
    title: 'the pressure signal is lost',
    faults: [sensor('sensor-open', 'pressure', 'pressure-dwell', 20)],
  },
  'broken-light-wire': {
    title: 'the light signal is lost',
    faults: [sensor('sensor-open', 'irradiance', 'cure', 30)],
  },
  'over-pressure-switch': {
    title: 'the over-pressure switch opens',
    faults: [{ kind: 'over-pressure-switch', from: during('pressure-dwell', 10) }],
  },
  'low-supply': {
    title: 'the battery runs down',
    faults: [
      { kind: 'supply-low', amount: 9.8, from: during('pressurise', 0.5), mendedBy: 'repair' },
    ],
  },
  'cut-buttons': {
    title: 'the plug of the buttons comes loose for twenty seconds',
    faults: [{ kind: 'ladder-open', from: during('vacuum-dwell', 10), lastsS: 20 }],
  },
  'stuck-hold': {
    title: 'HOLD is leant on for half a minute',
    faults: [{ kind: 'hold-stuck', from: during('pressure-dwell', 20), lastsS: 30 }],
  },
  'early-yes': {
    title: 'YES is pressed before each step is read and done',
    faults: [{ kind: 'yes-early', from: START }],
  },
  'double-press': {
    title: 'every button is pressed twice',
    faults: [{ kind: 'double-press', from: START }],
  },
  'walks-off': {
    title: 'the person walks off for ten minutes with vacuum on the glass',
    faults: [{ kind: 'walks-off', from: during('ask-bubbles', 0), lastsS: 600 }],
  },
  'lifted-injector': {
    title: 'the injector is lifted under pressure and set down again',
    faults: [{ kind: 'injector-lifted', from: during('pressure-dwell', 20), lastsS: 2 }],
  },
  'no-resin': {
    title: 'YES to the resin, and none was put in',
    faults: [{ kind: 'hands-idle', from: during('charge-injector', 0), lastsS: 20 }],
  },
  'wrong-bottle': {
    title: 'a resin that needs twelve times the dose is in the injector',
    faults: [{ kind: 'wrong-bottle', amount: 12, from: START }],
  },
  'film-left-off': {
    title: 'the pit is cured without its film',
    faults: [{ kind: 'film-left-off', from: during('cover-film', 0), mendedBy: 'film' }],
  },
  'film-left-on': {
    title: 'the film is left on at the scrape',
    faults: [{ kind: 'film-left-on', from: during('scrape', 0) }],
  },
  'mute-link': {
    title: 'the board falls silent for two seconds',
    faults: [{ kind: 'link-mute', from: during('pressure-dwell', 20), lastsS: 2 }],
  },
  'late-frame': {
    title: 'one frame comes late',
    faults: [{ kind: 'link-late', amount: 0.4, from: during('pressure-dwell', 20), lastsS: 0.04 }],
  },
  'spoilt-message': {
    title: 'noise on the cable spoils one message',
    faults: [{ kind: 'link-spoilt', from: during('pressure-dwell', 20), lastsS: 0.04 }],
  },
  'missing-frames': {
    title: 'some frames never arrive',
    faults: [{ kind: 'link-gap', from: during('pressure-dwell', 20), lastsS: 0.04 }],
  },
  'board-restart': {
    title: 'the watchdog of the board restarts it',
    faults: [{ kind: 'board-restart', from: during('pressure-dwell', 20), lastsS: 0.04 }],
  },
  'fast-board-clock': {
    title: 'the board counts 1.34 s for each second',
    faults: [{ kind: 'board-clock', amount: 1.34, from: START }],
  },
  'slow-board-clock': {
    title: 'the board counts 0.75 s for each second',
    faults: [{ kind: 'board-clock', amount: 0.75, from: during('cure', 5) }],
  },
  'board-stands-still': {
    title: 'the board sends the same moment for two seconds',
    faults: [{ kind: 'board-stall', from: during('pressure-dwell', 20), lastsS: 2 }],
  },
};
