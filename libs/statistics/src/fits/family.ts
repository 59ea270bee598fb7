/**
 * A standard distribution of location-scale form: strength (or its logarithm) is
 * location + scale * z with z from this distribution. Every likelihood in this room is made of the
 * four contributions below, each with its first and second derivative in z.
 *
 * The numbers are written into `out`, because a fit asks for them hundreds of times and must not
 * make garbage each time.
 */
export interface Family {
  /** Given where ln f(z) is this constant - z^2 / 2, which saves going through every specimen. */
  quadratic?: { constant: number };
  /** ln f(z), then its two derivatives: a specimen whose strength is known. */
  density(z: number, out: Float64Array): void;
  /** ln (1 - F(z)) and derivatives: a specimen that held at least z. */
  survival(z: number, out: Float64Array): void;
  /** ln F(z) and derivatives: a specimen that broke at z or before. */
  failure(z: number, out: Float64Array): void;
  /**
   * ln (F(lower + length) - F(lower)): a specimen that held lower and broke by lower + length. Then its
   * derivatives by lower and by length, and by lower twice, both, and length twice. In these two
   * numbers a short interval keeps its digits; in its two ends the second derivatives cancel.
   */
  between(lower: number, length: number, out: Float64Array): void;
  /** ln f(z), ln (1 - F(z)) and ln F(z) alone, where a likelihood is integrated and not searched. */
  logDensity(z: number): number;
  logSurvival(z: number): number;
  logFailure(z: number): number;
  /** The z below which a share p lies. */
  quantile(p: number): number;
  /** The share above z. */
  share(z: number): number;
}
