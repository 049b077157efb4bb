/**
 * Student's t distribution: the share within +-t, and the coverage factor for a required share.
 * Degrees of freedom need not be whole; infinite ones give the normal distribution. The budgets
 * decide which share and how many degrees.
 */

/** Lanczos's series with g = 7 and nine terms (from memory); tested against factorials. */
const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
] as const;

/** Natural logarithm of the gamma function of x >= 0.5. */
function logGamma(x: number): number {
  const base = x + 6.5;
  const series = LANCZOS.reduce((sum, c, i) => sum + c / (x + i), 0.99999999999980993);
  return (x - 0.5) * Math.log(base) - base + Math.log(Math.sqrt(2 * Math.PI) * series);
}

const TINY = 1e-300;
const awayFromZero = (value: number): number => (Math.abs(value) < TINY ? TINY : value);

/** Regularised incomplete beta function by its continued fraction (DLMF 8.17.22), Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / awayFromZero(1 + even * d);
    c = awayFromZero(1 + even / c);
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / awayFromZero(1 + odd * d);
    c = awayFromZero(1 + odd / c);
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) break;
  }
  const logFront = a * Math.log(x) + b * Math.log1p(-x) - Math.log(a);
  return Math.exp(logFront + logGamma(a + b) - logGamma(a) - logGamma(b)) * value;
}

/** I_x(a, b) for x in [0, 1]; the fraction converges fast on one side of the mean only. */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const nearLow = x < (a + 1) / (a + b + 2);
  return nearLow ? betaFraction(x, a, b) : 1 - betaFraction(1 - x, b, a);
}

/** Share of a normal distribution within +-z: the series of z^(2n+1)/(1 3 5 ...), all terms positive. */
function normalWithin(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 3; term > sum * 1e-17 && n < 1000; n += 2) {
    term *= (z * z) / n;
    sum += term;
  }
  return Math.min(1, Math.sqrt(2 / Math.PI) * Math.exp((-z * z) / 2) * sum);
}

/**
 * From here on t and the normal distribution differ by less than 1e-7, and the gamma function loses
 * digits.
 */
const AS_GOOD_AS_NORMAL = 1e7;

/** Share of Student's distribution within +-t; t from 0 up, degrees of freedom from 1 to infinity. */
export function shareWithin(t: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom > AS_GOOD_AS_NORMAL) return normalWithin(t);
  const x = (t * t) / (degreesOfFreedom + t * t);
  return incompleteBeta(x, 0.5, degreesOfFreedom / 2);
}

/**
 * The factor k for which a share `coverage` (0 up to but not 1) of the distribution lies within
 * +-k, or, one-sided, below +k (from 0.5 on).
 */
export function coverageFactor(
  coverage: number,
  degreesOfFreedom: number,
  sides: 'one-sided' | 'two-sided',
): number {
  const within = sides === 'one-sided' ? 2 * coverage - 1 : coverage;
  let low = 0;
  let high = 1;
  while (shareWithin(high, degreesOfFreedom) < within && high < 1e12) high *= 2;
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    if (shareWithin(middle, degreesOfFreedom) < within) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
