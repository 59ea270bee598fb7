import { type BurstParameters, isNotEvaluated } from '@breakbook/lab';
import { printSignificant, valueIn } from '@breakbook/units';
import type { BurstFeatures } from '../features/burst.js';
import { shareInBand } from '../features/ramp.js';
import { percent } from '../features/words.js';
import type { Finding } from './finding.js';

/** Was the pressure raised as fast as the method asks? */
export function rampInBand(
  time: Float64Array,
  { ramp, despiked }: BurstFeatures,
  parameters: BurstParameters,
  channel: string,
): Finding {
  const named = { check: 'ramp in band', question: 'Was the pressure raised as fast as the method asks?' };
  if (isNotEvaluated(ramp))
    return {
      check: {
        ...named,
        outcome: 'not evaluated',
        finding: `There is no ramp to look at: ${ramp.notEvaluated.because}.`,
        action: `What would help: ${ramp.notEvaluated.possibleIf}.`,
      },
    };

  const band = { from: valueIn(parameters.rampRate.from, 'kPa/s'), to: valueIn(parameters.rampRate.to, 'kPa/s') };
  const { share, slowest, fastest } = shareInBand(time, despiked, ramp, band);
  const rate = (value: number) => printSignificant(value, 4);
  const finding = `${rate(ramp.rate)} kPa/s over all, ${rate(slowest)} to ${rate(fastest)} kPa/s in its parts; ${percent(share)} of the ramp lies between ${rate(band.from)} and ${rate(band.to)} kPa/s, and the method asks for ${percent(parameters.rampShareInBand)}.`;
  // Twenty equal shares that add up to a whole may fall a rounding short of it.
  if (share >= parameters.rampShareInBand - 1e-9) return { check: { ...named, outcome: 'pass', finding } };
  return {
    check: {
      ...named,
      outcome: 'fail',
      finding,
      action:
        'Check pump speed, bleeding of air and the programme. A run outside the profile of the method is not one of it.',
      place: { channel, from: ramp.t10, to: ramp.t90 },
    },
  };
}
