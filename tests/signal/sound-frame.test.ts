import { describe, expect, test } from 'vitest';
import { stepController } from '../../src/control/controller.ts';
import { CHANNELS, type Frame, isSafe } from '../../src/core/frame.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { soundFrame } from '../../src/signal/sound-frame.ts';
import { HEALTHY_FRAME } from '../frames.ts';
import { actuatorsOf, pass, type Scene, tick, type Unit } from '../steered-unit.ts';
import { repairIn } from '../steering.ts';

const NO_NUMBERS = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];

describe('a frame', () => {
  test('that is sound is passed on as it is', () => {
    expect(soundFrame(HEALTHY_FRAME, 0)).toBe(HEALTHY_FRAME);
  });

  test.each([-1, 1024, 1e300, ...NO_NUMBERS])('misses a channel that counts %s', (counts) => {
    for (const channel of CHANNELS) {
      const frame = { ...HEALTHY_FRAME, counts: { ...HEALTHY_FRAME.counts, [channel]: counts } };
      const sound = soundFrame(frame, 0);
      expect(sound.counts).toEqual({ ...HEALTHY_FRAME.counts, [channel]: null });
      expect(sound.link).toBe('up');
    }
  });

  test.each(NO_NUMBERS)(
    'without a time (%s) is a spoilt message at the time of the last one',
    (none) => {
      for (const name of ['timeS', 'sampledAtS', 'sequence'] as const) {
        const sound = soundFrame({ ...HEALTHY_FRAME, [name]: none }, 7.25);
        expect(sound).toMatchObject({ link: 'mute', damaged: true, timeS: 7.25, sampledAtS: 7.25 });
      }
    },
  );

  test.each(NO_NUMBERS)('with %s as the host time has no host time', (none) => {
    expect(soundFrame({ ...HEALTHY_FRAME, hostTimeS: none }, 0)).toEqual({
      ...HEALTHY_FRAME,
      hostTimeS: null,
    });
  });
});

describe('whatever of a frame is no number', () => {
  const CHANGES: readonly (readonly [string, (frame: Frame) => Frame])[] = [
    ['its time', (frame) => ({ ...frame, timeS: Number.NaN })],
    ['the time of its samples', (frame) => ({ ...frame, sampledAtS: Number.NaN })],
    ['its sequence', (frame) => ({ ...frame, sequence: Number.NaN })],
  ];
  test.each(CHANGES)(
    '%s makes safe in the same tick, and the time goes on with the next',
    (_, change) => {
      for (const phase of ['vacuum-dwell', 'pressure-dwell', 'cure'] as const) {
        const unit = pass(repairIn(phase), 3);
        expect(isSafe(actuatorsOf(unit)), phase).toBe(false);
        const { procedure, config, state } = unit;
        const frame = change(frameOf(tick(unit)));
        const step = stepController(procedure, config, state, frame, []);
        expect(isSafe(step.outputs), phase).toBe(true);
        expect(['holding', 'held']).toContain(step.snapshot.batch);
        expect(step.state.timeS).toBe(state.timeS);
      }
    },
  );

  test.each(CHANNELS)(
    'counts of %s that are none make safe within three ticks where they are needed',
    (channel) => {
      const phase =
        channel === 'irradiance' || channel === 'heatSinkTemperature' ? 'cure' : 'vacuum-dwell';
      const scene: Scene = { counts: { [channel]: Number.NaN } };
      const unit = pass(repairIn(phase), 3);
      expect(isSafe(actuatorsOf(unit))).toBe(false);
      const held = pass(unit, 0.5, scene);
      expect(isSafe(actuatorsOf(held))).toBe(true);
      expect(['holding', 'held']).toContain(held.step?.snapshot.batch);
    },
  );
});

/** The frame of a unit's last tick, as a sound board sends it. */
const frameOf = ({ boardS, hostS, ticks }: Unit<Repair>): Frame => ({
  ...HEALTHY_FRAME,
  sequence: ticks,
  timeS: boardS,
  sampledAtS: boardS,
  hostTimeS: hostS,
});
