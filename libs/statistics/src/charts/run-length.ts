import { notEvaluated } from '@breakbook/lab';
import type { Described } from '../description/summary.js';
import { requireCount, requireFinite, requirePositive } from '../requirements.js';
import { type EstimatedLimits, overEstimatedCharts } from './estimated-limits.js';
import { requireWeight } from './ewma-chart.js';
import { cusumRunLength, ewmaRunLength, individualsRunLength, type Seen } from './run-length-equations.js';

/** A chart by its constants, in standard deviations. */
export type ChartKind =
  | { kind: 'individuals'; width: number }
  | { kind: 'ewma'; lambda: number; width: number }
  | { kind: 'cusum'; k: number; h: number };

export interface RunLengthQuestion {
  chart: ChartKind;
  /** 1: only a rise gives a signal; 2: a rise or a fall. */
  sides: 1 | 2;
  /** Shifts of the mean, in standard deviations of single values. */
  shifts: readonly number[];
  /** Left out where target and sigma are known. */
  estimatedFrom?: EstimatedLimits | undefined;
}

export interface RunLength {
  method: 'average run length';
  chart: ChartKind;
  sides: 1 | 2;
  shifts: number[];
  /** Mean number of values from the shift to the signal, for each shift. */
  averageRunLength: Described[];
  /** What follows is there only for charts whose target and sigma are estimated. */
  estimatedFrom?: { lots: number };
  seed?: number;
  replicates?: number;
  /** For each shift: the run length that a tenth, half and nine tenths of the charts so set up stay below. */
  ofCharts?: { tenth: Described; median: Described; nineTenths: Described }[];
  /** For each shift: standard error of averageRunLength. */
  simulationError?: Described[];
}

/**
 * How many values, on average, does a chart take to give a signal after the mean has shifted, and how many before a false
 * alarm where it has not?
 *
 *     individuals   1 / P(a value lies outside)
 *     ewma, cusum   by integral equation (see `ewmaRunLength`, `cusumRunLength`), from a start at the target; the
 *                   two-sided cusum by 1 / L = 1 / L upward + 1 / L downward
 *
 * With `estimatedFrom` target and sigma are themselves estimated from so many lots, as `individualsChart` does, and each
 * chart so set up has a run length of its own: see `overEstimatedCharts`.
 *
 * Assumes values independent and normal; ewma with its final limits throughout.
 *
 * Source: Crowder (1987), Technometrics 29, 401-407; Page (1954), Biometrika 41, 100-115; Vance (1986), J. Qual. Technol.
 * 18, 189-193.
 */
export function runLength({ chart, sides, shifts, estimatedFrom }: RunLengthQuestion): RunLength {
  requireChart(chart);
  for (const shift of shifts) requireFinite('runLength', { shift });
  const head = { method: 'average run length' as const, chart, sides, shifts: [...shifts] };
  if (estimatedFrom === undefined)
    return {
      ...head,
      averageRunLength: shifts.map((shift) => sayable(lengthSeen(chart, sides, { mean: shift, sd: 1 }))),
    };
  requireCount('runLength', { lots: estimatedFrom.lots }, 2);
  // So fine steps that the equation is not solved come up only far from the limits, where no signal is to be expected.
  const charts = overEstimatedCharts(
    estimatedFrom,
    shifts,
    (seen) => lengthSeen(chart, sides, seen) ?? Number.POSITIVE_INFINITY,
  );
  // The run length rises as exp(growth sigma^2) with the sigma estimated, whose square falls off as exp(-lots sigma^2 / 2 pi)
  // at most, where neighbours alternate; beyond this many lots the mean over charts has a standard error.
  const needed = Math.floor(4 * Math.PI * growth(chart)) + 1;
  const rare = notEvaluated(
    `with limits from ${estimatedFrom.lots} lots the mean rests on rare charts whose limits came out far too wide`,
    `limits are estimated from at least ${needed} lots; ofCharts says what most charts do`,
  );
  const settles = estimatedFrom.lots >= needed;
  return {
    ...head,
    averageRunLength: charts.means.map((mean) => (settles ? sayable(mean) : rare)),
    estimatedFrom: { lots: estimatedFrom.lots },
    seed: charts.seed,
    replicates: charts.replicates,
    ofCharts: charts.quantiles.map(({ tenth, median, nineTenths }) => ({
      tenth: sayable(tenth),
      median: sayable(median),
      nineTenths: sayable(nineTenths),
    })),
    ...(settles ? { simulationError: charts.errors.map(sayable) } : {}),
  };
}

function lengthSeen(chart: ChartKind, sides: 1 | 2, seen: Seen): number | undefined {
  switch (chart.kind) {
    case 'individuals':
      return individualsRunLength(chart.width, sides, seen);
    case 'ewma':
      return ewmaRunLength(chart.lambda, chart.width, sides, seen);
    case 'cusum': {
      const upward = cusumRunLength(chart.k, chart.h, seen);
      if (sides === 1) return upward;
      const downward = cusumRunLength(chart.k, chart.h, { mean: -seen.mean, sd: seen.sd });
      return upward === undefined || downward === undefined ? undefined : 1 / (1 / upward + 1 / downward);
    }
  }
}

function growth(chart: ChartKind): number {
  return chart.kind === 'cusum' ? 2 * chart.k * chart.h : chart.width ** 2 / 2;
}

function requireChart(chart: ChartKind): void {
  if (chart.kind === 'cusum') {
    requirePositive('runLength', { h: chart.h });
    if (!(chart.k >= 0)) throw new RangeError(`runLength: k must be at least 0; got ${chart.k}.`);
    return;
  }
  requirePositive('runLength', { width: chart.width });
  if (chart.kind === 'ewma') requireWeight('runLength', chart.lambda);
}

function sayable(length: number | undefined): Described {
  if (length === undefined)
    return notEvaluated(
      'the chart moves in steps too small beside the way to its limits for the equation to be solved',
      'lambda is larger, or shift and limits lie closer to the target',
    );
  return Number.isFinite(length)
    ? length
    : notEvaluated(
        'no signal is ever to be expected: the mean run is longer than a number can hold',
        'the limits lie closer',
      );
}
