import { type ImpactMethod, isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import type { Computed } from './characteristic.js';
import { motionOf, STRIKER_FORCE, type Strike, wholeContact } from './impact-source.js';
import { impactSpeed } from './impact-speed.js';
import { leastSquaresSlope } from './least-squares-slope.js';
import type { Contact, StrikeFeatures } from './strike.js';
import { inUnit, percent } from './words.js';

/** Between these shares of the largest force a part still gives in proportion. Common practice, no source. */
const FROM = 0.1;
const TO = 0.4;
const FEWEST = 3;
/** Change of the force over which the change of the slope with its sensor is taken. */
const GAIN = 0.001;

/**
 * How stiff is the part where it is struck? The slope of the least squares line of force over deflection, on the way up
 * between 10 and 40 % of the largest force, N/mm. The force is the one recorded; which samples lie between the shares the
 * filtered one says, so that ringing does not.
 */
export function stiffness(strike: Strike, method: ImpactMethod): Computed {
  const none = (value: NotEvaluated): Computed => ({ value, unit: 'N/mm', steps: [] });
  const contact = wholeContact(strike);
  if (isNotEvaluated(contact)) return none(contact);
  const { features } = strike;
  const speed = impactSpeed(strike, method);
  if (isNotEvaluated(speed.value)) return none(speed.value);
  if (!features || speed.value.kind === 'between') throw new Error('a speed is one number, and a contact has a record');

  const { from, to } = risingStretch(features, contact);
  if (contact.onset && contact.onset.index < to)
    return none(
      notEvaluated(
        `the force first fell below ${percent(TO)} of its peak, so the part did not give in proportion up to there`,
        'a strike is recorded that the part takes up to there',
      ),
    );
  if (to - from < FEWEST)
    return none(
      notEvaluated(
        `fewer than ${FEWEST} samples lie between ${percent(FROM)} and ${percent(TO)} of the largest force`,
        'the force is sampled faster',
      ),
    );
  const metresASecond = speed.value.value;
  const slopeAt = (gain: number) => {
    const { deflection } = motionOf(features, contact, metresASecond, method, gain);
    const force = features.raw.subarray(contact.from, contact.to + 1);
    // Newtons per metre, a thousandth of them per millimetre.
    return (gain * leastSquaresSlope(deflection, force, from - contact.from, to - contact.from)) / 1000;
  };
  const slope = slopeAt(1);
  const { time } = features.record;
  return {
    value: { kind: 'exact', value: slope },
    unit: 'N/mm',
    steps: [
      ...speed.steps,
      {
        question: 'How stiff is the part where it was struck?',
        numbers: {
          'from, s': time[from] as number,
          'to, s': time[to - 1] as number,
          samples: to - from,
          'slope, N/mm': slope,
        },
        answer: `${inUnit('N/mm')(slope)}: the least squares line of force over deflection between ${percent(FROM)} and ${percent(TO)} of the largest force.`,
      },
    ],
    sensitivity: (channel) =>
      channel === STRIKER_FORCE ? (slopeAt(1 + GAIN) - slopeAt(1 - GAIN)) / (2 * GAIN * contact.peak.value) : undefined,
  };
}

/** Samples on the way up between the two shares of the largest force; the second is the first beyond. */
function risingStretch({ filtered }: StrikeFeatures, contact: Contact): { from: number; to: number } {
  const reaches = (share: number, after: number) => {
    let index = after;
    while (index < contact.peak.index && (filtered[index] as number) < share * contact.peak.value) index++;
    return index;
  };
  const from = reaches(FROM, contact.from);
  return { from, to: reaches(TO, from) };
}
