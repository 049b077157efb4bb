import { describe, expect, test } from 'vitest';
import type { BreakView } from '../../../sim/board/simulated-board.ts';
import { createFaultClock } from '../../../sim/faults/fault-effects.ts';
import { FAULT_KINDS, FAULT_TABLE, type FaultKind } from '../../../sim/faults/fault-kinds.ts';
import { FAULT_PRESETS, type Fault, faultSchema, REMEDIES } from '../../../sim/faults/faults.ts';
import type { SeenStep } from '../../../sim/people/screen-reading.ts';
import { type Actuators, CHANNELS, type Frame, type Outputs } from '../../../src/core/frame.ts';
import { checkSettings } from '../../../src/core/settings.ts';
import { closedBoard, EVACUATE, LIGHT, outputsOf, PRESSURISE, runFor } from '../board/lock-step.ts';

interface Case {
  readonly fault?: Partial<Fault>;
  readonly outputs: Partial<Outputs>;
  readonly shieldOpen?: boolean;
  /** What differs from a sound board while the fault acts, by at least so much. */
  readonly seen: (frame: Frame, view: BreakView) => number;
  readonly atLeast: number;
  /** Time after which at most half of the difference is left. */
  readonly recoverS: number;
  readonly stays?: boolean;
}

const truth =
  (name: 'pressurePa' | 'irradianceWPerM2' | 'glassK' | 'heatSinkK') =>
  (_: Frame, view: BreakView): number =>
    view.truth[name];
const lagS = ({ timeS, hostTimeS }: Frame): number => (hostTimeS ?? Number.NaN) - timeS;
const counts = (frame: Frame): number => frame.counts.pressure ?? Number.NaN;
/** Slow enough to stay below the over-pressure switch. */
const PRESS_SLOWLY: Partial<Actuators> = { ...PRESSURISE, pumpRatio: 0.2 };

/** Each kind against a twin without it: it acts for 10 s and ends. */
const CASES: Readonly<Record<Exclude<FaultKind, 'link-mute' | 'link-late'>, Case>> = {
  'seal-leak': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 1_000, recoverS: 20 },
  'hose-off': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 50_000, recoverS: 20 },
  'wet-break': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 100, recoverS: 20 },
  outgassing: { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 20, recoverS: 20 },
  'pump-worn': { outputs: EVACUATE, seen: truth('pressurePa'), atLeast: 2_000, recoverS: 20 },
  'lamp-aged': { outputs: LIGHT, seen: truth('irradianceWPerM2'), atLeast: 90, recoverS: 1 },
  'heat-sink-hot': { outputs: {}, seen: truth('heatSinkK'), atLeast: 3, recoverS: 200 },
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
function seenWith(faults: readonly Fault[], { outputs, shieldOpen = false, seen, recoverS }: Case) {
  const board = closedBoard({ faults });
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

  test.each(CHANNELS)('a broken wire of %s changes that channel and no other', (channel) => {
    const fault: Fault = { kind: 'sensor-short', channel, from: { atS: 0 } };
    const [sound] = runFor(closedBoard(), 0.05, outputsOf({}));
    const [broken] = runFor(closedBoard({ faults: [fault] }), 0.05, outputsOf({}));
    for (const other of CHANNELS) {
      expect(broken!.counts[other]).toBe(other === channel ? 1023 : sound!.counts[other]);
    }
  });
});

describe('when a fault begins and ends', () => {
  const leak = (rest: Partial<Fault>): Fault => ({
    kind: 'seal-leak',
    from: { atS: 10 },
    ...rest,
  });
  const kindsAt = (
    clock: ReturnType<typeof createFaultClock>,
    timeS: number,
    step: SeenStep | null = null,
  ) => clock.active(timeS, step).length;

  test('at a time, for a time', () => {
    const clock = createFaultClock([leak({ lastsS: 5 })]);
    expect([9.99, 10, 14.99, 15, 20].map((timeS) => kindsAt(clock, timeS))).toEqual([
      0, 1, 1, 0, 0,
    ]);
  });

  test('after a step is first seen on the display, and not again when the step comes back', () => {
    const clock = createFaultClock([
      leak({ from: { phase: 'vacuum-dwell', afterS: 3 }, lastsS: 2 }),
    ]);
    const seen = [
      kindsAt(clock, 0, 'evacuate'),
      kindsAt(clock, 1, 'vacuum-dwell'),
      kindsAt(clock, 4, 'ask-bubbles'),
      kindsAt(clock, 6, 'vacuum-dwell'),
      kindsAt(clock, 100, 'vacuum-dwell'),
    ];
    expect(seen).toEqual([0, 0, 1, 0, 0]);
  });

  test('by its own remedy alone, once and for good', () => {
    const clock = createFaultClock([leak({ mendedBy: 'reseat' })]);
    expect(kindsAt(clock, 10)).toBe(1);
    expect(clock.mend(['warm'])).toBe(false);
    expect(kindsAt(clock, 11)).toBe(1);
    expect(clock.mend(['reseat'])).toBe(true);
    expect(kindsAt(clock, 12)).toBe(0);
  });

  test('a remedy before the fault does not prevent it', () => {
    const clock = createFaultClock([leak({ mendedBy: 'reseat' })]);
    expect(kindsAt(clock, 9)).toBe(0);
    clock.mend(REMEDIES);
    expect(kindsAt(clock, 10)).toBe(1);
  });

  test('one without a remedy stays', () => {
    const clock = createFaultClock([leak({})]);
    expect(kindsAt(clock, 10)).toBe(1);
    expect(clock.mend(REMEDIES)).toBe(false);
    expect(kindsAt(clock, 1e4)).toBe(1);
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
