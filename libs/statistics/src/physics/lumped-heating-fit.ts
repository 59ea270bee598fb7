import { type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { minimumBetween } from '../numerics/find-minimum.js';
import { requireFinite, requireValues } from '../requirements.js';
import { cumulativeTrapezoid } from './cumulative-trapezoid.js';
import { heatingResponse, type Power } from './heating-response.js';
import { requireTimes } from './lumped-heating.js';

export interface LumpedHeatingFit {
  n: number;
  /** τ, s. */
  timeConstant: number;
  /** R = α / hA, K/W; left out where the power is not known. */
  thermalResistance?: number;
  /** R times the mean power of the record: the warming it would come to in the end, K. */
  steadyRise: number;
  /** Warming at the first sample by the fit, K. */
  startRise: number;
  /** Standard deviation of the temperatures about the fit, K. */
  residualSd: number;
  standardErrors: { timeConstant: number; thermalResistance?: number; steadyRise: number };
}

/** Parameters fitted: time constant, resistance, start. */
const PARAMETERS = 3;
/** A record must last this many time constants before its time constant is believed. Common practice, no source. */
const SHORTEST_RECORD = 2;

/**
 * Which time constant and thermal resistance explain this heating best?
 *
 *     T(t) = T_a + R θ(t; τ) + (T₀ − T_a) e^(−t/τ)
 *
 * with θ the exact response to the power (`heatingResponse`). Least squares of the temperatures over τ, R and T₀: R and T₀
 * enter in proportion and are solved for at each τ, which is searched over four decades. Standard errors by the curvature
 * at the minimum, with n − 3 degrees of freedom; they take the scatter as independent from sample to sample.
 *
 * `temperature` and `ambient` on one scale whose degree is the kelvin; power in W, in pieces from the first time on. Power
 * left out is constant and unknown: then no thermal resistance is given.
 *
 * Source: Golub and Pereyra (1973), SIAM J. Numer. Anal. 10, 413-432 (separable least squares).
 */
export function fitLumpedHeating(
  time: readonly number[],
  temperature: readonly number[],
  power: Power | undefined,
  ambient: number,
): LumpedHeatingFit | NotEvaluated {
  const n = time.length;
  requireTimes('fitLumpedHeating', time);
  requireValues('fitLumpedHeating', 'temperature', temperature);
  requireFinite('fitLumpedHeating', { ambient });
  if (temperature.length !== n)
    throw new RangeError(
      `fitLumpedHeating: one temperature is needed for each time; got ${temperature.length} for ${n}.`,
    );
  if (n <= PARAMETERS)
    return notEvaluated(
      `${n} temperatures do not fix a time constant, a resistance and a start`,
      `at least ${PARAMETERS + 1} temperatures are recorded`,
    );

  const origin = time[0] as number;
  const span = (time[n - 1] as number) - origin;
  const given: Power = power ?? { kind: 'constant', power: 1 };
  const rise = temperature.map((one) => one - ambient);
  const fitAt = (logTau: number) => fitGiven(Math.exp(logTau), time, rise, given, origin);

  const valley = bracket((logTau) => fitAt(logTau).squares, Math.log(span / 1000), Math.log(span * 10));
  const logTau = valley && minimumBetween((x) => fitAt(x).squares, valley.low, valley.high, 1e-10);
  if (logTau === undefined || Math.exp(logTau) * SHORTEST_RECORD > span)
    return notEvaluated(
      `the record lasts ${span} s, less than ${SHORTEST_RECORD} of the time constants that would explain it`,
      'the heating is recorded for longer under a power that varies little',
    );
  const best = fitAt(logTau);
  if (best.singular)
    return notEvaluated(
      'the power and the start cannot be told apart in this record, as when it is all cooling',
      'the record holds heating as well as a known start',
    );

  const tau = Math.exp(logTau);
  const residualSd = Math.sqrt(best.squares / (n - PARAMETERS));
  const errors = standardErrors(tau, best, time, given, origin).map((one) => one * residualSd);
  const mean = meanPower(time, given);
  return {
    n,
    timeConstant: tau,
    ...(power ? { thermalResistance: best.resistance } : {}),
    steadyRise: best.resistance * mean,
    startRise: best.start,
    residualSd,
    standardErrors: {
      timeConstant: errors[0] as number,
      ...(power ? { thermalResistance: errors[1] as number } : {}),
      steadyRise: (errors[1] as number) * Math.abs(mean),
    },
  };
}

interface FitGiven {
  resistance: number;
  start: number;
  squares: number;
  singular: boolean;
}

/** Resistance and start by linear least squares for one time constant. */
function fitGiven(tau: number, time: readonly number[], rise: number[], power: Power, origin: number): FitGiven {
  const warming = heatingResponse(time, power, tau, origin);
  const cooling = time.map((t) => Math.exp(-(t - origin) / tau));
  let [ww, wc, cc, wy, cy] = [0, 0, 0, 0, 0];
  for (let i = 0; i < time.length; i++) {
    const [w, c, y] = [warming[i] as number, cooling[i] as number, rise[i] as number];
    ww += w * w;
    wc += w * c;
    cc += c * c;
    wy += w * y;
    cy += c * y;
  }
  const determinant = ww * cc - wc * wc;
  const singular = !(determinant > 1e-10 * ww * cc);
  const resistance = singular ? 0 : (cc * wy - wc * cy) / determinant;
  const start = singular ? cy / cc : (ww * cy - wc * wy) / determinant;
  const squares = rise.reduce(
    (sum, y, i) => sum + (y - resistance * (warming[i] as number) - start * (cooling[i] as number)) ** 2,
    0,
  );
  return { resistance, start, squares, singular };
}

/** The two neighbours of the lowest of a row of points; undefined where it lies at an end. */
function bracket(at: (x: number) => number, from: number, to: number): { low: number; high: number } | undefined {
  const points = 80;
  const step = (to - from) / points;
  const values = Array.from({ length: points + 1 }, (_, i) => at(from + i * step));
  const lowest = values.indexOf(Math.min(...values));
  if (lowest <= 0 || lowest >= points) return undefined;
  return { low: from + (lowest - 1) * step, high: from + (lowest + 1) * step };
}

/** Square roots of the diagonal of (JᵀJ)⁻¹ for τ and R; J by differences in τ, exact in R and start. */
function standardErrors(
  tau: number,
  { resistance, start }: FitGiven,
  time: readonly number[],
  power: Power,
  origin: number,
): [number, number] {
  const model = (t: number) => {
    const warming = heatingResponse(time, power, t, origin);
    return time.map((at, i) => resistance * (warming[i] as number) + start * Math.exp(-(at - origin) / t));
  };
  const change = 1e-4 * tau;
  const [above, below] = [model(tau + change), model(tau - change)];
  const warming = heatingResponse(time, power, tau, origin);
  const rows = time.map((at, i) => [
    ((above[i] as number) - (below[i] as number)) / (2 * change),
    warming[i] as number,
    Math.exp(-(at - origin) / tau),
  ]) as [number, number, number][];
  const product = (a: number, b: number) => rows.reduce((sum, row) => sum + (row[a] as number) * (row[b] as number), 0);
  const [tt, tw, tc, ww, wc, cc] = [
    product(0, 0),
    product(0, 1),
    product(0, 2),
    product(1, 1),
    product(1, 2),
    product(2, 2),
  ];
  const determinant = tt * (ww * cc - wc * wc) - tw * (tw * cc - wc * tc) + tc * (tw * wc - ww * tc);
  return [Math.sqrt((ww * cc - wc * wc) / determinant), Math.sqrt((tt * cc - tc * tc) / determinant)];
}

/** Over the time of the record, W. */
function meanPower(time: readonly number[], power: Power): number {
  const span = (time.at(-1) as number) - (time[0] as number);
  switch (power.kind) {
    case 'constant':
      return power.power;
    case 'segments': {
      let [energy, left] = [0, span];
      for (const segment of power.segments) {
        const used = Math.min(left, segment.duration);
        energy += used * segment.power;
        left -= used;
      }
      return energy / span;
    }
    case 'sampled':
      return (cumulativeTrapezoid(time, power.power).at(-1) as number) / span;
  }
}
