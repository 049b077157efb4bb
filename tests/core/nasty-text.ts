/** Texts that would control a terminal, and the characters that do it. */
import fc from 'fast-check';

/** Typed from Unicode's tables: category Cc, Zl, Zp, and the bidirectional controls of UAX 9. */
export function steers(character: string): boolean {
  const code = character.charCodeAt(0);
  return (
    code <= 0x1f ||
    (code >= 0x7f && code <= 0x9f) ||
    code === 0x2028 ||
    code === 0x2029 ||
    (code >= 0x202a && code <= 0x202e) ||
    (code >= 0x2066 && code <= 0x2069)
  );
}

export const nasty = fc.string({
  unit: fc.oneof(
    fc.constantFrom('\u001b', '\u009b', '\r', '\n', '\t', '\u007f', '\u202e', '\u2066', '\u2028'),
    fc.string({ minLength: 1, maxLength: 1, unit: 'binary' }),
  ),
});
