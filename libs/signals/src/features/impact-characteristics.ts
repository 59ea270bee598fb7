import {
  type Characteristic,
  type ImpactMethod,
  isNotEvaluated,
  type MethodCharacteristic,
  notEvaluated,
} from '@breakbook/lab';
import { type Computed, characteristicOf } from './characteristic.js';
import { failureEnergy } from './failure-energy.js';
import { firstOnset } from './first-onset.js';
import {
  absorbedEnergy,
  contactTime,
  impulse,
  maximumDeflection,
  onsetEnergy,
  onsetForce,
  peakForce,
  reboundSpeed,
  unfilteredPeakForce,
} from './impact-forces.js';
import type { ImpactSource, Strike } from './impact-source.js';
import { impactEnergy, impactSpeed, nominalEnergy } from './impact-speed.js';
import { restitution } from './restitution.js';
import { stiffness } from './stiffness.js';

type OfStrike = (strike: Strike, method: ImpactMethod) => Computed;

const OF_A_STRIKE = new Map<string, OfStrike>(
  Object.entries({
    impactSpeed,
    nominalEnergy,
    impactEnergy,
    peakForce,
    unfilteredPeakForce,
    onsetForce,
    onsetEnergy,
    stiffness,
    maximumDeflection,
    absorbedEnergy,
    reboundSpeed,
    restitution,
    impulse,
    contactTime,
  }),
);

/** The characteristics of an impact run that its method asks for, by name; undefined for a name it does not give. */
export function impactCharacteristic(wanted: MethodCharacteristic, source: ImpactSource): Characteristic | undefined {
  if (wanted.characteristic === 'failureEnergy')
    return characteristicOf(wanted, failureEnergy(source), source.calibrations);
  if (wanted.characteristic === 'onsetForce') return characteristicOf(wanted, firstOnset(source), source.calibrations);
  if (wanted.characteristic === 'onsetEnergy')
    return characteristicOf(wanted, firstOnset(source, onsetEnergy), source.calibrations);
  const compute = OF_A_STRIKE.get(wanted.characteristic);
  if (!compute) return undefined;
  return characteristicOf(wanted, largestOf(source, compute), source.calibrations);
}

/** The same of one strike alone; undefined for a name that only the whole run gives. */
export function strikeCharacteristic(
  wanted: MethodCharacteristic,
  strike: Strike,
  { method, calibrations }: ImpactSource,
): Characteristic | undefined {
  const compute = OF_A_STRIKE.get(wanted.characteristic);
  return compute && characteristicOf(wanted, compute(strike, method), calibrations);
}

/** Of several strikes the largest value stands for the run; each stands beside it. One that is not known leaves it open. */
function largestOf({ strikes, method }: ImpactSource, compute: OfStrike): Computed {
  const each = strikes.map((strike) => ({ strike, computed: compute(strike, method), size: 0 }));
  const [first] = each;
  if (!first) throw new RangeError('largestOf: needs at least one strike.');
  if (each.length === 1) return first.computed;

  let [best, oneSided] = [first, false];
  for (const one of each) {
    const { value } = one.computed;
    if (isNotEvaluated(value))
      return {
        ...one.computed,
        value: notEvaluated(
          `strike ${one.strike.number}: ${value.notEvaluated.because}`,
          value.notEvaluated.possibleIf,
        ),
      };
    if (value.kind === 'between') throw new Error('a strike gives one number');
    one.size = value.value;
    oneSided ||= value.kind === 'atLeast';
    if (one.size > best.size) best = one;
  }
  return {
    ...best.computed,
    value: { kind: oneSided ? 'atLeast' : 'exact', value: best.size },
    steps: [
      {
        question: 'Which strike does it stand for?',
        numbers: Object.fromEntries(
          each.map(({ strike, size, computed }) => [`strike ${strike.number}, ${computed.unit}`, size]),
        ),
        answer: `Strike ${best.strike.number}, the largest of ${each.length}.`,
      },
      ...best.computed.steps,
    ],
  };
}
