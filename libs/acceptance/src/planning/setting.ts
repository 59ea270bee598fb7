import { type CurvePoint, type DesignFound, type DesignsAsked, type NotEvaluated, Refusal } from '@breakbook/lab';
import { type FittedDistribution, fewestBad, shareBelow } from '@breakbook/statistics';
import { counted, shareInWords } from '../words/index.js';

/** Simulated lots for a point of a curve: by conditioning, a standard error of about 0.003. */
export const REPLICATES = 100;
/** Simulated schedules, of which each counts as passed or not. */
export const SCHEDULES = 1000;
/** More than any lab breaks for one claim. */
export const MOST_SPECIMENS = 1000;
export const SEED = 1;

const FAMILIES = ['normal', 'lognormal', 'weibull'] as const;

/** The question with everything that was left out filled in. */
export interface Setting {
  asked: DesignsAsked;
  claim: { coverage: number; confidence: number };
  lotSize: number | undefined;
  power: number;
  least: number;
  guess: { mean: number; cv: number; from: string };
  meanOverLimit: number;
  /** Share of a bad lot below the limit. */
  bad: number;
}

/** What a design adds to what all of them have; why it cannot be had stands in its place. */
export type Drawn = Omit<DesignFound, 'design' | 'cost'>;
export type DrawnOrNot = Drawn | NotEvaluated;

export function settingOf(asked: DesignsAsked): Setting {
  const { coverage, confidence, lotSize, power = 0.8, minimumSpecimens = 5 } = asked;
  const guess = asked.guess ? { ...asked.guess, from: 'guessed' } : estimated(asked.earlier ?? []);
  return {
    asked,
    claim: { coverage, confidence },
    lotSize,
    power,
    least: minimumSpecimens,
    guess,
    meanOverLimit: guess.mean / asked.limit.value,
    bad:
      asked.bad ?? (lotSize === undefined ? shareDenied(coverage) : fewestBad({ share: coverage, lotSize }) / lotSize),
  };
}

/** The share that may lie below the limit, without the hair that 1 - 0.9 leaves in floating point. */
export function shareDenied(coverage: number): number {
  return Number((1 - coverage).toPrecision(14));
}

/** Mean and scatter of all strengths of earlier lots, taken together so that the spread between lots counts. */
function estimated(lots: readonly (readonly number[])[]): Setting['guess'] {
  const all = lots.flat();
  const mean = all.reduce((sum, one) => sum + one, 0) / all.length;
  const variance = all.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (all.length - 1);
  const cv = Math.sqrt(variance) / mean;
  if (!(cv >= 0.001))
    throw new Refusal({
      code: 'body.range',
      pointer: '/earlier',
      detail: `/earlier: ${counted(all.length, 'strength')} that are all alike say nothing of scatter. Give strengths as measured, or guess a mean and scatter.`,
    });
  return {
    mean,
    cv,
    from: `${counted(all.length, 'strength')} of ${counted(lots.length, 'earlier lot')}, taken together`,
  };
}

/** Share of a good lot below the limit under one family; the largest of the three where a design assumes none. */
export function goodShare({ asked, meanOverLimit, guess }: Setting, family?: FittedDistribution): number {
  if (asked.good !== undefined) return asked.good;
  const of = (one: FittedDistribution) => shareBelow(one, meanOverLimit, guess.cv);
  return family ? of(family) : Math.max(...FAMILIES.map(of));
}

/** Shares for which a curve gives the chance, rising. */
const SHARES = [
  0.001, 0.002, 0.005, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.125, 0.15, 0.175, 0.2, 0.25, 0.3, 0.35, 0.4,
  0.5, 0.6,
] as const;

export function curveShares(): readonly number[] {
  return SHARES;
}

/** Whole numbers of units of a lot, as shares of it. */
export function lotShares(lotSize: number): number[] {
  const units = SHARES.map((share) => Math.round(share * lotSize));
  return [...new Set([0, ...(lotSize <= 60 ? Array.from({ length: lotSize * 0.6 + 1 }, (_, k) => k) : units)])]
    .sort((a, b) => a - b)
    .map((bad) => bad / lotSize);
}

/** A curve that begins where nothing lies below the limit. */
export function curveOf(shares: readonly number[], chances: readonly number[], atNone = 1): CurvePoint[] {
  const points = shares.map((share, index) => ({ share, chance: within(chances[index] as number) }));
  return points[0]?.share === 0 ? points : [{ share: 0, chance: atNone }, ...points];
}

/** A chance that rounding of sums carried a hair beyond its ends. */
export function within(chance: number): number {
  return Math.min(1, Math.max(0, chance));
}

/** Why a design that speaks of the process stands beside a claim about one lot. */
export function processNote({ lotSize }: Setting): string[] {
  return lotSize === undefined
    ? []
    : [
        `A fitted distribution speaks of the process that makes such lots; only counts have a form for the ${lotSize} units of this one.`,
      ];
}

/** Where the population expected does not fulfil the claim itself, no number of specimens should show it. */
export function badGuessNote(setting: Setting, share: number): string[] {
  return share < setting.bad
    ? []
    : [
        `Of the strengths expected ${shareInWords(share)} lies below the limit, as much as the claim denies: such lots should not pass.`,
      ];
}
