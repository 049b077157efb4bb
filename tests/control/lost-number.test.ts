import { describe, expect, test } from 'vitest';
import { isSafe } from '../../src/core/frame.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { actuatorsOf, pass, tick, type Unit } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';

type Path = readonly string[];

/** Where a number stands in what the controller remembers. */
function numbersIn(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, part]) => numbersIn(part, [...path, key]));
}

function withNaN(value: unknown, [key, ...rest]: Path): unknown {
  if (key === undefined) return Number.NaN;
  if (Array.isArray(value)) {
    return value.map((part, n) => (String(n) === key ? withNaN(part, rest) : part));
  }
  const whole = value as Readonly<Record<string, unknown>>;
  return { ...whole, [key]: withNaN(whole[key], rest) };
}

const spoilt = (unit: Unit<Repair>, path: Path): Unit<Repair> => ({
  ...unit,
  state: withNaN(unit.state, path) as Unit<Repair>['state'],
});

/** The numbers that are none now. */
const lostIn = ({ state }: Unit<Repair>): readonly string[] =>
  numbersIn(state)
    .filter((path) =>
      Number.isNaN(path.reduce<unknown>((v, k) => (v as Record<string, unknown>)[k], state)),
    )
    .map((path) => path.join('.'));

const batchOf = ({ step }: Unit<Repair>) => step?.snapshot.batch;

/** Rooms of the state whose numbers decide; the others are counts, outputs and shown words. */
const DECIDE = ['timeS', 'procedure', 'scene', 'watch', 'regulator', 'setPointPa', 'batchForS'];

const PHASES = [
  'seal-pull',
  'evacuate',
  'vacuum-dwell',
  'pressurise',
  'pressure-dwell',
  'cure',
] as const;

describe.each(PHASES)('a number that is none in what the unit remembers in %s', (phase) => {
  // In a cure the lamp burns only after a first look at the dark.
  const unit = pass(repairIn(phase), phase === 'cure' ? 3 : 0.5);
  const sound = pass(unit, 1);

  test('is gone within 0.2 s, or the job ends safely by then', () => {
    expect(isSafe(actuatorsOf(unit))).toBe(false);
    for (const path of numbersIn(unit.state).filter(([room = '']) => DECIDE.includes(room))) {
      const where = path.join('.');
      const next = pass(spoilt(unit, path), 0.2);
      if (batchOf(next) === 'running') {
        expect(lostIn(next), where).toEqual([]);
      } else {
        expect(isSafe(actuatorsOf(next)), where).toBe(true);
        expect(['aborting', 'aborted'], where).toContain(batchOf(next));
      }
    }
  });

  test('never moves the job on: no dwell is shortened by it and no light counted', () => {
    for (const path of numbersIn(unit.state)) {
      const where = path.join('.');
      const next = pass(spoilt(unit, path), 1);
      if (batchOf(next) === 'running') {
        expect(lostIn(next), where).toEqual([]);
        expect(next.state.procedure.phase, where).toBe(sound.state.procedure.phase);
      }
      expect(next.state.procedure.elapsedS, where).not.toBeGreaterThan(
        sound.state.procedure.elapsedS,
      );
    }
  });
});

test('ends the job in the next tick where it decides how long a dwell has lasted', () => {
  const unit = pass(repairIn('vacuum-dwell'), 0.5);
  for (const path of [['procedure', 'elapsedS'], ['procedure', 'dwellForS'], ['timeS']]) {
    const next = tick(spoilt(unit, path));
    expect(isSafe(actuatorsOf(next)), path.join('.')).toBe(true);
    expect(next.step?.snapshot.phase).toBe('vacuum-dwell');
  }
});

test('ends the job where it decides how long a dwell has lasted, what was aimed at, or how hot it is', () => {
  const unit = pass(repairIn('vacuum-dwell'), 0.5);
  const decisive = [
    ['procedure', 'elapsedS'],
    ['procedure', 'dwellForS'],
    ['procedure', 'atmospherePa'],
    ['procedure', 'vacuumPa'],
    ['scene', 'heat', 'paneK'],
    ['scene', 'doses', 'fill', 'doseJPerM2'],
    ['watch', 'clock', 'worstOffRatio'],
    ['regulator', 'integralRatio'],
    ['timeS'],
  ];
  for (const path of decisive) {
    const next = pass(spoilt(unit, path), 0.2);
    expect(['aborting', 'aborted'], path.join('.')).toContain(batchOf(next));
    expect(next.log).toContainEqual(
      expect.objectContaining({ alarm: 'lost-number', action: 'abort', to: 'unacknowledged' }),
    );
  }
});
