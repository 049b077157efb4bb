/** Runs one repair of the simulated board into a journal on disk, as fast as it goes. */
import { tap } from 'rxjs';
import { createSimulatedBoard } from '../../sim/board/simulated-board.ts';
import { journalConsumer } from '../../src/app/journal-consumer.ts';
import { createPipeline } from '../../src/app/pipeline.ts';
import { createJournal } from '../../src/journal/journal.ts';
import { REPAIR } from '../../src/procedure/repair/repair.ts';
import { scenarioFor } from '../bench.ts';
import { DEFAULT_CONFIG } from '../configs.ts';
import { DONE, fail, headerOf } from '../report/journal-data.ts';

/** `onFrame` is called when a frame has been handed to the journal. */
export function repairInto(path: string, seed: number, onFrame: () => void = () => undefined) {
  const journal = createJournal({ path, header: headerOf(), onError: fail });
  const board = createSimulatedBoard(scenarioFor({ seed }));
  let over = false;
  const pipeline = createPipeline(
    board,
    REPAIR,
    DEFAULT_CONFIG,
    [
      { name: 'journal', follow: journalConsumer(journal, (snapshot) => snapshot) },
      { name: 'frames', follow: ({ ticks$ }) => ticks$.pipe(tap(onFrame)) },
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
  pipeline.close();
  journal.close(DONE);
}
