/**
 * One table for all lists of the report: a caption, heads with a scope, cells of text. An empty list
 * is told in words, because an empty table leaves open whether anything is missing.
 */
interface TableProps {
  readonly caption?: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly empty: string;
  /** Too wide for a narrow screen: there each row becomes a list of its cells with their heads. */
  readonly wide?: boolean;
  /** A list of fields and values: the names keep a column of one width. */
  readonly fields?: boolean;
}

export function Table({ caption, heads, rows, empty, wide = false, fields = false }: TableProps) {
  if (rows.length === 0) return <p>{empty}</p>;
  return (
    <div class="scroll">
      <table class={wide ? 'wide' : fields ? 'fields' : ''}>
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
                <td key={`${column} ${heads[column]}`} data-head={heads[column]}>
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
