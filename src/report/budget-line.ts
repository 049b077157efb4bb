/**
 * What a report states about the uncertainty of one channel. These are plain values: the caller,
 * who knows the channels, computes them.
 */
export interface BudgetLine {
  readonly channel: 'pressure' | 'glass temperature' | 'irradiance' | 'light at the resin';
  readonly unit: 'Pa' | 'K' | 'W/m2';
  /** The reading to which the budget applies. */
  readonly value: number;
  readonly standard: number;
  /** Effective; null where infinite. */
  readonly degreesOfFreedom: number | null;
  /** For 95 %, two-sided. */
  readonly coverageFactor: number;
  readonly expanded: number;
  readonly largestPart: { readonly name: string; readonly standard: number };
}
