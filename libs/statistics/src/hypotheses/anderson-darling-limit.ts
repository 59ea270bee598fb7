import { rootOfIncreasing } from '../numerics/find-root.js';
import { gaussLegendre } from '../numerics/gauss-legendre.js';

const { points, weights } = gaussLegendre(16);

/** Mean number of squares and variance of the limit: m and 2 m (pi^2 / 3 - 3). */
const VARIANCE_PER_DEGREE = 2 * (Math.PI ** 2 / 3 - 3);

/** Standard deviation of the limit for m = groups - 1. */
export function limitSd(m: number): number {
  return Math.sqrt(m * VARIANCE_PER_DEGREE);
}

/**
 * The chance that the sum over j >= 1 of Y_j / (j (j + 1)) exceeds x, with Y_j independent chi-squares of
 * m degrees of freedom each: the limit of the Anderson-Darling statistic of m + 1 large samples.
 *
 * Its moment generating function is
 *
 *     M(s) = (-2 pi s / cos(pi sqrt(1 + 8 s) / 2))^(m / 2)
 *
 * and the chance is the integral of M(s) exp(-s x) / s along a line that crosses the real axis between 0
 * and the first singularity at s = 1, so that also small chances come out with relative precision.
 *
 * Source: Anderson and Darling (1952), Ann. Math. Statist. 23, 193-212, for m = 1; its m-th power by Scholz and
 * Stephens (1987), J. Amer. Statist. Assoc. 82, 918-924. Inversion by the shifted line: Rice (1980), SIAM J. Sci.
 * Statist. Comput. 1, 438-448.
 */
export function limitAbove(x: number, m: number): number {
  if (x <= 0) return 1;
  // Far out one factor is left: exp(-x) times a power of x.
  const far = 100 + 4 * m;
  if (x > far) return limitAbove(far, m) * (x / far) ** (m / 2 - 1) * Math.exp(far - x);

  const crossing = Math.max(0.15, 1 - m / (2 * x));
  const { real: logTop } = logIntegrand(crossing, 0, x, m);
  // In the root of the height the integrand falls like exp(-m pi root / 2).
  let sum = 0;
  let from = 0;
  for (let panel = 0; panel < 20_000; panel++) {
    // Short beside the distance to the singularity, and beside a turn of the integrand.
    const step = Math.min(0.5, (Math.sqrt(1 - crossing) + from) / 2, 3 / (1 + from * x));
    for (let index = 0; index < points.length; index++) {
      const root = from + step * (points[index] as number);
      const { real, imaginary } = logIntegrand(crossing, root * root, x, m);
      sum += 2 * root * step * (weights[index] as number) * Math.exp(real - logTop) * Math.cos(imaginary);
    }
    from += step;
    if (logIntegrand(crossing, from * from, x, m).real - logTop < -38) break;
  }
  return Math.min(1, (sum * Math.exp(logTop)) / Math.PI);
}

/** The x that the sum exceeds with this chance. */
export function limitQuantile(above: number, m: number): number {
  const sd = limitSd(m);
  const logarithm = Math.log(above);
  return rootOfIncreasing(
    (x) => {
      const value = logarithm - Math.log(limitAbove(x, m));
      const step = 1e-5 * sd;
      return { value, slope: (Math.log(limitAbove(x - step, m)) - Math.log(limitAbove(x + step, m))) / (2 * step) };
    },
    m + sd,
    sd,
    { from: 0 },
  );
}

/** ln of M(s) exp(-s x) / s at s = crossing + i height. */
function logIntegrand(crossing: number, height: number, x: number, m: number): { real: number; imaginary: number } {
  const [logSize, angle] = [0.5 * Math.log(crossing ** 2 + height ** 2), Math.atan2(height, crossing)];
  // w = pi sqrt(1 + 8 s) / 2 = a + i b with b >= 0; ln(-cos w) = -i w - ln 2 + ln(1 + exp(2 i w)) + i pi.
  const size = Math.hypot(1 + 8 * crossing, 8 * height);
  const a = (Math.PI / 2) * Math.sqrt((size + 1 + 8 * crossing) / 2);
  const b = (Math.PI / 2) * Math.sqrt(Math.max(0, size - 1 - 8 * crossing) / 2);
  const shrunk = Math.exp(-2 * b);
  const [one, other] = [1 + shrunk * Math.cos(2 * a), shrunk * Math.sin(2 * a)];
  const logCosine = b - Math.LN2 + 0.5 * Math.log(one * one + other * other);
  const cosineAngle = -a + Math.atan2(other, one) + Math.PI;
  const half = m / 2;
  return {
    real: half * (Math.log(2 * Math.PI) + logSize - logCosine) - crossing * x - logSize,
    imaginary: half * (angle - cosineAngle) - height * x - angle,
  };
}
