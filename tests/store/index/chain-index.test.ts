import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { createChainIndex } from '../../../src/store/index/chain-index.ts';
import {
  RESULT_COLUMNS,
  type RecordFilter,
  type ResultWord,
} from '../../../src/store/index/find.ts';
import type { RecordsIndex } from '../../../src/store/index/records-index.ts';
import type { RecordsStore } from '../../../src/store/records-store.ts';
import { removePersonal } from '../../../src/store/removal.ts';
import { addRepair, bodyOf, folderForFile, openedIn } from '../records-folder.ts';

const folder = folderForFile();
let store: RecordsStore;
let chain: RecordsIndex;
const PEOPLE = ['Demo One', 'demo one', 'DEMO Ä', 'demo ä'];
const TIMES = ['2026-03-01T00:00:00.000Z', '2026-03-01T23:59:59.999Z', '2026-03-02T00:00:00.000Z'];
const UNITS = ['unit a', 'unit b', 'serial-1', 'serial-2'];
const RESULTS = ['good', 'caution', 'bad'];
const CLAIMS = ['dose', 'seal', 'clock'];
const STATES = ['shown', 'not shown', 'not met'];
const VERDICTS = ['process within its limits', 'process outside its limits'] as const;
const cycled = (words: readonly string[], i: number): string => words[i % words.length] ?? '';

beforeAll(async () => {
  store = openedIn(folder);
  const body = bodyOf('');
  for (let i = 0; i < 24; i++) {
    const change = {
      startedAt: cycled(TIMES, i),
      unit: { name: cycled(UNITS.slice(0, 2), i), serial: cycled(UNITS.slice(2), i >> 1) },
      result: {
        ...body.result,
        grade: cycled(RESULTS, i),
        endReason: i % 5 === 0 ? 'alarm' : 'completed',
        verdict: i % 4 === 0 ? VERDICTS[0] : VERDICTS[1],
        claims:
          i % 11 === 0
            ? null
            : CLAIMS.map((id, at) => ({
                id,
                portion: null,
                state: cycled(STATES, (i >> at) + at),
                against: [],
              })),
      },
      damage: { ...body.damage, type: i % 2 === 0 ? 'bullseye' : null },
      resin: { ...body.resin, lot: i % 3 === 0 ? null : 'demo-lot-1' },
    };
    const people = { technician: cycled(PEOPLE, i), customer: cycled(PEOPLE, i >> 2) };
    addRepair(folder, store, `demo-${i}`, change, i % 7 === 0 ? null : people);
  }
  const order = { folder, at: '2026-04-01T09:00:00.000Z', reason: 'demo', by: 'office' };
  await removePersonal(store, { ...order, ids: ['demo-3'], rewrite: async () => null });
  chain = createChainIndex(folder);
  return () => store.close();
});

/** Asked for now and then: most filters have few conditions. */
const rarely = <T>(arbitrary: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 4, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary });
const word = (words: readonly string[]) => rarely(fc.constantFrom(...words));
const FILTERS: fc.Arbitrary<RecordFilter> = fc.record({
  from: word(['2026-03-01', '2026-03-02']),
  to: word(['2026-03-01', '2026-03-02']),
  technician: word(PEOPLE),
  customer: word(PEOPLE),
  damage: word(['bullseye']),
  lot: word(['demo-lot-1']),
  unit: word([...UNITS, 'none']),
  id: word(['demo-3', 'demo-4']),
  verdict: word([...VERDICTS, 'none']),
  notShown: word([...CLAIMS, 'none']),
  notMet: word(CLAIMS),
  result: word(Object.keys(RESULT_COLUMNS)) as fc.Arbitrary<ResultWord | undefined>,
  limit: rarely(fc.integer({ min: 1, max: 30 })),
  after: rarely(
    fc.record({ startedAt: fc.constantFrom(...TIMES), seq: fc.integer({ min: 1, max: 25 }) }),
  ),
});

describe('the chain read through', () => {
  test('gives what the database gives, whatever is asked', () => {
    expect(store.source()).toBe('database');
    let found = 0;
    fc.assert(
      fc.property(FILTERS, (filter) => {
        const expected = store.find(filter);
        found += expected.length;
        expect(chain.find(filter)).toEqual(expected);
      }),
      { seed: 20260301, numRuns: 2000 },
    );
    expect(found).toBeGreaterThan(500);
  });

  test('tells capitals apart where they are not of ASCII, as the database does', () => {
    const by = (technician: string) => chain.find({ technician }).map(({ id }) => id);
    expect(by('DEMO ONE')).toEqual(by('demo one'));
    expect(by('demo ä')).not.toEqual(by('DEMO Ä'));
  });

  test('knows every entry, every record and who is kept', () => {
    expect(chain.head()).toEqual(store.head());
    expect(chain.entries()).toEqual(store.entries());
    for (const kind of ['repair', 'removal', 'care'] as const) {
      expect(chain.entries(kind)).toEqual(store.entries(kind));
    }
    const shown = store.show('demo-3')?.entries.map(({ entry }) => entry);
    expect(chain.ofRecord('demo-3')).toEqual(shown);
    expect(shown).toHaveLength(2);
    for (const name of [...PEOPLE, 'office', 'nobody']) {
      expect(chain.keeps(name), name).toBe(store.keeps(name));
    }
  });

  test('sees what is appended after it was read', () => {
    const before = chain.entries().length;
    addRepair(folder, store, 'demo-late');
    expect(chain.catchUp()).toBeNull();
    expect([chain.entries().length, chain.find({ id: 'demo-late' }).length]).toEqual([
      before + 1,
      1,
    ]);
  });
});
