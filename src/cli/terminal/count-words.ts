/** A count with its word, in one and in more: '1 entry', '2 entries'. */
export const countWords = (count: number, one: string, more: string): string =>
  `${count} ${count === 1 ? one : more}`;
