/** Two passes each lose half of the loss at the cut-off: one is designed above it by this factor. (√2 − 1)^(1/4). */
const TWO_PASSES = (Math.SQRT2 - 1) ** 0.25;

/**
 * A low-pass without shift in time: a two-pole Butterworth filter run forward and then backward, four poles in all, with
 * half of the power left at `cutoff`. The gain at a frequency f, with w = tan(π f Δt), is
 *
 *     1 / (1 + (√2 − 1)(w / w_c)⁴)
 *
 * `cutoff` in Hz, below half of the sampling rate; `period` is the time between samples, s. Before the first and after the
 * last sample the record is taken to stand still.
 *
 * Source: SAE J211-1, appendix C (form of the phaseless filter; from memory); Winter (2009), Biomechanics and Motor
 * Control of Human Movement, 4th ed., 3.4.4.2 (correction of the cut-off for two passes; from memory).
 */
export function lowPass(values: Float64Array, period: number, cutoff: number): Float64Array {
  if (!(cutoff > 0 && cutoff * period < 0.5))
    throw new RangeError(
      `lowPass: the cut-off must lie above 0 and below half of the sampling rate, ${0.5 / period} Hz; got ${cutoff} Hz.`,
    );
  const w = Math.tan(Math.PI * cutoff * period) / TWO_PASSES;
  const scale = 1 + Math.SQRT2 * w + w * w;
  const gain = (w * w) / scale;
  const back1 = (2 * (w * w - 1)) / scale;
  const back2 = (1 - Math.SQRT2 * w + w * w) / scale;
  const pass = (from: Float64Array, forward: boolean): Float64Array => {
    const n = from.length;
    const out = new Float64Array(n);
    const first = from[forward ? 0 : n - 1] ?? 0;
    let [x1, x2, y1, y2] = [first, first, first, first];
    for (let k = 0; k < n; k++) {
      const i = forward ? k : n - 1 - k;
      const x = from[i] as number;
      const y = gain * (x + 2 * x1 + x2) - back1 * y1 - back2 * y2;
      out[i] = y;
      [x2, x1, y2, y1] = [x1, x, y1, y];
    }
    return out;
  };
  return pass(pass(values, true), false);
}
