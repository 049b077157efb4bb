/**
 * Rows that nothing finds in a job, by hand: why this unit cannot know, and what its record then
 * must not claim. A row that stands here and of which the claim is still *shown* fails the campaign.
 * The same for limits that no second sense of this unit can hold, and for claims that rest on a
 * person's word, as they say.
 */
import type { JudgedClaim } from './claims.ts';

export interface Accepted {
  readonly why: string;
  /** What a record must leave open; null where no claim of a record rests on it. */
  readonly withdraws: JudgedClaim | null;
  /** Limits that nothing in this unit can hold then. */
  readonly passes?: readonly string[];
  /** Claims whose words say on whose word they rest, where that word is false. */
  readonly onWordOf?: readonly JudgedClaim[];
}

export const ACCEPTED: Readonly<Record<string, Accepted>> = {
  'relief-stuck-shut': {
    why: 'The valve is the last of three guards and no job comes near its pressure; only a test with a gauge opens it. Every record lists it under what it cannot show.',
    withdraws: null,
  },
  'stop-contact-shorted': {
    why: 'Nobody presses the stop in a sound job; one of its two contacts is proved by the guided test alone.',
    withdraws: 'interlocks',
  },
  'glass-stuck-heated': {
    why: 'Heat from outside while the glass sensor is stuck: no other sense of this unit feels the glass, and a sound thermistor may rest as a stuck one does (src/signal/README.md). Only the lamp’s own warmth in each cure shows that the sensor lives, and the record claims no temperature that was not so.',
    // Of the last seconds of a cure it may be claimed, and is true.
    withdraws: null,
    passes: ['glass-too-hot', 'interlayer-too-hot'],
  },
  'glass-off-hot-pane': {
    why: 'A thermistor that hangs in the air reads the air, and no other sense feels the glass before the lamp burns. Every record lists under what it cannot show how warm the glass was before; in the light the thermistor does not warm, and no temperature is claimed.',
    withdraws: 'temperature',
    passes: ['glass-too-hot'],
  },
  'supply-divider-short': {
    why: 'The supply is watched for being too low alone, and a divider that reads too much hides that. Nothing of a record rests on the supply: pump and lamp are judged by what they do.',
    withdraws: null,
  },
  'supply-divider-drift': {
    why: 'As a divider that is shorted: it reads too much, and nothing of a record rests on it.',
    withdraws: null,
  },
  'reference-drifts': {
    why: 'All sensors but the supply’s divider are fed by the reference, and their share of it stays. The supply reads a ninth too much, and nothing of a record rests on it.',
    withdraws: null,
  },
  'supply-dips': {
    why: 'A dip of a third of a second ends before the alarm for a low supply may tell of it. Pump and lamp are judged by what they do, and here they do enough.',
    withdraws: null,
  },
  sun: {
    why: 'In a job so short the sun warms the pane by less than its limits leave, so there is nothing to tell.',
    withdraws: null,
  },
  'says-all-well': {
    why: 'The unit does not see the break. Its claim says that a person found it filled, and the record lists what the break looks like under what it cannot show, and that the hose was open to the break.',
    withdraws: null,
    onWordOf: ['filled', 'pressure'],
  },
  'hose-blocked': {
    why: 'The transmitter sits at the pump’s end of the hose and reads the manifold; nothing feels the break’s end. Every record lists under what it cannot show that the hose was open to the break; a break that was not filled is seen by a person.',
    withdraws: null,
    onWordOf: ['pressure'],
  },
  'lamp-beside': {
    why: 'The sensor stands beside the lamp and sees its light wherever that falls. Every record lists under what it cannot show that the lamp stood on the break; the dose is that at the sensor, and a break that stays soft shows at the scrape.',
    withdraws: null,
    onWordOf: ['dose'],
  },
  'shield-on-nothing': {
    why: 'As a lamp beside the break: the shield is closed and the sensor sees the light. The resin stays liquid, and a person finds it so.',
    withdraws: null,
    onWordOf: ['dose'],
  },
  outgassing: {
    why: 'In a watch as short as here the gas that the break gives off raises the pressure by less than the converter resolves; in the 45 s of the demo profile the seal test names it. No claim of a record rests on it: the break is filled all the same, and a person sees it.',
    withdraws: null,
  },
  'hands-idle': {
    why: 'Most skipped steps are found. Where the injector was left on, the lamp stands beside the break: the sensor sees its light wherever that falls. Every record lists under what it cannot show that the lamp stood on the break, and a person finds the mark.',
    withdraws: null,
    onWordOf: ['dose'],
  },
  'film-left-on': {
    why: 'The sensor sees the lamp’s light whether or not the resin of the pit lies in its way. Every record lists under what it cannot show that the lamp stood on the break, and a person finds a film that is still there, and a pit that is not level.',
    withdraws: null,
    onWordOf: ['dose'],
  },
  'shield-cut-shorted': {
    why: 'Nobody lifts the shield in the light of a sound job, and nobody reads this contact: only the bring-up checklist proves it. Where it is shorted, the one that is read still puts the lamp off.',
    withdraws: 'interlocks',
  },
  'over-pressure-shorted': {
    why: 'The switch opens above every pressure of a job; it is proved by the guided test alone.',
    withdraws: 'interlocks',
  },
};

export interface AcceptedPair {
  readonly why: string;
  readonly one: readonly string[];
  readonly other: readonly string[];
  readonly passes: readonly string[];
}

/** Pairs that no third sense tells, by hand, each row of `one` with each of `other`. */
export const ACCEPTED_PAIRS: readonly AcceptedPair[] = [
  {
    why: 'Heat from outside, and a glass thermistor that hides it: two faults at one quantity, and no other sense of this unit feels the glass.',
    one: [
      'glass-stuck',
      'glass-off',
      'glass-offset',
      'glass-offset-start',
      'thermistors-exchanged',
    ],
    other: ['hot-pane', 'glass-heated', 'air-gun', 'sun'],
    passes: ['glass-too-hot', 'interlayer-too-hot'],
  },
  {
    why: 'A lamp whose driver stays on, and a shorted contact of the shield: both switches in the lamp’s supply that this unit has. The alarm says so, and to pull the lamp’s plug.',
    one: ['shield-cut-shorted'],
    other: ['lamp-stuck-on'],
    passes: ['lamp-with-shield-open'],
  },
];
