/**
 * A job on the real firmware, in one process, while its line is cut or receives garbage, half a
 * message or a flood: nothing crashes, the job is held, the pins are safe, and only the person
 * resumes the job.
 */

import { tap } from 'rxjs';
import { describe, expect, test } from 'vitest';
import { createChance } from '../../sim/random.ts';
import { createPipeline, type Tick } from '../../src/app/pipeline.ts';
import type { Event } from '../../src/core/events.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import type { Repair } from '../../src/procedure/repair/repair-state.ts';
import { scenarioFor } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { type EmulatedBoard, openEmulatedBoard } from './emulated-board.ts';

const chance = createChance(11, 'noise');
const garbage = (bytes: number): number[] =>
  Array.from({ length: bytes }, () => Math.floor(256 * chance.uniform()));

interface Trouble {
  readonly name: string;
  readonly make: (board: EmulatedBoard) => Promise<void> | void;
  readonly alarms: readonly string[];
}

const TROUBLES: readonly Trouble[] = [
  {
    name: 'a cut cable',
    make: async ({ bench, clock, line }) => {
      bench.cable.setCut(true);
      line().pull();
      await clock.sleep(3);
      bench.cable.setCut(false);
    },
    alarms: ['link-lost', 'frames-late'],
  },
  {
    name: 'garbage on its way to the host',
    make: ({ bench }) => bench.cable.inject('to-host', garbage(200)),
    alarms: ['message-spoilt', 'frames-missing'],
  },
  {
    name: 'half a message on its way to the host',
    make: ({ bench }) => bench.cable.inject('to-host', [0xf0, 0x0d, 0x01, 0x12, 0x34]),
    alarms: ['message-spoilt'],
  },
  {
    name: 'a flood on its way to the host',
    make: ({ bench }) => bench.cable.inject('to-host', garbage(20_000)),
    alarms: ['message-spoilt', 'frames-missing', 'frames-late', 'link-lost'],
  },
  {
    name: 'a message that fails its check on its way to the board',
    make: ({ bench }) =>
      bench.cable.inject('to-board', [0xf0, 0x0d, 0x11, 2, 0, 0, 0, 0, 1, 1, 1, 0xf7]),
    alarms: ['message-spoilt'],
  },
];

describe('a job whose line is in trouble', () => {
  test('is held with the pins safe, and goes on when the person says so, trouble after trouble', async () => {
    const emulated = await openEmulatedBoard(scenarioFor({ scenario: { technician: 'person' } }));
    const { board, bench, clock } = emulated;
    const faults: unknown[] = [];
    let last: Tick<Repair> | null = null;
    let events: Event[] = [];
    const pipeline = createPipeline(
      board,
      REPAIR,
      DEFAULT_CONFIG,
      [
        {
          name: 'watch',
          follow: ({ ticks$ }) =>
            ticks$.pipe(
              tap((tick) => {
                last = tick;
                events.push(...tick.events);
              }),
            ),
        },
      ],
      {
        onConsumerError: (_, error) => faults.push(error),
        onFault: (error) => faults.push(error),
        onEnd: () => undefined,
      },
    );
    const until = async (holds: () => boolean, withinS: number, what: string): Promise<void> => {
      const startS = bench.timeS();
      while (!holds()) {
        if (bench.timeS() - startS > withinS)
          throw new Error(`${what}: not within ${withinS} s (${batch()}, ${bench.display()[0]})`);
        await clock.sleep(0.05);
      }
    };
    const batch = () => last?.snapshot.batch;
    const driving = () => batch() === 'running' && bench.pins().pumpRatio > 0;
    const safe = () => {
      const { pumpRatio, ventOpen, lampEnabled } = bench.pins();
      return pumpRatio === 0 && ventOpen && !lampEnabled;
    };
    /** A quick person: YES to whatever the display says, until the pump runs. */
    const pressOnUntilDriving = async (when: string): Promise<void> => {
      const stop = clock.every(0.4, () => {
        if (!driving()) bench.press('yes');
      });
      await until(driving, 120, `${when} the job goes on`);
      stop();
    };
    for (const { name, make, alarms } of TROUBLES) {
      await pressOnUntilDriving(`before ${name}`);
      events = [];
      const made = make(emulated);
      let held = false;
      const heldSafely = (): boolean => {
        held ||= batch() !== 'running';
        return held && safe();
      };
      await until(heldSafely, 1.2, `${name} holds the job`);
      await made;
      await clock.sleep(1);
      expect(safe(), name).toBe(true);
      expect(['holding', 'held'], name).toContain(batch());
      const raised = events.flatMap((event) =>
        event.kind === 'alarm' && event.to === 'unacknowledged' ? [event.alarm] : [],
      );
      expect(raised.length, name).toBeGreaterThan(0);
      expect(alarms, name).toEqual(expect.arrayContaining([...new Set(raised)]));
    }
    await pressOnUntilDriving('after the last trouble');
    expect(faults).toEqual([]);
    pipeline.close();
    await board.close();
    expect(safe()).toBe(true);
  }, 240_000);
});
