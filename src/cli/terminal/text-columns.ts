/** Wraps a sentence at 80 columns, with separate indents for the first line and the rest. */

const COLUMNS = 80;

/** A line too long for a terminal, with its own indent kept and two columns more from then on. */
export function wrappedLine(line: string): readonly string[] {
  if (line.length <= COLUMNS) return [line];
  const indent = line.length - line.trimStart().length;
  return wrapped(line.trimStart(), indent, indent + 2);
}

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
