import { type ImpactMethod, isNotEvaluated, type NotEvaluated, notEvaluated, type Step } from '@breakbook/lab';
import type { ImpactIntegration } from '@breakbook/statistics';
import { valueIn } from '@breakbook/units';
import type { Computed } from './characteristic.js';
import { correctionStep } from './correction-step.js';
import { contactOf, motionOf, STRIKER_FORCE, type Strike, wholeContact } from './impact-source.js';
import { impactSpeed, measuredRebound, readBy } from './impact-speed.js';
import type { Contact, StrikeFeatures } from './strike.js';
import { inUnit, percent } from './words.js';

const newtons = inUnit('N');
/** Change of the force over which the change of a value with its sensor is taken. */
const GAIN = 0.001;

const perForce = (change: number) => (channel: string) => (channel === STRIKER_FORCE ? change : undefined);

/** Correction and zero: what every number from the force begins with. */
function forceSteps({ features, correction }: Strike): Step[] {
  if (!features || isNotEvaluated(features.zero)) return [correctionStep(correction)];
  const { zero, noise, samples, from, to } = features.zero;
  return [
    correctionStep(correction),
    {
      question: 'Where does the force stand before contact?',
      numbers: { 'from, s': from, 'to, s': to, samples, 'zero, N': zero, 'noise, N': noise },
      answer: `The median of ${samples} samples, ${newtons(zero)}, was taken off every reading.`,
    },
  ];
}

/** Why the largest force is known from below only; empty where it is exact. */
function whyPeakHigher({ flatTop, gap, recordEnded }: Contact): string[] {
  return [
    ...(flatTop
      ? [`${flatTop.samples} equal readings of ${newtons(flatTop.value)} in a row: the force is cut off`]
      : []),
    ...(gap ? [`the record has a gap in the contact, from ${gap.from} s to ${gap.to} s`] : []),
    ...(recordEnded ? ['the record ends with the force still acting'] : []),
  ];
}

function peakOf(
  strike: Strike,
  describe: (contact: Contact, time: Float64Array) => { value: number; step: Step },
): Computed {
  const contact = contactOf(strike);
  if (isNotEvaluated(contact) || !strike.features) return { value: contact as NotEvaluated, unit: 'N', steps: [] };
  const { value, step } = describe(contact, strike.features.record.time);
  const reasons = whyPeakHigher(contact);
  return {
    value: { kind: reasons.length > 0 ? 'atLeast' : 'exact', value },
    unit: 'N',
    steps: [
      ...forceSteps(strike),
      step,
      {
        question: 'Is it known exactly?',
        numbers: {},
        answer:
          reasons.length === 0 ? 'Yes, as far as the record shows.' : `No, it is at least this: ${reasons.join('; ')}.`,
      },
    ],
    sensitivity: perForce(1),
  };
}

export function peakForce(strike: Strike, { parameters }: ImpactMethod): Computed {
  const cutoff = valueIn(parameters.lowPass, 'Hz');
  if (strike.features && !strike.features.canBeFiltered)
    return {
      value: notEvaluated(
        `the record has too few samples a second for a low-pass of ${cutoff} Hz`,
        `the force is sampled at more than ${2 * cutoff} Hz`,
      ),
      unit: 'N',
      steps: [],
    };
  return peakOf(strike, ({ peak }, time) => ({
    value: peak.value,
    step: {
      question: 'What is the largest force by the declared low-pass?',
      numbers: { 'cut-off, Hz': cutoff, 'at, s': time[peak.index] as number, 'force, N': peak.value },
      answer: `${newtons(peak.value)}, by a four-pole Butterworth low-pass of ${cutoff} Hz that shifts nothing in time.`,
    },
  }));
}

export function unfilteredPeakForce(strike: Strike): Computed {
  return peakOf(strike, ({ rawPeak }, time) => ({
    value: rawPeak.value,
    step: {
      question: 'What is the largest single reading in contact?',
      numbers: { 'at, s': time[rawPeak.index] as number, 'force, N': rawPeak.value },
      answer: `${newtons(rawPeak.value)}, with the ringing of the striker in it.`,
    },
  }));
}

/** Force at which damage began, by its first sudden fall; a force that never fell at once reached at least its peak. */
export function onsetForce(strike: Strike, { parameters }: ImpactMethod): Computed {
  const contact = contactOf(strike);
  if (isNotEvaluated(contact) || !strike.features) return { value: contact as NotEvaluated, unit: 'N', steps: [] };
  const { time } = strike.features.record;
  const { onset, peak } = contact;
  const gaps = contact.gap
    ? notEvaluated(
        'the record has a gap in the contact, in which a fall may lie',
        'the strike is recorded without gaps',
      )
    : undefined;
  return {
    value: gaps ?? (onset ? { kind: 'exact', value: onset.value } : { kind: 'atLeast', value: peak.value }),
    unit: 'N',
    steps: [
      ...forceSteps(strike),
      {
        question: 'At which force did it first give way?',
        numbers: {
          'fall, share of the force': parameters.onsetFall,
          ...(onset
            ? {
                'at, s': time[onset.index] as number,
                'force, N': onset.value,
                'lost by, s': time[onset.lost] as number,
              }
            : { 'peak, N': peak.value }),
        },
        answer: onset
          ? `At ${newtons(onset.value)}: from there it lost ${percent(parameters.onsetFall)} at once.`
          : `The force never lost ${percent(parameters.onsetFall)} at once, up to its peak of ${newtons(peak.value)}.`,
      },
    ],
    sensitivity: perForce(1),
  };
}

/** Energy that the part had taken when damage began; what it took in all where the force never fell at once. */
export function onsetEnergy(strike: Strike, method: ImpactMethod): Computed {
  return fromMotion(strike, method, {
    unit: 'J',
    of: ({ energy }, { from, onset }) =>
      onset ? (energy[onset.index - from] as number) : energy.reduce((most, one) => Math.max(most, one), 0),
    question: 'How much energy had the part taken when it first gave way?',
    answer: (value) => `${value}: E = m (v_i² − v²) / 2 + m g δ at that instant.`,
    limits: (_, { onset }) => (onset ? 'exact' : 'atLeast'),
    oneSided: 'the force never fell at once',
  });
}

export function impulse(strike: Strike, method: ImpactMethod): Computed {
  const contact = wholeContact(strike);
  const { features } = strike;
  if (isNotEvaluated(contact) || !features) return { value: contact as NotEvaluated, unit: 'N.s', steps: [] };
  // The force alone decides it; a speed is needed only by the integration that is shared.
  const { impulse: sum } = motionOf(features, contact, 0, method);
  return {
    value: { kind: contact.recordEnded ? 'atLeast' : 'exact', value: sum },
    unit: 'N.s',
    steps: [
      ...forceSteps(strike),
      {
        question: 'What impulse did the part give the striker?',
        numbers: { ...contactNumbers(features, contact), 'impulse, N·s': sum },
        answer: `${inUnit('N·s')(sum)}: the integral of the force as recorded over the contact, by trapezoids.`,
      },
    ],
    sensitivity: perForce(sum / contact.peak.value),
  };
}

export function contactTime(strike: Strike): Computed {
  const contact = contactOf(strike);
  const { features } = strike;
  if (isNotEvaluated(contact) || !features) return { value: contact as NotEvaluated, unit: 's', steps: [] };
  const { time } = features.record;
  const seconds = (time[contact.to] as number) - (time[contact.from] as number);
  return {
    value: { kind: contact.recordEnded ? 'atLeast' : 'exact', value: seconds },
    unit: 's',
    steps: [
      {
        question: 'How long did striker and part touch?',
        numbers: { 'threshold, N': features.threshold, ...contactNumbers(features, contact) },
        answer: `${inUnit('ms')(1000 * seconds)}, from where the force leaves zero to where it is back.`,
      },
    ],
  };
}

function contactNumbers({ record: { time } }: StrikeFeatures, { from, to }: Contact): Step['numbers'] {
  return { 'contact from, s': time[from] as number, 'to, s': time[to] as number };
}

interface FromMotion {
  unit: string;
  of: (motion: ImpactIntegration, contact: Contact) => number;
  question: string;
  answer: (value: string) => string;
  /** Why this is known from one side only, or not at all, by how the strike ended. */
  limits: (motion: ImpactIntegration, contact: Contact) => 'atLeast' | 'exact' | NotEvaluated;
  /** Why it is then at least this. */
  oneSided?: string;
}

/** A number by integration of the force from the speed at contact. */
function fromMotion(strike: Strike, method: ImpactMethod, wanted: FromMotion): Computed {
  const none = (value: NotEvaluated): Computed => ({ value, unit: wanted.unit, steps: [] });
  const contact = wholeContact(strike);
  if (isNotEvaluated(contact)) return none(contact);
  const { features } = strike;
  const speed = impactSpeed(strike, method);
  if (isNotEvaluated(speed.value)) return none(speed.value);
  if (!features || speed.value.kind === 'between') throw new Error('a speed is one number, and a contact has a record');

  const metresASecond = speed.value.value;
  const motion = motionOf(features, contact, metresASecond, method);
  const value = wanted.of(motion, contact);
  const known = wanted.limits(motion, contact);
  if (isNotEvaluated(known)) return none(known);
  const at = (gain: number) => wanted.of(motionOf(features, contact, metresASecond, method, gain), contact);
  const text = inUnit(wanted.unit)(value);
  return {
    value: { kind: known, value },
    unit: wanted.unit,
    steps: [
      ...speed.steps,
      ...forceSteps(strike),
      {
        question: wanted.question,
        numbers: { ...contactNumbers(features, contact), [`value, ${wanted.unit}`]: value },
        answer: `${wanted.answer(text)}${known === 'atLeast' ? ` It is at least this: ${wanted.oneSided ?? 'the striker had not come to rest when the contact or the record ended'}.` : ''}`,
      },
    ],
    // A sensor that reads 1 % high reads 1 % high throughout; the value then moves by this much per newton at the peak.
    sensitivity: perForce((at(1 + GAIN) - at(1 - GAIN)) / (2 * GAIN * contact.peak.value)),
  };
}

export function maximumDeflection(strike: Strike, method: ImpactMethod): Computed {
  return fromMotion(strike, method, {
    unit: 'm',
    of: ({ maxDeflection }) => maxDeflection,
    question: 'How far did the part give?',
    answer: (value) => `${value}: δ = ∫ v dt with v = v_i + g t − (1/m) ∫ F dt, where the striker came to rest.`,
    limits: ({ cameToRest }) => (cameToRest ? 'exact' : 'atLeast'),
  });
}

export function absorbedEnergy(strike: Strike, method: ImpactMethod): Computed {
  return fromMotion(strike, method, {
    unit: 'J',
    of: (motion) => motion.absorbedEnergy,
    question: 'How much energy stayed in the part?',
    answer: (value) => `${value} at the end of contact: E = m (v_i² − v²) / 2 + m g δ.`,
    limits: (_, { recordEnded }) =>
      recordEnded
        ? notEvaluated('the record ends with the force still acting', 'the record runs on until the striker has left')
        : 'exact',
  });
}

/** Speed of the striker upward after contact: by the gate where its time was keyed, else by integration. */
export function reboundSpeed(strike: Strike, method: ImpactMethod): Computed {
  const { reboundGateTime } = strike;
  const measured = measuredRebound(strike, method);
  if (measured !== undefined && reboundGateTime && !isNotEvaluated(reboundGateTime))
    return {
      value: { kind: 'exact', value: measured },
      unit: 'm/s',
      source: 'keyed',
      steps: [
        {
          question: 'How fast did the striker leave the part?',
          numbers: { ...readBy(reboundGateTime.measurement), 'speed, m/s': measured },
          answer: `${inUnit('m/s')(measured)}, by its second passage of the gate, carried back to contact.`,
        },
      ],
    };
  return fromMotion(strike, method, {
    unit: 'm/s',
    of: ({ rebound }) => rebound,
    question: 'How fast did the striker leave the part?',
    answer: (value) => `${value} upward at the end of contact, by integration of the force.`,
    limits: ({ cameToRest }, { recordEnded }) =>
      cameToRest && !recordEnded
        ? 'exact'
        : notEvaluated(
            'the striker did not come back within the contact recorded',
            'the record runs on until the striker has left, or its passage back through the gate is keyed',
          ),
  });
}
