/** A stretch of samples above a threshold, both ends counted in. */
export interface Pulse {
  first: number;
  last: number;
  peak: { index: number; value: number };
}

/** Contact lost for less than this, as by ringing, is one strike. Seconds. Common practice, no source. */
const ONE_STRIKE = 0.002;

/** Every stretch above the threshold, those parted by less than 2 ms together. */
export function pulsesAbove(time: Float64Array, force: Float64Array, threshold: number): Pulse[] {
  const pulses: Pulse[] = [];
  for (let i = 0; i < force.length; i++) {
    const value = force[i] as number;
    if (value <= threshold) continue;
    const before = pulses.at(-1);
    if (before && (before.last === i - 1 || (time[i] as number) - (time[before.last] as number) < ONE_STRIKE)) {
      before.last = i;
      if (value > before.peak.value) before.peak = { index: i, value };
    } else pulses.push({ first: i, last: i, peak: { index: i, value } });
  }
  return pulses;
}
