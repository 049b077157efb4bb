/**
 * What a report says of how well a channel measures: plain values, worked out by whoever knows the
 * channels and handed in.
 */
export interface BudgetLine {
  readonly channel: 'pressure' | 'glass temperature' | 'irradiance';
  readonly unit: 'Pa' | 'K' | 'W/m2';
  /** The reading that the budget is for. */
  readonly value: number;
  readonly standard: number;
  /** Effective; null where infinite. */
  readonly degreesOfFreedom: number | null;
  /** Of 95 %, on both sides. */
  readonly coverageFactor: number;
  readonly expanded: number;
  readonly largestPart: { readonly name: string; readonly standard: number };
}
