/**
 * The session of a run on a real board: finds its port, opens it with the unit's limits, and lets time
 * pass as the board's frames come. Loaded only when a port is named.
 */
import { REAL_TIME } from '../../../hal/firmata/clock.ts';
import type { Problem } from '../../../hal/firmata/errors.ts';
import { openFirmataBoard } from '../../../hal/firmata/firmata-board.ts';
import { portNamed } from '../../../hal/firmata/ports.ts';
import { openSerialLine } from '../../../hal/firmata/serial-line.ts';
import { boardLimitsOf } from '../../control/board-limits.ts';
import { filled } from '../../core/phrases.ts';
import type { RepairConfig } from '../../procedure/repair/repair-state.ts';
import { printError } from '../terminal/print.ts';
import type { Pacer } from './pace.ts';
import type { OpenedSession } from './session.ts';

const TICK_S = 0.05;
/** Only for the top end of the panel's bar; the unit measures its own. */
const USUAL_ATMOSPHERE_PA = 101_325;

export async function realSession(wanted: string, config: RepairConfig): Promise<OpenedSession> {
  const port = await portNamed(wanted);
  if (!port.ok) return refusal(wanted, port.problem);
  const portName = port.value;
  const opened = await openFirmataBoard({
    openLine: () => openSerialLine(portName),
    portName,
    scheduler: REAL_TIME,
    tickS: TICK_S,
    limits: boardLimitsOf(config.unit),
    onNotice: (words) => printError(`board: ${words}\n`),
  });
  if (!opened.ok) return refusal(portName, opened.problem);
  const { board } = opened;
  const keyboard = process.stdin.isTTY ? process.stdin : null;
  return {
    ok: true,
    session: {
      board,
      title: ({ terminal: { panel } }) => filled(panel.title.real, { port: portName }),
      keys: keyboard === null ? 'none' : 'buttons',
      keyboard,
      atmospherePa: USUAL_ATMOSPHERE_PA,
      seed: null,
      startedAt: new Date().toISOString(),
      extra: { port: portName },
      run: untilStopped,
      act: (key, request) => {
        if (key.kind === 'button') request({ kind: 'button', button: key.button });
      },
      look: () => null,
    },
  };
}

/** A real board's time passes by itself. */
function untilStopped(): Pacer {
  let stop = (): void => undefined;
  const done = new Promise<void>((resolve) => {
    stop = resolve;
  });
  return { stop: () => stop(), done };
}

function refusal(port: string, { words, advice }: Problem): OpenedSession {
  return { ok: false, lines: [`${port}: ${words}`, advice] };
}
