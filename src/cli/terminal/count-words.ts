/** A count with its noun in singular or plural: '1 entry', '2 entries'. */
export const countWords = (count: number, one: string, more: string): string =>
  `${count} ${count === 1 ? one : more}`;
