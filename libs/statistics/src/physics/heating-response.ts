/** Power put in: constant, in pieces one after the other, or sampled at the very times asked for and straight between. */
export type Power =
  | { kind: 'constant'; power: number }
  | { kind: 'segments'; segments: readonly PowerSegment[] }
  | { kind: 'sampled'; power: ArrayLike<number> };

export interface PowerSegment {
  /** W */
  power: number;
  /** s */
  duration: number;
}

/**
 * The warming above ambient that this power gives a body of time constant `tau`, per K/W of its thermal resistance, from
 * no warming at `origin`; W, at each of the increasing times. The exact solution of
 *
 *     τ dθ/dt = P(t) − θ
 *
 * piece by piece: over a step h with power going straight from P to P', and φ = exp(−h/τ),
 *
 *     θ' = θ φ + P (1 − φ) + (P' − P) (1 − (1 − φ) τ / h)
 *
 * Source: linear first-order equation, variation of constants; Incropera and DeWitt, Fundamentals of Heat and Mass
 * Transfer, 5.3 (from memory).
 */
export function heatingResponse(time: ArrayLike<number>, power: Power, tau: number, origin: number): Float64Array {
  switch (power.kind) {
    case 'constant':
      return Float64Array.from(time, (t) => -power.power * Math.expm1(-(t - origin) / tau));
    case 'segments':
      return overSegments(time, power.segments, tau, origin);
    case 'sampled':
      return overSamples(time, power.power, tau);
  }
}

function overSegments(time: ArrayLike<number>, segments: readonly PowerSegment[], tau: number, origin: number) {
  const response = new Float64Array(time.length);
  let [begins, theta, next] = [origin, 0, 0];
  const after = (power: number, seconds: number) => {
    const gone = -Math.expm1(-seconds / tau);
    return theta + gone * (power - theta);
  };
  for (const { power, duration } of segments) {
    const ends = begins + duration;
    while (next < time.length && (time[next] as number) <= ends) {
      response[next] = after(power, (time[next] as number) - begins);
      next++;
    }
    theta = after(power, duration);
    begins = ends;
  }
  // Sums of durations may end a rounding short of the last time asked for.
  if (next < time.length && (time[next] as number) - begins > 1e-9 * Math.max(1, Math.abs(begins)))
    throw new RangeError(
      `heatingResponse: time ${time[next]} s lies after the last piece of power, which ends at ${begins} s. Add a piece of 0 W for cooling.`,
    );
  response.fill(theta, next);
  return response;
}

function overSamples(time: ArrayLike<number>, power: ArrayLike<number>, tau: number): Float64Array {
  if (power.length !== time.length)
    throw new RangeError(`heatingResponse: one power is needed for each time; got ${power.length} for ${time.length}.`);
  const response = new Float64Array(time.length);
  for (let i = 1; i < time.length; i++) {
    const h = (time[i] as number) - (time[i - 1] as number);
    const gone = -Math.expm1(-h / tau);
    const [from, to] = [power[i - 1] as number, power[i] as number];
    const theta = response[i - 1] as number;
    response[i] = theta + gone * (from - theta) + (to - from) * (1 - (gone * tau) / h);
  }
  return response;
}
