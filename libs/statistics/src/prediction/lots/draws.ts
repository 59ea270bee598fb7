import { binomialBound } from '../../bounds/binomial-bound.js';
import { type Generator, seededGenerator } from '../../random/generator.js';
import { aboutTheirMean, type LotsLayout, type LotsSummary, lotsSummary } from './statistic.js';

/** How units of one lot scatter about its mean; on the scale of ln strength where strengths are Weibull. */
export type ErrorFamily = 'normal' | 'smallest extreme value';

export interface LotsDesign extends LotsLayout {
  family: ErrorFamily;
  /** How many of the reference values, the largest, are known only to reach the one value where the rig ended them. */
  survivors: number;
}

/** One population of lots, of total scatter 1: the share of variance between lots, and the variance between rigs. */
export interface Cell {
  share: number;
  rigs: number;
  /** Where the rig ends the reference's units; left out where it ends none. */
  end?: number;
}

/** One simulated comparison in which nothing differs. */
export interface DrawnComparison extends LotsSummary {
  /** Smallest and largest of the items, or their mean, and the first item or the mean. */
  lowest: number;
  highest: number;
  first: number;
}

const EULER = 0.5772156649015329;
const EXTREME_SD = Math.PI / Math.sqrt(6);

/** An error of mean 0 and variance 1. */
function errorOf(family: ErrorFamily, chance: Generator): number {
  if (family === 'normal') return chance.normal();
  return (Math.log(-Math.log(chance.uniform())) + EULER) / EXTREME_SD;
}

function nothingDrawn(): DrawnComparison {
  return { centre: 0, between: 0, within: 0, lowest: 0, highest: 0, first: 0 };
}

/** Items, and where the difference between rigs puts them, from chance that is the same for every cell. */
class Items {
  private readonly lots: Float64Array;
  private readonly errors: Float64Array;
  private rigs = 0;

  constructor(private readonly design: LotsDesign) {
    this.lots = new Float64Array(design.items);
    this.errors = new Float64Array(design.items);
  }

  draw(chance: Generator): void {
    for (let item = 0; item < this.design.items; item++) {
      this.lots[item] = chance.normal();
      this.errors[item] = errorOf(this.design.family, chance);
    }
    this.rigs = chance.normal();
  }

  /** Written into one record, since a comparison is looked at once and there are hundreds of thousands. */
  into(drawn: DrawnComparison, { share, rigs }: Cell): void {
    const [byLot, byUnit, offset] = [Math.sqrt(share), Math.sqrt(1 - share), Math.sqrt(rigs) * this.rigs];
    if (this.design.of === 'mean') {
      let sum = 0;
      for (const error of this.errors) sum += error;
      const mean = byLot * (this.lots[0] as number) + (byUnit * sum) / this.design.items + offset;
      drawn.lowest = mean;
      drawn.highest = mean;
      drawn.first = mean;
      return;
    }
    let [lowest, highest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let item = 0; item < this.design.items; item++) {
      const value = byLot * (this.lots[item] as number) + byUnit * (this.errors[item] as number) + offset;
      if (value < lowest) lowest = value;
      if (value > highest) highest = value;
    }
    drawn.lowest = lowest;
    drawn.highest = highest;
    drawn.first = byLot * (this.lots[0] as number) + byUnit * (this.errors[0] as number) + offset;
  }
}

/** Simulates comparisons in every cell with the same random numbers, where no unit of the reference is ended early. */
export function drawComplete(
  design: LotsDesign,
  cells: readonly Cell[],
  { seed, replicates }: { seed: number; replicates: number },
  visit: (cell: number, replicate: number, drawn: DrawnComparison) => void,
): void {
  const chance = seededGenerator(seed);
  const { sizes, family } = design;
  const k = sizes.length;
  const n = sizes.reduce((sum, size) => sum + size, 0);
  const [lots, errors] = [new Float64Array(k), new Float64Array(n)];
  const [means, errorMeans] = [new Float64Array(k), new Float64Array(k)];
  const items = new Items(design);
  const drawn = nothingDrawn();
  for (let replicate = 0; replicate < replicates; replicate++) {
    for (let lot = 0; lot < k; lot++) lots[lot] = chance.normal();
    for (let unit = 0; unit < n; unit++) errors[unit] = errorOf(family, chance);
    items.draw(chance);
    let [start, squares] = [0, 0];
    for (let lot = 0; lot < k; lot++) {
      const size = sizes[lot] as number;
      let sum = 0;
      for (let at = start; at < start + size; at++) sum += errors[at] as number;
      const mean = sum / size;
      for (let at = start; at < start + size; at++) squares += ((errors[at] as number) - mean) ** 2;
      errorMeans[lot] = mean;
      start += size;
    }
    for (let cell = 0; cell < cells.length; cell++) {
      const at = cells[cell] as Cell;
      const [byLot, byUnit] = [Math.sqrt(at.share), Math.sqrt(1 - at.share)];
      for (let lot = 0; lot < k; lot++)
        means[lot] = byLot * (lots[lot] as number) + byUnit * (errorMeans[lot] as number);
      const { centre, between } = aboutTheirMean(means);
      drawn.centre = centre;
      drawn.between = between;
      drawn.within = n > k ? ((1 - at.share) * squares) / (n - k) : 0;
      items.into(drawn, at);
      visit(cell, replicate, drawn);
    }
  }
}

/** Of so many simulated tests at most, one must end with just the survivors seen; otherwise the cell is told against by them. */
const RAREST = 20;

/**
 * The same in one cell where the rig ends units: only tests with just as many survivors count, each survivor with the value
 * where it was ended. Returns how many comparisons there are; 0 where so many survivors are rarer than 1 test in 20.
 */
export function drawEnded(
  design: LotsDesign,
  cell: Cell,
  { seed, replicates }: { seed: number; replicates: number },
  visit: (replicate: number, drawn: DrawnComparison) => void,
): number {
  const chance = seededGenerator(seed);
  const { sizes, family, survivors } = design;
  const end = cell.end ?? Number.POSITIVE_INFINITY;
  const [byLot, byUnit] = [Math.sqrt(cell.share), Math.sqrt(1 - cell.share)];
  const values = new Float64Array(sizes.reduce((sum, size) => sum + size, 0));
  const items = new Items(design);
  const drawn = nothingDrawn();
  let found = 0;
  for (let test = 1; found < replicates; test++) {
    if (test > RAREST * 20 && found * RAREST < test) return 0;
    let [at, held] = [0, 0];
    for (const size of sizes) {
      const lot = byLot * chance.normal();
      for (let unit = 0; unit < size; unit++) {
        const value = lot + byUnit * errorOf(family, chance);
        if (value > end) held++;
        values[at++] = Math.min(value, end);
      }
    }
    if (held !== survivors) continue;
    items.draw(chance);
    const { centre, between, within } = lotsSummary(values, sizes);
    drawn.centre = centre;
    drawn.between = between;
    drawn.within = within;
    items.into(drawn, cell);
    visit(found++, drawn);
  }
  return found;
}

/** Where a rig may end units, in total scatters from the mean, if so many outlast it: at 80 % limits of their share, and between. */
export function endsFor(design: LotsDesign, share: number, seed: number): number[] {
  const n = design.sizes.reduce((sum, size) => sum + size, 0);
  const chance = seededGenerator(seed);
  const totals = Float64Array.from(
    { length: 20_001 },
    () => Math.sqrt(share) * chance.normal() + Math.sqrt(1 - share) * errorOf(design.family, chance),
  ).sort();
  const bound = binomialBound({ n, failures: design.survivors, confidence: 0.8 });
  const [few, many] = 'notEvaluated' in bound ? [0, 1] : bound.failureLimits;
  return [few, design.survivors / n, many].map((outlast) => totals[Math.round(20_000 * (1 - outlast))] as number);
}
