import { type BurstMethod, isNotEvaluated, type Step } from '@breakbook/lab';
import { printSignificant, valueIn } from '@breakbook/units';
import type { BurstFeatures } from './burst.js';
import { type CorrectionApplied, correctionStep } from './correction-step.js';
import { lossIn } from './failure.js';
import type { Ramp } from './ramp.js';
import { kPa, percent, seconds } from './words.js';

/** Why the burst pressure is known from below only; empty where it is exact. */
export function whyAtLeast({ ending, flatTop, gapAtPeak }: BurstFeatures): string[] {
  const reasons: string[] = [];
  if (flatTop)
    reasons.push(
      `${flatTop.samples} equal readings of ${kPa(flatTop.value)} in a row: the record is cut off ${flatTop.at === 'full scale' ? 'at full scale' : 'below full scale'}`,
    );
  if (gapAtPeak) reasons.push(`the record has a gap at its peak, from ${gapAtPeak.from} s to ${gapAtPeak.to} s`);
  if (ending.ending === 'leak')
    reasons.push(`the pressure leaked away by ${percent(ending.sharePerSecond)} a second; nothing burst`);
  if (ending.ending === 'let down')
    reasons.push(`the pressure came down by ${percent(ending.sharePerSecond)} a second, as when vented; nothing burst`);
  if (ending.ending === 'as a person says' && ending.loss === 'leak')
    reasons.push('the pressure leaked away, as a person says; nothing burst');
  if (ending.ending === 'as a person says' && ending.loss === 'tyre off')
    reasons.push('the tyre came off, as a person says; the rim was not broken by the pressure');
  if (ending.ending === 'record ended') reasons.push('the record ends with the pressure still up; nothing burst in it');
  return reasons;
}

export function burstSteps({
  time,
  features,
  method,
  corrected,
}: {
  time: Float64Array;
  features: BurstFeatures;
  method: BurstMethod;
  corrected: CorrectionApplied | undefined;
}): Step[] {
  const { zero, rawPeak, peak, ending } = features;
  const { parameters } = method;
  const loss = lossIn(ending);
  const reasons = whyAtLeast(features);
  return [
    correctionStep(corrected),
    ...(isNotEvaluated(zero)
      ? []
      : [
          {
            question: 'Where does the sensor stand with the line vented?',
            numbers: {
              'from, s': zero.from,
              'to, s': zero.to,
              samples: zero.samples,
              'zero, kPa': zero.zero,
              'noise, kPa': zero.noise,
            },
            answer: `The median of ${zero.samples} samples, ${kPa(zero.zero)}, was taken off every reading.`,
          },
        ]),
    {
      question: 'What is the peak without spikes?',
      numbers: {
        'median filter, samples': parameters.despikeSamples,
        'raw peak, kPa': rawPeak.value,
        'despiked peak, kPa': peak.value,
        'at, s': time[peak.index] as number,
      },
      answer: `${kPa(peak.value)}; the largest single reading is ${kPa(rawPeak.value)}.`,
    },
    {
      question: 'Did something let go, and when?',
      numbers: {
        'fall, share of the running maximum': parameters.failureFall,
        'within, s': valueIn(parameters.failureWindow, 's'),
        ...(loss ? { 'at, s': time[loss.fallen] as number } : {}),
      },
      answer: loss
        ? `${ending.ending === 'burst' ? 'Yes' : 'As a person says'}, at ${seconds(time[loss.fallen] as number)}; the pressure is the largest before that.`
        : `No such fall was recorded.`,
    },
    {
      question: 'Is it known exactly?',
      numbers: {},
      answer:
        reasons.length === 0 ? 'Yes, as far as the record shows.' : `No, it is at least this: ${reasons.join('; ')}.`,
    },
  ];
}

export function rampStep(ramp: Ramp, peak: number): Step {
  if (ramp.by === 'crossings')
    return {
      question: 'How fast did the pressure rise from 10 to 90 %?',
      numbers: { 'peak, kPa': peak, 't10, s': ramp.t10, 't90, s': ramp.t90, 'rate, kPa/s': ramp.rate },
      answer: 'Rate = 0.8 · peak / (t90 − t10), with both crossings interpolated.',
    };
  return {
    question: 'How fast did the pressure rise between the holds?',
    numbers: {
      ...Object.fromEntries(
        ramp.segments.map(({ from, to, slope }, index) => [
          `part ${index + 1}: from s, to s, kPa/s`,
          [from, to, slope].map((one) => printSignificant(one, 5)).join(', '),
        ]),
      ),
      'rate, kPa/s': ramp.rate,
    },
    answer: 'Rate = mean of the least squares slopes of the parts of the ramp that lie between holds.',
  };
}

export function holdStep({ name, asked, band, found }: BurstFeatures['holds'][number]): Step {
  const numbers = { 'band from, kPa': band.low, 'to, kPa': band.high, 'asked, s': asked };
  if (!found)
    return {
      question: `How long was "${name}" held?`,
      numbers,
      answer: 'Not at all: the pressure was never inside the band.',
    };
  const { entry, exit, seconds: held, min, max, mean, slope } = found;
  return {
    question: `How long was "${name}" held?`,
    numbers: {
      ...numbers,
      'entry, s': entry,
      'exit, s': exit,
      'held, s': held,
      'lowest, kPa': min,
      'highest, kPa': max,
      'mean, kPa': mean,
      'slope, kPa/s': slope,
    },
    answer: `${seconds(held)} without leaving the band for more than a second${found.recordEnded ? ', when the record ended' : ''}.`,
  };
}
