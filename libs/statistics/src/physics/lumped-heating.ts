import { requireFinite, requirePositive } from '../requirements.js';
import { heatingResponse, type Power } from './heating-response.js';

export interface HeatedBody {
  /** hA, W/K. */
  conductance: number;
  /** m c, J/K. */
  capacity: number;
  /** °C, or any scale whose degree is the kelvin. */
  ambient: number;
  /** At time 0. */
  start: number;
}

export interface LumpedHeating {
  /** At each time, on the scale of `ambient`. */
  temperature: Float64Array;
  /** s */
  timeConstant: number;
  /** What the last power would come to in the end. */
  steadyTemperature: number;
}

/**
 * How warm does a body get that is heated evenly and loses heat in proportion to its warming?
 *
 *     C dT/dt = P − hA (T − T_a);  for constant P:  T = T_a + (P/hA)(1 − e^(−t/τ)) + (T₀ − T_a) e^(−t/τ),  τ = C / hA
 *
 * Times in s, from 0 and increasing. Power in pieces begins at 0. Assumes one temperature throughout the body (Biot
 * number below 0.1) and a conductance that does not change.
 *
 * Source: Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 5.1 to 5.3, lumped capacitance (from memory).
 */
export function lumpedHeating(
  time: readonly number[],
  power: Exclude<Power, { kind: 'sampled' }>,
  body: HeatedBody,
): LumpedHeating {
  const { conductance, capacity, ambient, start } = body;
  requirePositive('lumpedHeating', { conductance, capacity });
  requireFinite('lumpedHeating', { ambient, start });
  requireTimes('lumpedHeating', time);
  if ((time[0] ?? 0) < 0) throw new RangeError(`lumpedHeating: times run from 0; got ${time[0]}.`);

  const timeConstant = capacity / conductance;
  const response = heatingResponse(time, power, timeConstant, 0);
  const last = power.kind === 'constant' ? power.power : (power.segments.at(-1)?.power ?? 0);
  return {
    temperature: response.map(
      (warming, i) =>
        ambient + warming / conductance + (start - ambient) * Math.exp(-(time[i] as number) / timeConstant),
    ),
    timeConstant,
    steadyTemperature: ambient + last / conductance,
  };
}

export function requireTimes(caller: string, time: readonly number[]): void {
  for (const [i, t] of time.entries())
    if (!Number.isFinite(t) || (i > 0 && !(t > (time[i - 1] as number))))
      throw new RangeError(
        `${caller}: times are finite and increase; time[${i}] = ${t}${i > 0 ? ` does not follow ${time[i - 1]}` : ''}.`,
      );
}
