/** Wraps a sentence at 80 columns, with separate indents for the first line and the rest. */

const COLUMNS = 80;

export function wrapped(text: string, first = 0, rest = first): readonly string[] {
  const lines: string[] = [];
  let line = ' '.repeat(first);
  let empty = true;
  for (const word of text.split(' ')) {
    if (!empty && line.length + 1 + word.length > COLUMNS) {
      lines.push(line);
      line = ' '.repeat(rest);
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
}
