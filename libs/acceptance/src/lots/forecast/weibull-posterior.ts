import type { Generator } from '@breakbook/statistics';

/** Points of the spread's distribution, evenly in its logarithm. */
const POINTS = 800;

/**
 * Draws location (ln scale) and spread (1 / shape) of Weibull populations that these logarithms of strengths may have come
 * from, each as likely as they make it: the fiducial distribution given the sample's configuration, which for a
 * location-scale family is the posterior of the prior even in location and ln spread,
 *
 *     spread:              density in ln spread proportional to  spread^(1 - n) exp(sum(y) / spread) / (sum exp(y / spread))^n
 *     location, given it:  exp(-location / spread) is gamma distributed, n over sum exp(y / spread)
 *
 * with a further 1 / spread for populations whose distance from a limit is even, counted in spreads. Where the configuration
 * is left out, as by the distribution of the fitted parameters alone, forecasts are too high: the same values that say
 * little of the spread enter the bound to come.
 *
 * `y` are at least two, not all alike.
 *
 * Source: Lawless (2003), Statistical Models and Methods for Lifetime Data, 2nd ed., section 5.2 and appendix E; Fraser
 * (1968), The Structure of Inference.
 */
export function weibullPopulations(
  y: readonly number[],
  chance: Generator,
): () => { location: number; spread: number } {
  const n = y.length;
  const largest = Math.max(...y);
  // From the largest on, so that no power overflows where the spread is small.
  const below = y.map((one) => largest - one);
  const mean = below.reduce((sum, one) => sum + one, 0) / n;
  const sd = Math.sqrt(below.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (n - 1));
  const powers = (spread: number) => below.reduce((sum, one) => sum + Math.exp(-one / spread), 0);
  // The standard deviation of a Weibull strength's logarithm is pi / sqrt 6 spreads.
  const middle = Math.log((sd * Math.sqrt(6)) / Math.PI);
  const points = Array.from({ length: POINTS }, (_, index) => middle - 4 + (9 * index) / (POINTS - 1));
  const logs = points.map((logSpread) => {
    const spread = Math.exp(logSpread);
    return -n * logSpread - (n * mean) / spread - n * Math.log(powers(spread));
  });
  const top = Math.max(...logs);
  let sum = 0;
  const upTo = logs.map((log) => {
    sum += Math.exp(log - top);
    return sum;
  });

  return () => {
    const wanted = sum * chance.uniform();
    const index = upTo.findIndex((one) => one >= wanted);
    const before = index === 0 ? 0 : (upTo[index - 1] as number);
    const within = (wanted - before) / ((upTo[index] as number) - before);
    const spread = Math.exp((points[index] as number) + ((within - 0.5) * 9) / (POINTS - 1));
    // A sum of n even exponentials is gamma distributed.
    let gamma = 0;
    for (let one = 0; one < n; one++) gamma -= Math.log(chance.uniform());
    return { location: largest - spread * Math.log(gamma / powers(spread)), spread };
  };
}
