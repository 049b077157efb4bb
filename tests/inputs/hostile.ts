/** Spoilt inputs: sound data with something wrong in them, drawn from one seed. */
import type { Chance } from '../../sim/random.ts';

const below = (chance: Chance, n: number): number => Math.floor(n * chance.uniform());

export const oneOf = <T>(chance: Chance, list: readonly T[]): T =>
  list[below(chance, list.length)] as T;

/** What may stand in JSON where something else is meant. */
const STRANGE: readonly unknown[] = [
  null,
  true,
  '',
  'x',
  '1',
  '1,5',
  '\u0000',
  '\u001b[2J',
  '\u202e',
  'x'.repeat(5000),
  '../../etc',
  '__proto__',
  0,
  -0,
  -1,
  0.1 + 0.2,
  1e300,
  -1e300,
  5e-324,
  Number.MAX_SAFE_INTEGER + 1,
  // From the text 1e999.
  Number.POSITIVE_INFINITY,
  [],
  [[]],
  {},
  { toString: 1 },
  JSON.parse('{"__proto__": {"polluted": true}}'),
  Array.from({ length: 300 }, (_, n) => n),
];

const isGroup = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** Data with one place changed: something strange there, missing, doubled, new, or moved. */
export function spoiltData(data: unknown, chance: Chance): unknown {
  if (!isGroup(data)) return oneOf(chance, STRANGE);
  const keys = Object.keys(data);
  const key = oneOf(chance, keys);
  const part = key === undefined ? undefined : data[key];
  if (key !== undefined && chance.uniform() < 0.8 && isGroup(part)) {
    return withPart(data, key, spoiltData(part, chance));
  }
  switch (below(chance, 6)) {
    case 0:
      return oneOf(chance, STRANGE);
    case 1:
      return key === undefined ? data : withoutPart(data, key);
    case 2:
      return withPart(data, oneOf(chance, ['extra', '__proto__', '', 'schema']), part);
    case 3:
      return key === undefined ? data : withPart(data, key, data[oneOf(chance, keys)]);
    default:
      return withPart(data, key ?? 'x', oneOf(chance, STRANGE));
  }
}

function withPart(data: object, key: string, part: unknown): unknown {
  if (Array.isArray(data)) return data.map((old, n) => (String(n) === key ? part : old));
  const copy: Record<string, unknown> = { ...data };
  Object.defineProperty(copy, key, { value: part, enumerable: true, configurable: true });
  return copy;
}

const withoutPart = (data: object, key: string): unknown =>
  Array.isArray(data)
    ? data.filter((_, n) => String(n) !== key)
    : Object.fromEntries(Object.entries(data).filter(([name]) => name !== key));

/** A text with a stretch cut out, doubled, moved, or replaced. */
export function spoiltText(text: string, chance: Chance): string {
  const from = below(chance, text.length + 1);
  const to = Math.min(text.length, from + 1 + below(chance, chance.uniform() < 0.5 ? 3 : 200));
  const [head, piece, tail] = [text.slice(0, from), text.slice(from, to), text.slice(to)];
  switch (below(chance, 5)) {
    case 0:
      return head + tail;
    case 1:
      return head + piece + piece + tail;
    case 2:
      return head;
    case 3:
      return head + JSON.stringify(oneOf(chance, STRANGE)) + tail;
    default:
      return head + String.fromCharCode(below(chance, 300)) + tail;
  }
}

/** Bytes of a line: sound messages among noise, cut, doubled, and with bits turned over. */
export function spoiltBytes(messages: readonly (readonly number[])[], chance: Chance): number[] {
  const bytes: number[] = [];
  for (let n = 1 + below(chance, 4); n > 0; n--) {
    const message = [...oneOf(chance, messages)];
    if (chance.uniform() < 0.4) {
      const at = below(chance, message.length);
      message[at] = (message[at] ?? 0) ^ (1 << below(chance, 8));
    }
    if (chance.uniform() < 0.2) message.splice(below(chance, message.length), 1);
    if (chance.uniform() < 0.2) bytes.push(...Array.from({ length: 5 }, () => below(chance, 256)));
    bytes.push(
      ...message.slice(0, chance.uniform() < 0.2 ? below(chance, message.length) : undefined),
    );
  }
  return bytes;
}
