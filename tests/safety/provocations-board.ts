/** Faults of sensors, supply, people, board and line, provoked in a hand-made unit. */

import type { Procedure } from '../../src/control/procedure.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { APART } from '../control/apart-driver.ts';
import { TICK_S, unitAtRest } from '../steered-unit.ts';
import { inPhase, type Provocation, soIn, soInLight, UNLIMITED } from './provocation.ts';

const DWELL = inPhase('vacuum-dwell');

/** A repair whose heat watch miscalculates in every tick without the host's time. */
const MISCALCULATING: Procedure<Repair> = {
  ...UNLIMITED,
  watch: (state, reading, config, dtS) => {
    const scene = UNLIMITED.watch(state, reading, config, dtS);
    if (reading.hostTimeS !== null) return scene;
    return { ...scene, heat: { ...scene.heat, spotOverPaneK: Number.NaN } };
  },
};

export const BOARD_PROVOCATIONS: Readonly<Record<string, Provocation>> = {
  'pressure-sensor': soIn('pressure-dwell', { counts: { pressure: 0 } }),
  'irradiance-sensor': soInLight({ counts: { irradiance: 0 } }),
  'glass-sensor': soIn('vacuum-dwell', { counts: { glassTemperature: 1023 } }),
  'heat-sink-sensor': soInLight({ counts: { heatSinkTemperature: 0 } }),
  // No count of the divider is beyond belief: only one that never came is.
  'supply-sensor': soIn('vacuum-dwell', { counts: { supplyVoltage: null } }),
  'supply-low': { start: DWELL, play: (v) => ({ supplyV: v }), step: 0.1, lively: true },
  'self-test': {
    start: () => unitAtRest(UNLIMITED, APART),
    // Not at the air's pressure.
    play: () => ({ pressurePa: 30_000 }),
    runsS: (s) => s,
    lively: false,
  },
  'no-answer': {
    start: inPhase('ask-bubbles'),
    play: () => ({}),
    runsS: (s) => s,
    lively: true,
  },
  'buttons-open': soIn('vacuum-dwell', { ladder: 'open' }),
  'button-stuck': {
    start: DWELL,
    play: () => ({ ladder: 'no' }),
    runsS: (s) => s,
    lively: true,
  },
  'button-unclear': soIn('vacuum-dwell', { ladder: 'between' }),
  'frames-late': {
    start: DWELL,
    // One frame; more of them would be too rare as well.
    play: (s) => (sinceS) => (sinceS === 0 ? { gapS: s } : {}),
    step: 0.01,
    followsS: TICK_S,
    lively: true,
  },
  'frames-rare': {
    start: DWELL,
    // Of each interval 0.1 s counts.
    play: (percent) => ({ gapS: 0.1 / (1 - percent / 100) }),
    step: 1,
    // 40 % of two intervals, 0.33 s, smoothed over 2 s.
    over: 40,
    seenAfterS: TICK_S,
    followsS: 4,
    lively: true,
  },
  'link-lost': {
    start: DWELL,
    play: () => ({ mute: true }),
    // The first mute frame comes a tick after what was heard last.
    runsS: (s) => s - TICK_S,
    lively: true,
  },
  'board-clock': {
    start: DWELL,
    play: (percent) => ({ gapS: TICK_S * (1 + percent / 100), hostGapS: TICK_S }),
    step: 0.1,
    // 3 % less 0.2 s of delay come to 1 % after 10 s, told by looks of 5 s from up to 10 s before.
    over: 3,
    seenAfterS: 15,
    slackS: 5,
    quietS: 70,
    endures: true,
    lively: true,
  },
  'frames-stand-still': {
    start: DWELL,
    play: () => ({ gapS: 0, hostGapS: TICK_S }),
    runsS: (s) => s - TICK_S,
    lively: true,
  },
  'message-spoilt': soIn('vacuum-dwell', { damaged: true }),
  'frames-missing': soIn('vacuum-dwell', { gap: true }),
  'board-tripped': soIn('vacuum-dwell', { trips: ['watchdog'] }),
  'trip-stays': soIn('vacuum-dwell', { trips: ['shield'] }),
  'lost-number': {
    start: inPhase('vacuum-dwell', { procedure: MISCALCULATING }),
    play: (lost) => (lost > 0 ? { hostGapS: null } : {}),
    // The rooms of the state are checked in turns, one of three a tick.
    seenAfterS: 0.1,
    slackS: 0.1,
    lively: true,
  },
};
