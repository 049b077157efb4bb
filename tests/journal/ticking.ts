/** A program of its own that runs a repair into a journal as fast as it can, and counts its frames. */
import { writeSync } from 'node:fs';
import { tap } from 'rxjs';
import { createSimulatedBoard } from '../../sim/board/simulated-board.ts';
import { journalConsumer } from '../../src/app/journal-consumer.ts';
import { createPipeline } from '../../src/app/pipeline.ts';
import { createJournal } from '../../src/journal/journal.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { scenarioFor } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { headerOf } from '../report/journal-data.ts';

const [path = ''] = process.argv.slice(2);
const fail = (error: unknown): never => {
  throw error;
};
const journal = createJournal({ path, header: headerOf(), onError: fail });
let over = false;
let frames = 0;
const board = createSimulatedBoard(scenarioFor({}));
createPipeline(
  board,
  REPAIR,
  DEFAULT_CONFIG,
  [
    { name: 'journal', follow: journalConsumer(journal, (snapshot) => snapshot) },
    {
      name: 'count',
      follow: ({ ticks$ }) =>
        ticks$.pipe(
          tap(() => {
            frames += 1;
            writeSync(1, `${frames}\n`);
          }),
        ),
    },
  ],
  {
    onConsumerError: (_, error) => fail(error),
    onFault: fail,
    onEnd: () => {
      over = true;
    },
  },
);
while (!over) board.tick();
journal.close({ reason: 'completed', why: 'demo', outcome: 'clear' });
writeSync(1, 'closed\n');
