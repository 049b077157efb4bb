import { describe, expect, test } from 'vitest';
import { FAULT_KINDS, FAULT_TABLE, type FaultKind } from '../../../sim/faults/fault-kinds.ts';
import { FAULT_PRESETS, type Fault, faultSchema } from '../../../sim/faults/faults.ts';
import { CHANNELS } from '../../../src/core/frame.ts';
import { checkSettings } from '../../../src/core/settings.ts';
import { closedBoard, EVACUATE, LIGHT, outputsOf, runFor } from '../board/lock-step.ts';
import { AIR_CASES } from './air-cases.ts';
import { type Case, counts, lagS, PRESS_SLOWLY, truth } from './fault-case.ts';
import { SENSING_CASES } from './sensing-cases.ts';

/** Here below, in people.test.ts, and in tests/repairs/finite-resin.test.ts. */
type TriedElsewhere =
  | 'short-charge'
  | 'link-mute'
  | 'link-late'
  | 'supply-dips'
  | 'frames-repeated'
  | 'yes-stuck'
  | 'no-stuck'
  | 'hold-stuck'
  | 'ladder-shorted'
  | 'ladder-open'
  | 'ladder-wet'
  | 'no-drifts'
  | 'no-reads-yes'
  | 'hands-idle'
  | 'says-all-well'
  | 'film-left-off'
  | 'film-left-on'
  | 'yes-early'
  | 'double-press'
  | 'walks-off'
  | 'wrong-bottle';

/** Each kind against a twin without it: it acts for 10 s and ends. */
const CASES: Readonly<Record<Exclude<FaultKind, TriedElsewhere>, Case>> = {
  ...AIR_CASES,
  ...SENSING_CASES,
  'seal-leak': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 1_000, recoverS: 20 },
  'hose-off': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 50_000, recoverS: 20 },
  'wet-break': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 100, recoverS: 20 },
  outgassing: { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 20, recoverS: 20 },
  'pump-worn': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 2_000, recoverS: 20 },
  'lamp-aged': { outputs: LIGHT, seen: truth('irradianceWPerM2'), atLeast: 90, recoverS: 1 },
  'heat-sink-hot': { outputs: LIGHT, seen: truth('heatSinkK'), atLeast: 3, recoverS: 200 },
  'glass-hot': { outputs: {}, seen: truth('glassK'), atLeast: 1.5, recoverS: 200 },
  'air-gun': { outputs: {}, seen: truth('glassK'), atLeast: 5, recoverS: 500 },
  sun: { outputs: {}, seen: truth('glassK'), atLeast: 0.1, recoverS: 1000 },
  'cold-pane': { outputs: {}, seen: truth('glassK'), atLeast: 19, recoverS: 500 },
  'hot-pane': { outputs: {}, seen: truth('glassK'), atLeast: 25, recoverS: 500 },
  daylight: {
    shieldOpen: true,
    outputs: {},
    seen: (frame) => frame.counts.irradiance ?? Number.NaN,
    atLeast: 39,
    recoverS: 1,
  },
  'supply-low': {
    outputs: {},
    seen: (frame) => frame.counts.supplyVoltage ?? 0,
    atLeast: 138,
    recoverS: 1,
  },
  'pump-dead': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 8_000, recoverS: 20 },
  'pump-stuck-on': {
    outputs: {},
    seen: (_, v) => v.truth.acting.pumpRatio,
    atLeast: 1,
    recoverS: 1,
  },
  'vent-stuck-closed': {
    outputs: {},
    seen: (_, { truth: { acting } }) => Number(acting.ventOpen),
    atLeast: 1,
    recoverS: 1,
  },
  'lamp-dead': { outputs: LIGHT, seen: truth('irradianceWPerM2'), atLeast: 180, recoverS: 1 },
  'lamp-stuck-on': { outputs: {}, seen: truth('irradianceWPerM2'), atLeast: 180, recoverS: 1 },
  'sensor-stuck': { outputs: PRESS_SLOWLY, seen: counts, atLeast: 50, recoverS: 1 },
  'sensor-open': { outputs: {}, seen: counts, atLeast: 300, recoverS: 1 },
  'sensor-short': { outputs: {}, seen: counts, atLeast: 700, recoverS: 1 },
  'sensor-dither': { outputs: PRESS_SLOWLY, seen: counts, atLeast: 50, recoverS: 1 },
  'sensor-gain': { outputs: {}, seen: counts, atLeast: 200, recoverS: 1 },
  'sensor-offset': {
    fault: { amount: 60 },
    outputs: {},
    seen: counts,
    atLeast: 60,
    recoverS: 1,
  },
  'over-pressure-switch': {
    outputs: PRESS_SLOWLY,
    seen: (frame) => Number(frame.switches.overPressureTripped),
    atLeast: 1,
    recoverS: 1,
  },
  'emergency-stop': {
    outputs: PRESS_SLOWLY,
    seen: (frame) => Number(frame.switches.emergencyStopPressed),
    atLeast: 1,
    recoverS: 1,
  },
  'shield-opened': {
    outputs: LIGHT,
    seen: (frame) => Number(frame.switches.shieldClosed),
    atLeast: 1,
    recoverS: 1,
  },
  'link-spoilt': { outputs: {}, seen: ({ damaged }) => Number(damaged), atLeast: 1, recoverS: 1 },
  'link-gap': { outputs: {}, seen: ({ gap }) => Number(gap), atLeast: 1, recoverS: 1 },
  // How far the board's clock has come in ten seconds, against the host's.
  'board-clock': { outputs: {}, seen: lagS, atLeast: 3.3, recoverS: 1, stays: true },
  'board-stall': { outputs: {}, seen: lagS, atLeast: 9.9, recoverS: 1, stays: true },
  'board-restart': {
    outputs: { clearTrips: true },
    seen: ({ trips }) => Number(trips.includes('watchdog')),
    atLeast: 1,
    recoverS: 1,
  },
};

const FROM_S = 5;
const LASTS_S = 10;

/** What is seen at the end of the fault and after recovery, with these faults. */
function seenWith(faults: readonly Fault[], row: Case) {
  const { outputs, shieldOpen = false, airK = 295.15, seen, recoverS, alongside = [] } = row;
  const board = closedBoard({ airK, faults: [...alongside, ...faults] });
  if (!shieldOpen) board.toggleShield();
  const startS = board.identity.tickS * 8;
  const during = runFor(board, FROM_S + LASTS_S - startS, outputsOf(outputs)).at(-1)!;
  const seenDuring = seen(during, board.view());
  const after = runFor(board, recoverS, outputsOf(outputs)).at(-1)!;
  return { seenDuring, seenAfter: seen(after, board.view()) };
}

describe('each kind acts while it lasts and no longer', () => {
  test.each(Object.entries(CASES))('%s', (kind, row) => {
    const fault = {
      kind: kind as FaultKind,
      ...(FAULT_TABLE[kind as FaultKind].actsOn === 'sensor' ? { channel: 'pressure' } : {}),
      ...row.fault,
      from: { atS: FROM_S },
      lastsS: LASTS_S,
    } as const satisfies Fault;
    const [sound, faulty] = [seenWith([], row), seenWith([fault], row)];
    const acted = Math.abs(faulty.seenDuring - sound.seenDuring);
    expect(acted).toBeGreaterThanOrEqual(row.atLeast);
    const left = Math.abs(faulty.seenAfter - sound.seenAfter);
    // A clock that was wrong goes right again, but does not make up for it.
    if (row.stays === true) expect(Math.abs(left - acted)).toBeLessThanOrEqual(0.051);
    else expect(left).toBeLessThanOrEqual(acted / 2);
  });

  test('link-mute silences the link for its time', () => {
    const board = closedBoard({ faults: [{ kind: 'link-mute', from: { atS: 1 }, lastsS: 2 }] });
    const muteS = runFor(board, 5, outputsOf({}))
      .filter(({ link }) => link === 'mute')
      .map(({ timeS }) => timeS);
    expect(muteS[0]).toBe(1);
    expect(muteS.at(-1)).toBe(2.95);
  });

  test('link-late makes one frame late when it lasts less than a tick', () => {
    const late: Fault = { kind: 'link-late', amount: 0.4, from: { atS: 1 }, lastsS: 0.04 };
    const frames = runFor(closedBoard({ faults: [late] }), 3, outputsOf({}));
    const gapsS = frames.slice(1).map(({ timeS }, i) => timeS - frames[i]!.timeS);
    expect(gapsS.filter((gapS) => gapS > 0.06)).toHaveLength(1);
    expect(Math.max(...gapsS)).toBeCloseTo(0.45, 9);
  });

  test('supply-dips lets the supply fall for a moment, every five seconds', () => {
    const faults: readonly Fault[] = [{ kind: 'supply-dips', amount: 7, from: { atS: 1 } }];
    const low = runFor(closedBoard({ faults }), 12, outputsOf({}))
      .filter(({ counts: { supplyVoltage } }) => (supplyVoltage ?? 0) < 400)
      .map(({ timeS }) => timeS);
    // Seen in the frame after the step in which it fell.
    expect([...new Set(low.map(Math.floor))]).toEqual([1, 6, 11]);
    expect(low.length).toBeGreaterThanOrEqual(3 * 5);
    expect(low.length).toBeLessThanOrEqual(3 * 7);
  });

  test('frames-repeated gives every second frame the sample before, and tells a gap', () => {
    const faults: readonly Fault[] = [{ kind: 'frames-repeated', from: { atS: 1 } }];
    const frames = runFor(closedBoard({ faults }), 3, outputsOf({})).filter((f) => f.timeS > 1.1);
    const old = frames.filter(({ timeS, sampledAtS }) => sampledAtS < timeS);
    expect(old.length).toBeGreaterThanOrEqual(frames.length / 2 - 1);
    expect(old.every(({ gap }) => gap)).toBe(true);
    expect(frames.filter(({ gap }) => gap)).toHaveLength(old.length);
  });

  test.each(CHANNELS)('a broken wire of %s changes that channel and no other', (channel) => {
    const fault: Fault = { kind: 'sensor-short', channel, from: { atS: 0 } };
    const [sound] = runFor(closedBoard(), 0.05, outputsOf({}));
    const [broken] = runFor(closedBoard({ faults: [fault] }), 0.05, outputsOf({}));
    for (const other of CHANNELS) {
      expect(broken!.counts[other]).toBe(other === channel ? 1023 : sound!.counts[other]);
    }
  });
});

describe('faults as data', () => {
  const problemsOf = (input: unknown): readonly string[] => {
    const checked = checkSettings(faultSchema, input, 'fault.json');
    return checked.ok ? [] : checked.problems.map(({ path, accepted }) => `${path}: ${accepted}`);
  };
  const sound = { kind: 'lamp-aged', amount: 0.5, from: { atS: 0 } };

  test('every preset passes the schema', () => {
    for (const { title, faults } of Object.values(FAULT_PRESETS)) {
      expect(title.length).toBeGreaterThan(0);
      for (const fault of faults) {
        expect(problemsOf(fault)).toEqual([]);
      }
    }
  });

  test('a step is given by its name, or as the display shows it', () => {
    const from = (start: unknown) =>
      checkSettings(faultSchema, { ...sound, from: start }, 'f.json');
    const named = from({ phase: 'vacuum-dwell', afterS: 3 });
    expect(named.ok && named.value.from).toEqual({ phase: 'vacuum-dwell', afterS: 3 });
    const numbered = from({ step: '5.2', afterS: 3 });
    expect(numbered.ok && numbered.value.from).toEqual({ step: 'vacuum-dwell', afterS: 3 });
    const marked = from({ step: 'P6', afterS: 0 });
    expect(marked.ok && marked.value.from).toEqual({ step: 'vacuum-pull', afterS: 0 });
    expect(from({ step: '5.99', afterS: 3 }).ok).toBe(false);
    expect(from({ phase: 'no-such-phase', afterS: 3 }).ok).toBe(false);
  });

  test('every kind has a usual amount inside its range, or none', () => {
    for (const kind of FAULT_KINDS) {
      const { amount } = FAULT_TABLE[kind];
      if (amount === null) continue;
      expect(amount.usual).toBeGreaterThanOrEqual(amount.min);
      expect(amount.usual).toBeLessThanOrEqual(amount.max);
    }
  });

  test.each([
    [{ ...sound, kind: 'gremlin' }, 'kind: one of seal-leak'],
    [{ ...sound, amount: 1.5 }, 'amount: a number from 0 to 1 of its first output'],
    [{ ...sound, amount: Number.NaN }, 'amount: '],
    [
      { kind: 'pump-dead', amount: 1, from: { atS: 0 } },
      'amount: nothing: pump-dead has no amount',
    ],
    [{ kind: 'sensor-open', from: { atS: 0 } }, 'channel: one of pressure'],
    [{ ...sound, channel: 'pressure' }, 'channel: nothing'],
    [{ ...sound, from: { atS: -1 } }, 'from'],
    [{ ...sound, from: { step: 'five', afterS: 0 } }, 'from'],
    [{ ...sound, lastsS: 0 }, 'lastsS: a number from 0.01'],
    [{ ...sound, mendedBy: 'prayer' }, 'mendedBy: one of reseat'],
    [{ ...sound, severity: 3 }, 'severity: no such field'],
  ])('%j is refused', (input, told) => {
    expect(problemsOf(input).join('\n')).toContain(told);
  });
});
