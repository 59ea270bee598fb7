import {
  type ImpactMethod,
  isNotEvaluated,
  type Measurement,
  type NotEvaluated,
  notEvaluated,
  type RunPassage,
} from '@breakbook/lab';
import { type ImpactIntegration, integrateImpact } from '@breakbook/statistics';
import { sameDimension, valueIn } from '@breakbook/units';
import type { ChannelUncertainty } from './budget.js';
import type { CorrectionApplied } from './correction-step.js';
import type { Contact, StrikeFeatures } from './strike.js';

/** The channel the force of a strike is read from. */
export const STRIKER_FORCE = 'strikerForce';
export const DISPLACEMENT = 'displacement';

/** A number that a person read, in the unit it is used in, with who and from what; undefined where none was keyed. */
export type Keyed = { value: number; measurement: Measurement } | NotEvaluated | undefined;

/** One strike of a run: what was keyed of it, and what its record shows. */
export interface Strike {
  /** Passage number; 1 where the run names none. */
  number: number;
  passage: RunPassage | undefined;
  file: string | undefined;
  /** Undefined where it has no record. */
  features: StrikeFeatures | undefined;
  correction: CorrectionApplied | undefined;
  /** s */
  gateTime: Keyed;
  reboundGateTime: Keyed;
  /** m/s, keyed in place of a gate time. */
  impactSpeed: Keyed;
  /** m */
  dropHeight: Keyed;
}

/** Everything the characteristics of an impact run are worked out from. */
export interface ImpactSource {
  method: ImpactMethod;
  strikes: readonly Strike[];
  calibrations: ReadonlyMap<string, ChannelUncertainty>;
}

/** The method's constants in the units of the formulas: kg, m/s², m, J. */
export function constantsOf({ parameters }: ImpactMethod) {
  return {
    mass: valueIn(parameters.mass, 'kg'),
    gravity: valueIn(parameters.gravity, 'm/s2'),
    gate: valueIn(parameters.gateDistance, 'm'),
    above: parameters.gateAboveContact ? valueIn(parameters.gateAboveContact, 'm') : 0,
  };
}

/** What this strike aimed at, J: its passage's target where that is an energy, else the method's. */
export function targetOf({ passage }: Strike, { parameters }: ImpactMethod): number {
  const target = passage?.target;
  return valueIn(target && sameDimension(target.unit, 'J') ? target : parameters.targetEnergy, 'J');
}

/** The contact in a record that is whole there; why there is none where it is not. */
export function wholeContact(strike: Strike): Contact | NotEvaluated {
  const contact = contactOf(strike);
  if (isNotEvaluated(contact)) return contact;
  const { flatTop, gap } = contact;
  if (flatTop)
    return notEvaluated(
      `the force is cut off ${flatTop.at === 'full scale' ? 'at full scale' : 'below full scale'}, so what it did above is not known`,
      'a sensor or amplifier range is used that the force does not reach',
    );
  if (gap)
    return notEvaluated(
      `the record has a gap in the contact, from ${gap.from} s to ${gap.to} s`,
      'the strike is recorded without gaps',
    );
  return contact;
}

export function contactOf({ features }: Strike): Contact | NotEvaluated {
  if (!features) return notEvaluated('this strike has no force record', 'the force of the strike is recorded');
  if (isNotEvaluated(features.zero)) return features.zero;
  return (
    features.contact ??
    notEvaluated('no force rises above the noise of the record', 'a record that holds the strike is read')
  );
}

/** How the striker moved in contact, with the force taken `gain` times as large. */
export function motionOf(
  features: StrikeFeatures,
  { from, to }: Contact,
  speed: number,
  method: ImpactMethod,
  gain = 1,
): ImpactIntegration {
  const { mass, gravity } = constantsOf(method);
  const force = features.raw.subarray(from, to + 1);
  return integrateImpact({
    time: features.record.time.subarray(from, to + 1),
    force: gain === 1 ? force : force.map((newtons) => gain * newtons),
    mass,
    speed,
    gravity,
  });
}
