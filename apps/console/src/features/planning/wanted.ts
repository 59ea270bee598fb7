import type { DesignsAsked, ShowableAsked } from '@breakbook/lab';

/** What the sliders stand at. */
export interface Wanted {
  limit: number;
  unit: string;
  n: number;
  coverage: number;
  confidence: number;
  /** Mean over limit. */
  margin: number;
  cv: number;
  /** 0 for the process. */
  lotSize: number;
  perSpecimen: number;
  rigHours: number;
  /** What the staged bound assumes. */
  distribution: NonNullable<DesignsAsked['distribution']>;
  /** Load of a test above the limit, over it; 1 for none. */
  loadRatio: number;
  /** Lowest plausible Weibull shape, and where it comes from. */
  shape: number;
  shapeSource: string;
}

/** An invented rim, so that the page shows something at once. */
export const FIRST: Wanted = {
  limit: 1500,
  unit: 'kPa',
  n: 5,
  coverage: 0.9,
  confidence: 0.95,
  margin: 1.3,
  cv: 0.06,
  lotSize: 0,
  perSpecimen: 0,
  rigHours: 0,
  // The schedule of a Weibull bound takes many times as long to reckon.
  distribution: 'lognormal',
  loadRatio: 1,
  shape: 8,
  shapeSource: '',
};

/** Is a demonstration above the limit asked for, with the shape it rests on and its source? */
export function isRaised({ loadRatio, shapeSource }: Wanted): boolean {
  return loadRatio > 1 && shapeSource.trim() !== '';
}

export function designsAsked(wanted: Wanted): DesignsAsked {
  const { limit, unit, coverage, confidence, margin, cv, lotSize, perSpecimen, rigHours, distribution } = wanted;
  return {
    distribution,
    limit: { value: limit, unit },
    coverage,
    confidence,
    ...(lotSize > 1 ? { lotSize } : {}),
    guess: { mean: limit * margin, cv },
    ...(isRaised(wanted)
      ? { raised: { loadRatio: wanted.loadRatio, shape: wanted.shape, shapeSource: wanted.shapeSource.trim() } }
      : {}),
    ...(perSpecimen > 0 || rigHours > 0
      ? {
          cost: {
            ...(perSpecimen > 0 ? { perSpecimen } : {}),
            ...(rigHours > 0 ? { rigHoursPerRun: rigHours } : {}),
          },
        }
      : {}),
  };
}

export function showableAsked(wanted: Wanted): ShowableAsked {
  const { n, coverage, confidence, cv, margin, lotSize, shape } = wanted;
  return {
    n,
    coverage,
    confidence,
    cv,
    ...(margin > 1 ? { meanOverLimit: margin } : {}),
    ...(isRaised(wanted) ? { shape } : {}),
    ...(lotSize > 1 ? { lotSize } : {}),
  };
}
