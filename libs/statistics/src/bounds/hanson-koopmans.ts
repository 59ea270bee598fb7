import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import gammaln from '@stdlib/math-base-special-gammaln';
import { normalScores } from '../distributions/normal-scores.js';
import { rootOfIncreasing } from '../numerics/find-root.js';
import { gaussLegendre } from '../numerics/gauss-legendre.js';
import { requireCount, requireFraction, requirePositive } from '../requirements.js';
import { zeroFailureSize } from '../sizing/zero-failure-size.js';

/** Beyond it the weakest specimen itself is a bound at any coverage a lab asks for. */
export const LARGEST_SAMPLE = 10_000;

export interface HansonKoopmansFactor {
  method: 'Hanson-Koopmans factor';
  n: number;
  coverage: number;
  confidence: number;
  /** Which strength, from the weakest, stands beside the weakest in the bound. */
  rank: number;
  /** bound = x_(rank) (x_(1) / x_(rank))^k, above 1. */
  k: number;
}

export interface HansonKoopmansBound extends Omit<HansonKoopmansFactor, 'method'> {
  method: 'Hanson-Koopmans bound';
  /** In the unit of the strengths. */
  bound: number;
}

export interface HansonKoopmansQuestion {
  n: number;
  coverage: number;
  confidence: number;
  /** 2 to n; left out, the one named at `usualRank`. */
  rank?: number | undefined;
}

/**
 * How far below the weakest strength does a bound lie that needs no distribution, when there are too few specimens for
 * the weakest itself?
 *
 *     bound = x_(r) (x_(1) / x_(r))^k,   k >= 1 the solution of
 *     I_p(r, n - r + 1) + integral from p to 1 of beta(v; r, n - r + 1) (1 - (1 - (p / v)^(1 / k))^(r - 1)) dv = confidence
 *
 * with p = 1 - coverage and x_(r) the r-th weakest strength. Conservative: the confidence is at least the one stated.
 *
 * Assumes strengths above 0, drawn at random from a population in which ln F is a concave function of ln x below x_(r), F
 * being the share failing: true of Weibull and lognormal strength everywhere, and of normal strength above half its mean.
 * All strengths known exactly: a survivor counted at what it held could raise the bound.
 *
 * Source: Hanson and Koopmans (1964), Ann. Math. Statist. 35, 755-768; Vangel (1994), Commun. Statist. Simul. Comput. 23,
 * 1137-1154; MIL-HDBK-17-1F, volume 1, chapter 8.
 */
export function hansonKoopmansFactor(question: HansonKoopmansQuestion): HansonKoopmansFactor | NotEvaluated {
  const { n, coverage, confidence, rank } = question;
  requireFraction('hansonKoopmansFactor', { coverage, confidence });
  requireCount('hansonKoopmansFactor', { n });
  if (rank !== undefined) {
    requireCount('hansonKoopmansFactor', { rank }, 2);
    if (rank > n) throw new RangeError(`hansonKoopmansFactor: ${n} strengths have no rank ${rank}.`);
  }
  if (n < 2)
    return notEvaluated(
      `${n === 0 ? 'no specimen' : 'one specimen'} says nothing about scatter`,
      'at least 2 specimens are broken',
    );
  const enough = zeroFailureSize({ reliability: coverage, confidence });
  if (n > LARGEST_SAMPLE || (!('notEvaluated' in enough) && n >= enough.n))
    return notEvaluated(
      `with ${n} specimens the weakest strength is a bound already, and reaching below it would be wasteful`,
      'the technique is the order statistic',
    );
  const chosen = rank ?? usualRank(n, coverage, confidence);
  return {
    method: 'Hanson-Koopmans factor',
    n,
    coverage,
    confidence,
    rank: chosen,
    k: factorFor(n, chosen, 1 - coverage, confidence),
  };
}

/** The bound of `hansonKoopmansFactor` for a complete sample of strengths in one unit, all above 0. */
export function hansonKoopmansBound(
  values: readonly number[],
  question: Omit<HansonKoopmansQuestion, 'n'>,
): HansonKoopmansBound | NotEvaluated {
  for (const value of values) requirePositive('hansonKoopmansBound', { value });
  const found = hansonKoopmansFactor({ ...question, n: values.length });
  if ('notEvaluated' in found) return found;
  const sorted = values.toSorted((a, b) => a - b);
  const [weakest, other] = [sorted[0] as number, sorted[found.rank - 1] as number];
  if (weakest === other)
    return notEvaluated(
      `the ${found.rank} weakest strengths are the same number, so nothing is known of their scatter`,
      'strengths are read finely enough to differ',
    );
  const bound = other * (weakest / other) ** found.k;
  if (bound === 0)
    return notEvaluated('the bound lies below every strength a number can hold', 'strengths scatter less');
  return { ...found, method: 'Hanson-Koopmans bound', bound };
}

/** Ranks the handbook prints for 90 % with 95 % confidence where ours would be its neighbour, better by 2e-4 sd at most. */
const PRINTED_NEIGHBOURS = new Map([
  [20, 10],
  [28, 12],
]);

/**
 * The rank with which the bound lies highest on average, if ln strength is normal. For 99 % with 95 % confidence the
 * largest strength, as the handbook has it, so that results agree with its table.
 */
function usualRank(n: number, coverage: number, confidence: number): number {
  if (confidence === 0.95 && coverage === 0.99) return n;
  const printed = confidence === 0.95 && coverage === 0.9 ? PRINTED_NEIGHBOURS.get(n) : undefined;
  if (printed !== undefined) return printed;
  const scores = normalScores(n);
  const meanBound = (rank: number) => {
    const k = factorFor(n, rank, 1 - coverage, confidence);
    return k * (scores[0] as number) + (1 - k) * (scores[rank - 1] as number);
  };
  let best = 2;
  let height = meanBound(2);
  for (let rank = 3; rank <= n; rank++) {
    const here = meanBound(rank);
    // The average rises to one top and falls from there.
    if (here < height) break;
    [best, height] = [rank, here];
  }
  return best;
}

const { points, weights } = gaussLegendre(24);

/** The k that gives the confidence, by Newton's method on its logarithm. */
function factorFor(n: number, rank: number, p: number, confidence: number): number {
  const nodes = nodesFor(n, rank, p);
  const inside = nodes.reduce((sum, { weight }) => sum + weight, 0);
  const logarithm = rootOfIncreasing(
    (tried) => {
      const k = Math.exp(tried);
      // The chance that the bound lies too high; its logarithm is nearly straight in ln k.
      let [fails, slope] = [0, 0];
      for (const { weight, logRatio } of nodes) {
        const ratio = Math.exp(logRatio / k);
        const rest = -Math.expm1(logRatio / k);
        const power = rest ** (rank - 2);
        fails += weight * power * rest;
        slope += (weight * (rank - 1) * power * ratio * logRatio) / k;
      }
      return { value: Math.log1p(-confidence) - Math.log(fails), slope: -slope / fails };
    },
    Math.log(1 + 2 / inside),
    1,
    { tolerance: 1e-10 },
  );
  return Math.exp(logarithm);
}

interface Node {
  /** Probability that x_(r) is near here. */
  weight: number;
  /** ln (p / v). */
  logRatio: number;
}

/** The distribution of F(x_(r)) above p: Gauss-Legendre rules on pieces, narrow where the density is. */
function nodesFor(n: number, rank: number, p: number): Node[] {
  const logCount = gammaln(n + 1) - gammaln(rank) - gammaln(n - rank + 1);
  const mean = rank / (n + 1);
  const spread = Math.sqrt((mean * (1 - mean)) / (n + 2));
  const inner = [-9, -6, -4, -2.5, -1, 0.5, 2, 3.5, 5, 7, 10].map((z) => mean + z * spread);
  const edges = [p, ...inner.filter((edge) => edge > p && edge < 1), 1];
  const nodes: Node[] = [];
  for (let piece = 1; piece < edges.length; piece++) {
    const from = edges[piece - 1] as number;
    const width = (edges[piece] as number) - from;
    for (let index = 0; index < points.length; index++) {
      const v = from + width * (points[index] as number);
      const logDensity = logCount + (rank - 1) * Math.log(v) + (n - rank) * Math.log1p(-v);
      nodes.push({ weight: width * (weights[index] as number) * Math.exp(logDensity), logRatio: Math.log(p / v) });
    }
  }
  return nodes;
}
