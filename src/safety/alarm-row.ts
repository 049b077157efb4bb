/**
 * Defines an alarm as data: when it is armed, what it observes, its limit, delay and deadband, its
 * action and its words. The rows are in `alarm-table.ts`, their states in `alarm-states.ts`. The
 * context is plain values that the controller gathers each tick.
 */

import type { AlarmId } from '../core/alarm-ids.ts';
import type { AlarmAction, AlarmPriority, BatchState, GapFailure } from '../core/events.ts';
import type { ProvedSwitch, Reading } from '../core/frame.ts';
import type { PhaseId } from '../core/phases.ts';
import type { Phrase } from '../core/phrases.ts';
import type { Quantity } from './scales.ts';

export interface AlarmContext {
  readonly reading: Reading;
  readonly batch: BatchState;
  readonly phase: PhaseId;
  /** Time in the phase while running, s. */
  readonly phaseElapsedS: number;
  /** What is asked for, or where the chamber was shut off: no pump may draw it below that. */
  readonly setPointPa: number | null;
  readonly atmospherePa: number | null;
  readonly leakRatePaM3PerS: number | null;
  readonly frameGapS: number;
  /** Time since the link last delivered anything new, s. */
  readonly silentS: number;
  /**
   * The board's clock against the host's: the worst deviation so far as a share, and how long it
   * has stood, s.
   */
  readonly clockOffRatio: number;
  readonly clockStoodS: number;
  /** How long the ladder of the buttons has not been at rest, s. */
  readonly buttonDownForS: number;
  /** The shield was seen open before this cure. */
  readonly shieldShown: boolean;
  /** Time between late frames that counts for nothing, as a share of the last seconds. */
  readonly uncountedShare: number;
  /** Where a calculation of the unit's own gave no number; null while all of them are numbers. */
  readonly lostNumber: string | null;
  /** How long the lamp has been off for a check of the dark during a cure, s; null otherwise. */
  readonly darkLookS: number | null;
  /**
   * Present light relative to what this lamp is known to give at this drive and heat sink; null
   * where that is not known.
   */
  readonly lightShareRatio: number | null;
  /** How long the lit reading has been off its level since the lamp was switched on, s. */
  readonly lightOddS: number;
  /** An interruption of the lamp failed in this tick. */
  readonly gapFailed: GapFailure | null;
  /** How far the pump's work must have moved the pressure beyond what is read, Pa. */
  readonly pumpAheadPa: number;
  /** Leak that the pump makes up for in a dwell, at the air's pressure; null while not judged. */
  readonly dwellLeakPaM3PerS: number | null;
  /** Durations, s: the lamp is on, it is dark, the vent is open. */
  readonly lampOnForS: number;
  readonly lampOffForS: number;
  readonly ventOpenForS: number;
  /**
   * Light time of the whole cure at the present irradiance, s; null while there is none to judge
   * by.
   */
  readonly cureNeedsS: number | null;
  /** The same at the lamp's last known output, before it is switched on. */
  readonly lampForecastS: number | null;
  /**
   * The spot relative to the surrounding pane; the limits are the unit's, or lower for this leg.
   */
  readonly heating: HeatLoad;
  readonly openResin: OpenResinLoad;
  /** The switch that a person opens on purpose, for its proof; null otherwise. */
  readonly proving: ProvedSwitch | null;
  readonly lampHeat: LampHeatLoad;
  /** What the self-test still finds wrong; empty when it passes. */
  readonly selfTestFindings: readonly Phrase[];
  /** Limits of the profile in force. */
  readonly profile: AlarmProfile;
}

export interface HeatLoad {
  /** Null while it is not watched. */
  readonly spotOverPaneK: number | null;
  readonly rateKPerS: number | null;
  readonly allowedSpotOverPaneK: number;
  readonly allowedRateKPerS: number;
  /** The longest leg, or the radius of a break without legs. */
  readonly legM: number;
  /** Upper bound on the combined effect of both at its tip. */
  readonly stressIntensityPaSqrtM: number;
}

/** Both thermistors against the air, each other and the lamp's power; null where nothing is judged. */
export interface LampHeatLoad {
  /** How far the lit heat sink is below the slowest rise, and above the quickest, K. */
  readonly sinkLackK: number | null;
  readonly sinkExcessK: number | null;
  /** How far the lit glass is below the least rise that its light must give, K. */
  readonly glassLackK: number | null;
  /** The greatest difference of heat sink, glass and air at rest, less what an unsettled unit explains, K. */
  readonly apartK: number | null;
}

export interface OpenResinLoad {
  /**
   * Daylight so far as a share of the resin's setting dose; null while closed or where that is not
   * known.
   */
  readonly criticalShare: number | null;
  /** Light falls on it now. */
  readonly lit: boolean;
}

export interface AlarmProfile {
  readonly lowestPa: number;
  readonly highestGaugePa: number;
  readonly reachWithinS: number | null;
  readonly answerWithinS: number | null;
  readonly leakLimitPaM3PerS: number;
  readonly lowestGlassK: number;
  readonly highestGlassK: number;
  readonly longestCureS: number;
}

/**
 * A setting in the row's trade unit (seconds for delays), with the range allowed in a unit file.
 */
export interface Setting {
  readonly default: number;
  readonly min: number;
  readonly max: number;
}

export interface AlarmRow {
  readonly id: AlarmId;
  /** The title in the record; a catalogue has its own words for the display. */
  readonly title: string;
  readonly priority: AlarmPriority;
  readonly action: AlarmAction;
  readonly latching: boolean;
  readonly quantity: Quantity;
  readonly trips: 'above' | 'below';
  readonly limit: Setting;
  readonly deadband: Setting;
  readonly delayS: Setting;
  readonly armed: (context: AlarmContext) => boolean;
  /** SI; null where there is nothing to judge, which leaves the alarm unchanged. */
  readonly seen: (context: AlarmContext) => number | null;
  /** The limit in force, SI: the setting, or a tighter one from the profile. */
  readonly limitSI?: ((context: AlarmContext, settingSI: number) => number) | undefined;
  /** Instead of 'at most 172.0 kPa'. */
  readonly expected?: Phrase | ((context: AlarmContext) => Phrase) | undefined;
  /** Instead of the value with its unit. */
  readonly seenText?: ((context: AlarmContext) => Phrase) | undefined;
  /** In the record, like the title. */
  readonly remedy: string;
}
