/**
 * A budget of standard uncertainty by JCGM 100:2008 (the GUM), clauses 4, 5 and G.4: one row per
 * input, combined by the first-order law for independent inputs, with the effective degrees of
 * freedom of Welch and Satterthwaite. The channel decides which rows it has; the caller chooses the
 * coverage factor.
 */

export type Distribution = 'normal' | 'rectangular' | 'triangular';

export interface BudgetInput {
  readonly name: string;
  /** Best estimate of this input, in `unit`. */
  readonly value: number;
  readonly unit: string;
  /** A: evaluated from repeated readings; B: by other means, such as a data sheet. */
  readonly kind: 'A' | 'B';
  readonly distribution: Distribution;
  /** Half-width, or for the normal distribution the standard uncertainty, in `unit`. */
  readonly spread: number;
  /** Change of the result per `unit` of change of this input. */
  readonly sensitivity: number;
  /** From 1 to infinity. */
  readonly degreesOfFreedom: number;
}

export interface BudgetPart extends BudgetInput {
  /** This input's contribution, as a standard uncertainty of the result. */
  readonly standard: number;
}

export interface Budget {
  readonly parts: readonly BudgetPart[];
  /** Combined standard uncertainty of the result. */
  readonly standard: number;
  /** Effective, by Welch and Satterthwaite; infinite where every part's are infinite. */
  readonly degreesOfFreedom: number;
}

/** From half-width to standard deviation: JCGM 100, 4.3.7 (rectangular) and 4.3.9 (triangular). */
const DIVISORS: Readonly<Record<Distribution, number>> = {
  normal: 1,
  rectangular: Math.sqrt(3),
  triangular: Math.sqrt(6),
};

/** Treats inputs as independent, and the result as linear in each of them. */
export function budgetOf(inputs: readonly BudgetInput[]): Budget {
  const parts = inputs.map((input) => ({
    ...input,
    standard: Math.abs(input.sensitivity) * (input.spread / DIVISORS[input.distribution]),
  }));
  const standard = Math.hypot(...parts.map((part) => part.standard));
  const inverseDegrees = parts.reduce(
    (sum, part) => sum + (part.standard / standard) ** 4 / part.degreesOfFreedom,
    0,
  );
  return {
    parts,
    standard,
    degreesOfFreedom: inverseDegrees > 0 ? 1 / inverseDegrees : Number.POSITIVE_INFINITY,
  };
}

/** The largest contribution; undefined in a budget without parts. */
export const largestPart = ({ parts }: Budget): BudgetPart | undefined =>
  parts.reduce<BudgetPart | undefined>(
    (most, part) => (most === undefined || part.standard > most.standard ? part : most),
    undefined,
  );

type Given = Pick<BudgetInput, 'name' | 'value' | 'unit' | 'spread' | 'sensitivity'>;

/** A data-sheet limit, inside which no value is known to be likelier than another. */
export const within = (given: Given): BudgetInput => ({
  ...given,
  kind: 'B',
  distribution: 'rectangular',
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

/** A standard deviation found from `readings` repeated readings. */
export const repeated = (given: Given, readings: number): BudgetInput => ({
  ...given,
  kind: 'A',
  distribution: 'normal',
  degreesOfFreedom: readings - 1,
});
