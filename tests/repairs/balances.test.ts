import { describe, expect, test } from 'vitest';
import { runRepair } from '../bench.ts';

/** Gas and heat of the whole repair, from the first frame to the last, in doubles. */
const WITHIN = 1e-6;

describe('over a whole repair nothing is lost and nothing is made', () => {
  test.each(['nothing', 'wet-break', 'leaky-seal', 'hose-off', 'runaway-pump', 'heated-too-fast'])(
    'with %s wrong',
    (fault) => {
      const { board } = runRepair({ faults: fault === 'nothing' ? [] : [fault] });
      const { gasRatio, handoverRatio, paneHeatRatio, sinkHeatRatio } = board
        .view()
        .truth.imbalance();
      expect(gasRatio).toBeLessThan(WITHIN);
      expect(handoverRatio).toBeLessThan(WITHIN);
      expect(paneHeatRatio).toBeLessThan(WITHIN);
      expect(sinkHeatRatio).toBeLessThan(WITHIN);
      console.info(
        `${fault}: gas ${gasRatio.toExponential(1)}, handed over ${handoverRatio.toExponential(1)}, pane ${paneHeatRatio.toExponential(1)}, heat sink ${sinkHeatRatio.toExponential(1)}`,
      );
    },
  );
});
