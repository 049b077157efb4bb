/** The speed of a board's time relative to the wall clock. */

import type { JobWords } from '../../app/prepare/terminal-words.ts';
import { filled } from '../../core/phrases.ts';

const SMALL = 10;

export function speedWords(
  boardS: number,
  wallS: number,
  { terminal: { closing }, tongue }: JobWords,
): string {
  const times = boardS / wallS;
  return filled(closing.speed, {
    minutes: tongue.figure((boardS / 60).toFixed(1)),
    seconds: tongue.figure(wallS.toFixed(1)),
    times: tongue.figure(times.toFixed(times < SMALL ? 1 : 0)),
  });
}
