import { boardContract } from '../board-contract.ts';
import { scenarioWith } from '../sim/board/lock-step.ts';
import { openEmulatedBoard } from './emulated-board.ts';

boardContract('emulated board, in the same process', async ({ muteFromS, faults }) => {
  const { board, bench, clock } = await openEmulatedBoard(scenarioWith({ faults }));
  let stopPressed = false;
  const setMute = (): void => bench.cable.setMute('to-host', true);
  if (muteFromS === 0) setMute();
  if (muteFromS !== null) clock.every(muteFromS, setMute);
  return {
    board,
    advance: clock.sleep,
    shaft: { outputsNow: bench.pins },
    closeShield: (closed) => {
      if (closed !== bench.view().shieldClosed) bench.toggleShield();
    },
    emergencyStop: (pressed) => {
      if (pressed !== stopPressed) bench.toggleEmergencyStop();
      stopPressed = pressed;
    },
  };
});
