import { rootOfIncreasing } from '../numerics/find-root.js';
import { NoConvergence } from '../numerics/no-convergence.js';
import type { Link } from './link.js';

/** So many specimens struck at one level, and how many of them broke. */
export interface LevelResult {
  level: number;
  tested: number;
  broke: number;
}

/** A log-likelihood of intercept a and slope b at one point, binomial coefficients left out. */
export interface BinaryLikelihoodAt {
  value: number;
  byIntercept: number;
  bySlope: number;
  byInterceptTwice: number;
  byBoth: number;
  bySlopeTwice: number;
}

/** Intercept and slope where the likelihood is largest. */
export interface BinaryMaximum {
  intercept: number;
  slope: number;
  value: number;
}

/** Variances of intercept and slope and their covariance, by the expected information. */
export interface BinaryCovariance {
  intercept: number;
  slope: number;
  both: number;
}

/**
 * The log-likelihood of specimens that broke or held, share breaking F(a + b u) at level u:
 *
 *     ln L = sum over levels of broke ln F(eta) + (tested - broke) ln (1 - F(eta))
 *
 * concave in a and b for probit and logit, so that it has one maximum at most: Wedderburn (1976), Biometrika 63, 27-32.
 */
export class BinaryLikelihood {
  constructor(
    readonly rows: readonly LevelResult[],
    readonly link: Link,
  ) {}

  at(intercept: number, slope: number): BinaryLikelihoodAt {
    const sums = { value: 0, byIntercept: 0, bySlope: 0, byInterceptTwice: 0, byBoth: 0, bySlopeTwice: 0 };
    for (const { level, tested, broke } of this.rows) {
      const eta = intercept + slope * level;
      const breaks = this.link.logShare(eta);
      const holds = this.link.logShare(-eta);
      const held = tested - broke;
      const first = broke * breaks.first - held * holds.first;
      const second = broke * breaks.second + held * holds.second;
      sums.value += (broke > 0 ? broke * breaks.value : 0) + (held > 0 ? held * holds.value : 0);
      sums.byIntercept += first;
      sums.bySlope += first * level;
      sums.byInterceptTwice += second;
      sums.byBoth += second * level;
      sums.bySlopeTwice += second * level * level;
    }
    return sums;
  }

  /** The maximum by Newton's method, each step halved until the likelihood does not fall. It must be known to exist. */
  maximum(): BinaryMaximum {
    const tested = this.rows.reduce((sum, row) => sum + row.tested, 0);
    const broke = this.rows.reduce((sum, row) => sum + row.broke, 0);
    let [intercept, slope] = [this.link.quantile(broke / tested), 0];
    let here = this.at(intercept, slope);
    for (let iteration = 0; iteration < 200; iteration++) {
      const determinant = here.byInterceptTwice * here.bySlopeTwice - here.byBoth ** 2;
      let byIntercept = (here.bySlope * here.byBoth - here.byIntercept * here.bySlopeTwice) / determinant;
      let bySlope = (here.byIntercept * here.byBoth - here.bySlope * here.byInterceptTwice) / determinant;
      const promise = here.byIntercept * byIntercept + here.bySlope * bySlope;
      if (Number.isNaN(promise)) throw new NoConvergence('the likelihood has no curvature left to follow');
      if (promise <= 0) return { intercept, slope, value: here.value };
      let next = this.at(intercept + byIntercept, slope + bySlope);
      const slack = 1e-13 * Math.abs(here.value);
      for (let halving = 0; halving < 60 && !(next.value >= here.value - slack); halving++) {
        byIntercept /= 2;
        bySlope /= 2;
        next = this.at(intercept + byIntercept, slope + bySlope);
      }
      intercept += byIntercept;
      slope += bySlope;
      here = next;
      // The error left after this step is of the order of the promise itself, in standard errors.
      if (promise < 1e-15) return { intercept, slope, value: here.value };
    }
    throw new NoConvergence('the likelihood did not reach its maximum within 200 steps');
  }

  covariance({ intercept, slope }: BinaryMaximum): BinaryCovariance {
    let [one, both, two] = [0, 0, 0];
    for (const { level, tested } of this.rows) {
      const weight = tested * this.link.information(intercept + slope * level);
      one += weight;
      both += weight * level;
      two += weight * level * level;
    }
    const determinant = one * two - both * both;
    if (!(determinant > 0 && two / determinant < Number.POSITIVE_INFINITY))
      throw new NoConvergence('the specimens hold no information about the slope that numbers could carry');
    return { intercept: two / determinant, slope: one / determinant, both: -both / determinant };
  }

  /** The largest likelihood of all curves whose predictor is `eta` at `place`, and how it changes with the place. */
  profile(place: number, eta: number, guess: number): { value: number; byPlace: number } {
    const through = (slope: number) => this.at(eta - slope * place, slope);
    const slope = rootOfIncreasing(
      (tried) => {
        const { byIntercept, bySlope, byInterceptTwice, byBoth, bySlopeTwice } = through(tried);
        return {
          value: place * byIntercept - bySlope,
          slope: 2 * place * byBoth - bySlopeTwice - place * place * byInterceptTwice,
        };
      },
      guess,
      Math.abs(guess),
    );
    const { value, byIntercept } = through(slope);
    return { value, byPlace: -slope * byIntercept };
  }

  /** The likelihood of one share broken at every level. */
  flat(): number {
    const tested = this.rows.reduce((sum, row) => sum + row.tested, 0);
    const broke = this.rows.reduce((sum, row) => sum + row.broke, 0);
    return this.at(this.link.quantile(broke / tested), 0).value;
  }
}
