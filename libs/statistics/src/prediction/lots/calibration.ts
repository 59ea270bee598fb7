import { requireCount, requireFraction } from '../../requirements.js';
import { type Cell, type DrawnComparison, drawComplete, drawEnded, endsFor, type LotsDesign } from './draws.js';
import {
  futureSpread,
  type LotsSummary,
  offAtScore,
  type ScatterWeights,
  scatterWeights,
  scoreOf,
} from './statistic.js';

/** On which side a difference counts. */
export type ComparedSide = 'below' | 'above' | 'either';

export interface LotsCalibrationQuestion extends LotsDesign {
  side: ComparedSide;
  /** True where a standard uncertainty between rigs is added: chances then hold whatever it is beside the scatter. */
  rigs: boolean;
  seed: number;
}

/** What scores come to where nothing differs, for each population that could be. */
export interface LotsCalibration {
  replicates: number;
  cells: { cell: Cell; scores: Float64Array }[];
}

const SHARES = [0, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9, 1];
/** Fewer where every test is drawn anew for each share. */
const SHARES_ENDED = [0, 0.15, 0.3, 0.5, 0.7, 0.85];
const RIGS = [0, 0.1, 0.5, 2, 10];
const COMPLETE = 40_000;
const ENDED = 4_000;

/**
 * How far off do future units lie that are made as the reference is, in a comparison of just this design? Scores (see
 * `scoreOf`) of seeded comparisons, for populations with every share of variance between lots from 0 to 1 in steps: the
 * chance that is told is the largest of them, so that it holds whatever the share is, at these numbers of lots and units.
 * Each item comes from a lot of its own, the worst case for the farthest of several.
 *
 * Where the rig ended some of the reference's units, those values stand in at the end itself, in the reference as in the
 * simulation, which counts only tests with as many survivors and looks at ends from 80 % limits of their share.
 *
 * Assumes lot means normal, units normal or smallest extreme value about them, with one scatter in all lots. Smallest: 3
 * lots, or 3 units of one population.
 *
 * Source: parametric bootstrap at the worst of the unknown ratios, Davison and Hinkley (1997), Bootstrap Methods and their
 * Application, section 4.2; statistic: Satterthwaite (1946), Biometrics Bulletin 2, 110-114.
 */
export function calibrateLots(question: LotsCalibrationQuestion): LotsCalibration {
  const { sizes, items, seed, side, survivors } = question;
  requireCount('calibrateLots', { items, seed }, 1);
  if (sizes.length === 2 || sizes.some((size) => size < 1) || (sizes.length === 1 && (sizes[0] as number) < 3))
    throw new RangeError(`calibrateLots: needs one group of 3 values, or 3 lots; got sizes ${sizes.join(', ')}.`);
  const weights = scatterWeights(question);
  const rigs = question.rigs ? RIGS : [0];
  const pooled = sizes.length === 1;
  if (survivors === 0) {
    const cells = (pooled ? [0] : SHARES).flatMap((share) => rigs.map((variance) => ({ share, rigs: variance })));
    const found = cells.map((cell) => ({ cell, scores: new Float64Array(COMPLETE) }));
    drawComplete(question, cells, { seed, replicates: COMPLETE }, (cell, replicate, drawn) => {
      const into = found[cell] as (typeof found)[number];
      into.scores[replicate] = scoreOn(side, drawn, weights, into.cell.rigs);
    });
    for (const { scores } of found) scores.sort();
    return { replicates: COMPLETE, cells: found };
  }
  const cells = (pooled ? [0] : SHARES_ENDED).flatMap((share) =>
    endsFor(question, share, seed).flatMap((end) => rigs.map((variance) => ({ share, rigs: variance, end }))),
  );
  const found = cells.flatMap((cell) => {
    const scores = new Float64Array(ENDED);
    const drawn = drawEnded(question, cell, { seed, replicates: ENDED }, (replicate, one) => {
      scores[replicate] = scoreOn(side, one, weights, cell.rigs);
    });
    return drawn === 0 ? [] : [{ cell, scores: scores.sort() }];
  });
  return { replicates: ENDED, cells: found };
}

/** The score of a comparison: of the item farthest off on the side that is looked at. */
export function scoreOn(
  side: ComparedSide,
  compared: LotsSummary & Pick<DrawnComparison, 'lowest' | 'highest'>,
  weights: ScatterWeights,
  rigs: number,
): number {
  const spread = futureSpread(weights, compared, rigs);
  const below = compared.centre - compared.lowest;
  const above = compared.highest - compared.centre;
  return scoreOf(side === 'below' ? below : side === 'above' ? above : Math.max(below, above), spread);
}

/** The simulation has an error of its own, taken to the safe side by so many standard errors. */
const SAFE = 2;

/**
 * The largest chance of a score this high: the upper limit, two standard errors up, of what the simulation found, which is
 * (as high + 1) / (drawn + 1) with a standard error of `error`.
 *
 *     p = (q + z^2 / 2R + z sqrt(q (1 - q) / R + z^2 / 4R^2)) / (1 + z^2 / R),     z = 2, R drawn
 *
 * Source: Phipson and Smyth (2010), Statist. Appl. Genet. Mol. Biol. 9, 39; upper limit Wilson (1927), J. Amer. Statist.
 * Assoc. 22, 209-212.
 */
export function chanceOfScore({ replicates, cells }: LotsCalibration, score: number): { p: number; error: number } {
  let most = 0;
  for (const { scores } of cells) most = Math.max(most, replicates - firstAtLeast(scores, score));
  const found = (most + 1) / (replicates + 1);
  const error = Math.sqrt((found * (1 - found)) / replicates);
  const square = SAFE ** 2 / replicates;
  const p = (found + square / 2 + SAFE * Math.sqrt(error ** 2 + square / (4 * replicates))) / (1 + square);
  return { p: Math.min(1, p), error };
}

/** The score beyond which that chance is at most `level`; undefined where the level is finer than the simulation. */
export function criticalScore({ replicates, cells }: LotsCalibration, level: number): number | undefined {
  requireFraction('criticalScore', { level });
  const found = level - SAFE * Math.sqrt((level * (1 - level)) / replicates);
  // A hair keeps a whole number from falling short of itself by rounding alone.
  const beyond = Math.floor(found * (replicates + 1) - 1 + 1e-9);
  if (beyond < 0 || cells.length === 0) return undefined;
  return Math.max(...cells.map(({ scores }) => scores[replicates - 1 - beyond] as number));
}

function firstAtLeast(sorted: Float64Array, score: number): number {
  let [low, high] = [0, sorted.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] as number) < score) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * By how many total scatters (of one unit about the mean of all lots) must one item, or the mean, differ to be called out
 * with this chance, if a share `cell.share` of the variance lies between lots? The quantile of the shift that each simulated
 * comparison would have needed; for either side the larger of both.
 */
export function smallestShift(
  question: LotsCalibrationQuestion,
  cell: Omit<Cell, 'end'>,
  critical: number,
  power: number,
): number | undefined {
  requireFraction('smallestShift', { power });
  const weights = scatterWeights(question);
  const shifts = { below: [] as number[], above: [] as number[] };
  const visit = (drawn: DrawnComparison) => {
    const reach = offAtScore(critical, futureSpread(weights, drawn, cell.rigs));
    shifts.below.push(reach - (drawn.centre - drawn.first));
    shifts.above.push(reach - (drawn.first - drawn.centre));
  };
  const { seed, side } = question;
  if (question.survivors === 0)
    drawComplete(question, [cell], { seed, replicates: COMPLETE / 4 }, (_, __, drawn) => visit(drawn));
  else {
    const end = endsFor(question, cell.share, seed)[1] as number;
    drawEnded(question, { ...cell, end }, { seed, replicates: ENDED }, (_, drawn) => visit(drawn));
  }
  const at = (on: number[]) => on.sort((a, b) => a - b)[Math.min(on.length - 1, Math.ceil(power * on.length) - 1)];
  const [below, above] = [at(shifts.below), at(shifts.above)];
  if (below === undefined || above === undefined) return undefined;
  return side === 'below' ? below : side === 'above' ? above : Math.max(below, above);
}
