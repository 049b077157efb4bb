/**
 * Tables and lists of fields in HTML: a caption, heads with a scope, cells of text. On a narrow
 * screen a wide table becomes a list of its cells, each with its head.
 */
import type { FieldsBlock, TableBlock } from './blocks.ts';

/** Such a word is not broken, however narrow its column; a hash is longer. */
const isShortWord = (cell: string): boolean => cell.length <= 12 && !/[ \n]/.test(cell);

export function ListTable({ block }: { readonly block: TableBlock }) {
  const { caption, heads, rows, empty, wide = false } = block;
  if (rows.length === 0) return empty === '' ? null : <p>{empty}</p>;
  return (
    <div class="scroll">
      <table class={wide ? 'wide' : ''}>
        {caption !== undefined && <caption>{caption}</caption>}
        <thead>
          <tr>
            {heads.map((head, column) => (
              <th key={`${column} ${head}`} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((cells, index) => (
            <tr key={`${index} ${cells[0]}`}>
              {cells.map((cell, column) => (
                <td
                  key={`${column} ${heads[column]}`}
                  data-head={heads[column]}
                  class={isShortWord(cell) ? 'whole' : undefined}
                >
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

export function FieldsTable({ block }: { readonly block: FieldsBlock }) {
  const { caption, rows, empty, labelShare } = block;
  if (rows.length === 0) return empty === '' ? null : <p>{empty}</p>;
  const labels = labelShare === undefined ? '' : `--labels:${100 * labelShare}%`;
  return (
    <div class="scroll">
      <table class="fields" style={labels}>
        {caption !== undefined && <caption>{caption}</caption>}
        <tbody>
          {rows.map(([label, value], index) => (
            <tr key={`${index} ${label}`}>
              <th scope="row">{label}</th>
              <td>{value}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
