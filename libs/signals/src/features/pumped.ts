import { type ChannelReadings, onClock } from './channel-on-clock.js';

/** The channel of what flows into the part, mL/min. */
export const FLOW = 'flow';

/** What was pumped into the part up to the end of its loading, as far as the flow is known. */
export interface Pumped {
  /** mL since the record began, at each sample up to the end of the loading. */
  volume: Float64Array;
  /** ∫ P dV, J. */
  work: number;
  /** ∫ P dt over the same stretches, kPa·s: what the work moves by with an offset of the flow. */
  pressureTime: number;
  /** Seconds that are left out: in all, and while the part was under pressure. */
  missing: { inAll: number; underPressure: number };
  /** Was flow and pressure known throughout this stretch of samples? */
  knownThroughout(from: number, to: number): boolean;
}

/** kPa · mL/min · s in joules: 1000 Pa · 1e-6 m³ / 60. */
const JOULES = 1e-3 / 60;

/**
 * What volume was pumped, and what work did it do? By trapezoids from sample to sample:
 *
 *     V = ∫ Q dt,   W = ∫ P dV = ∫ P Q dt
 *
 * P is the gauge pressure, so W is the work above that of the room. A step over a gap in the record, or at whose ends the
 * flow is not known, is left out and counted as missing: nothing is bridged.
 *
 * `pressure` in kPa above the vented start, `flow` in mL/min; `last` is the last sample of the loading, `longest` the
 * longest step in seconds that is no gap, `noise` the pressure below which the part counts as vented.
 *
 * Work of a fluid on a boundary: by definition, W = ∫ P dV (any textbook of thermodynamics).
 */
export function pumped(
  time: Float64Array,
  pressure: Float64Array,
  flow: ChannelReadings,
  { last, periods, longest, noise }: { last: number; periods: number; longest: number; noise: number },
): Pumped {
  const onto = onClock(flow, time, periods);
  const volume = new Float64Array(last + 1);
  const unknownBefore = new Uint32Array(last + 1);
  let [work, pressureTime, inAll, underPressure] = [0, 0, 0, 0];
  for (let i = 1; i <= last; i++) {
    const step = (time[i] as number) - (time[i - 1] as number);
    const [p, q] = [pressure[i] as number, onto[i] as number];
    const [beforeP, beforeQ] = [pressure[i - 1] as number, onto[i - 1] as number];
    const known = step <= longest && !Number.isNaN(q) && !Number.isNaN(beforeQ);
    volume[i] = (volume[i - 1] as number) + (known ? ((q + beforeQ) / 2) * (step / 60) : 0);
    unknownBefore[i] = (unknownBefore[i - 1] as number) + (known ? 0 : 1);
    if (known) {
      work += ((p * q + beforeP * beforeQ) / 2) * step * JOULES;
      pressureTime += ((p + beforeP) / 2) * step;
    } else {
      inAll += step;
      if (Math.max(p, beforeP) > noise) underPressure += step;
    }
  }
  return {
    volume,
    work,
    pressureTime,
    missing: { inAll, underPressure },
    knownThroughout: (from, to) => unknownBefore[to] === unknownBefore[from],
  };
}
