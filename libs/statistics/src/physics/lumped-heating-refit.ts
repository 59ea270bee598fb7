/** One body that is heated: time constant in s, resistance in K/W, warming at the first time in K. */
export interface BodyState {
  timeConstant: number;
  thermalResistance: number;
  startRise: number;
}

/** Warmings in K, one more than there are pieces of power in W between them, each `duration` seconds long. */
export interface PiecewiseRecord {
  rise: Float64Array;
  power: Float64Array;
  duration: Float64Array;
}

/**
 * Steps are taken until the time constant moves by less than this share of itself. Near the least squares each is a hundredth
 * of the one before, or less, so that what is left is some millionths.
 */
const STILL = 1e-4;
const MOST_STEPS = 25;

/**
 * The least-squares fit of `fitLumpedHeating`, for a record near one whose fit is known: Gauss-Newton steps from there, some
 * hundred times faster. The model and its slopes go from piece to piece, with φ = e^(−h/τ) and φ' = φ h/τ²:
 *
 *     w ← w φ + P (1 − φ),   w' ← w' φ + (w − P) φ',   c ← c φ,   c' ← c' φ + c φ';   rise = R w + s c
 *
 * Undefined where the steps do not settle.
 *
 * Source: Gauss-Newton, Nocedal and Wright (2006), Numerical Optimization, 10.3 (from memory).
 */
export function refitLumpedHeating({ rise, power, duration }: PiecewiseRecord, from: BodyState): BodyState | undefined {
  let { timeConstant: tau, thermalResistance: resistance, startRise: start } = from;
  for (let step = 0; step < MOST_STEPS; step++) {
    // Sums of JᵀJ and Jᵀr; J by τ, R, s.
    let [tt, tw, tc, ww, wc, cc, tr, wr, cr] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
    let [w, dw, c, dc] = [0, 0, 1, 0];
    for (let i = 0; i < rise.length; i++) {
      const t = resistance * dw + start * dc;
      const off = (rise[i] as number) - resistance * w - start * c;
      tt += t * t;
      tw += t * w;
      tc += t * c;
      ww += w * w;
      wc += w * c;
      cc += c * c;
      tr += t * off;
      wr += w * off;
      cr += c * off;
      if (i === duration.length) break;
      const h = duration[i] as number;
      const phi = Math.exp(-h / tau);
      const slope = (phi * h) / (tau * tau);
      const watts = power[i] as number;
      dw = dw * phi + (w - watts) * slope;
      w = w * phi + watts * (1 - phi);
      dc = dc * phi + c * slope;
      c *= phi;
    }
    const determinant = tt * (ww * cc - wc * wc) - tw * (tw * cc - wc * tc) + tc * (tw * wc - ww * tc);
    if (!(Math.abs(determinant) > 1e-12 * tt * ww * cc)) return undefined;
    const byTau = tr * (ww * cc - wc * wc) - tw * (wr * cc - wc * cr) + tc * (wr * wc - ww * cr);
    const byR = tt * (wr * cc - wc * cr) - tr * (tw * cc - wc * tc) + tc * (tw * cr - wr * tc);
    const byStart = tt * (ww * cr - wr * wc) - tw * (tw * cr - wr * tc) + tr * (tw * wc - ww * tc);
    const whole = byTau / determinant;
    // A step beyond half or twice the time constant would leave the valley.
    const moved = Math.min(tau, Math.max(-tau / 2, whole));
    tau += moved;
    resistance += byR / determinant;
    start += byStart / determinant;
    if (Math.abs(moved) < STILL * tau) return { timeConstant: tau, thermalResistance: resistance, startRise: start };
  }
  return undefined;
}
