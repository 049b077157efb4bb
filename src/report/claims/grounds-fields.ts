/**
 * Whether the lamp stood over this field of a crack and not over the one before: a person says that
 * it was moved on, and the shield's contact shows that it was lifted off the glass for it.
 */
import { say } from '../language.ts';
import { clockWords } from '../words.ts';
import { type Ground, objects, supports } from './claim.ts';

export const lampMovedOn: Ground = ({ events, ticks, phases }, part) => {
  const field = part?.field ?? null;
  if (field === null || field.number === 1) return [];
  const said = events.findLast(
    (event) => event.kind === 'moved' && event.what === 'lamp' && event.to === field.number,
  );
  // Not come to: that no light was counted is said by its count.
  if (said === undefined) return [];
  const asked = phases.findLast(({ phase, fromS }) => phase === 'move-lamp' && fromS <= said.timeS);
  const cure = phases.find(({ phase, fromS }) => phase === 'cure' && fromS >= said.timeS);
  const [fromS, toS] = [asked?.fromS ?? said.timeS, cure?.fromS ?? said.timeS];
  const open = ticks.find(
    ({ frame }) => !frame.switches.shieldClosed && frame.timeS >= fromS && frame.timeS <= toS,
  );
  const place = { number: String(field.number), of: String(field.of) };
  const told = { at: clockWords(said.timeS), ...place };
  if (open === undefined) return [objects('lamp-not-moved', say('lines.lamp-not-lifted', told))];
  const at = clockWords(open.frame.timeS);
  return [
    supports('person', say('lines.lamp-moved', told)),
    supports('shield switch', say('lines.lamp-lifted', { at })),
  ];
};
