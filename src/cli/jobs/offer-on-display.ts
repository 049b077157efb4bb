/**
 * Shows the list of jobs on the unit's display until a person takes one. Outputs are safe in every
 * frame of it; a job that is taken opens the board again, with a controller of its own.
 */
import { SAFE } from '../../core/frame.ts';
import type { Catalogue } from '../../panel/catalogue.ts';
import { choiceSignals, FIRST_CHOICE, stepChoice } from '../../panel/choice-face.ts';
import type { Session } from '../run/session.ts';
import { createInterrupts } from '../terminal/interrupts.ts';
import { listenToKeys } from '../terminal/keys.ts';
import { print } from '../terminal/print.ts';
import type { Offer } from './offers.ts';

/** How often the list is read again while it is shown. */
const READ_EVERY_S = 5;

/** Null where it was ended from outside. */
export async function offerOnDisplay(
  session: Session,
  offersNow: () => readonly Offer[],
  catalogue: Catalogue,
): Promise<Offer | null> {
  const { board } = session;
  let offers = offersNow();
  let readAtS = 0;
  let choice = FIRST_CHOICE;
  let taken: Offer | null = null;
  let shown = '';
  let stop = (): void => undefined;
  const subscription = board.frames$.subscribe(({ timeS, pressed }) => {
    if (taken !== null) return;
    if (timeS - readAtS >= READ_EVERY_S) {
      readAtS = timeS;
      offers = offersNow();
    }
    for (const button of pressed) {
      const step = stepChoice(choice, offers, button);
      choice = step.choice;
      taken ??= step.taken;
    }
    const signals = choiceSignals(choice, offers, catalogue);
    board.write({ ...SAFE, ...signals, clearTrips: false });
    session.person?.(timeS, signals.display);
    const text = signals.display.map((line) => `  | ${line} |`).join('\n');
    if (text !== shown) print(`${text}\n\n`);
    shown = text;
    if (taken !== null) stop();
  });
  const interrupts = createInterrupts({
    ask: () => stop(),
    force: () => stop(),
    fail: () => stop(),
  });
  const stopKeys = keysOf(session, interrupts.raise);
  try {
    const running = session.run();
    stop = running.stop;
    await running.done;
  } finally {
    subscription.unsubscribe();
    stopKeys();
    interrupts.close();
    await board.close();
  }
  return taken;
}

function keysOf({ keyboard, act }: Session, raise: (why: string) => void): () => void {
  if (keyboard === null) return () => undefined;
  const none = { text: () => '', take: () => false };
  return listenToKeys(keyboard, none, (key) => {
    if (key.kind === 'interrupt') raise('Ended from the keyboard.');
    else act(key, () => undefined);
  });
}
