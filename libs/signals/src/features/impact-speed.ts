import { type ImpactMethod, isNotEvaluated, type Measurement, notEvaluated, type Step } from '@breakbook/lab';
import { drop } from '@breakbook/statistics';
import type { Computed } from './characteristic.js';
import { gateSpeed } from './gate-speed.js';
import { constantsOf, type Strike } from './impact-source.js';
import { inUnit } from './words.js';

const speedIn = inUnit('m/s');
const joules = inUnit('J');

export function readBy({ quantity, instrument, person }: Measurement): Step['numbers'] {
  return { [`as keyed, ${quantity.unit}`]: quantity.value, instrument, person };
}

/** Speed of the striker as it met the part, m/s: by the gate above it, or as a person read it. */
export function impactSpeed(strike: Strike, method: ImpactMethod): Computed {
  const { gateTime, impactSpeed: keyed } = strike;
  if (gateTime !== undefined) {
    if (isNotEvaluated(gateTime)) return { value: gateTime, unit: 'm/s', steps: [], source: 'keyed' };
    const { gate, above, gravity } = constantsOf(method);
    const speed = gateSpeed(gate, gateTime.value, above, gravity);
    return {
      value: { kind: 'exact', value: speed },
      unit: 'm/s',
      source: 'keyed',
      steps: [
        {
          question: 'How fast was the striker when it met the part?',
          numbers: {
            ...readBy(gateTime.measurement),
            'gate, m': gate,
            'lower edge above contact, m': above,
            'gravity, m/s²': gravity,
            'speed, m/s': speed,
          },
          answer: `${speedIn(speed)}: v = d/Δt + g Δt/2 at the lower edge of the gate, and √(v² + 2 g s) at contact.`,
        },
      ],
    };
  }
  if (keyed !== undefined) {
    if (isNotEvaluated(keyed)) return { value: keyed, unit: 'm/s', steps: [], source: 'keyed' };
    return {
      value: { kind: 'exact', value: keyed.value },
      unit: 'm/s',
      source: 'keyed',
      steps: [
        {
          question: 'How fast was the striker when it met the part?',
          numbers: readBy(keyed.measurement),
          answer: `${speedIn(keyed.value)}, keyed and taken as it stands.`,
        },
      ],
    };
  }
  return {
    value: notEvaluated(
      'neither gateTime nor impactSpeed was keyed for this strike',
      'the time through the gate, or the speed, is keyed with its unit, instrument and person',
    ),
    unit: 'm/s',
    steps: [],
    source: 'keyed',
  };
}

/** Energy of a free fall from the height set, J. */
export function nominalEnergy({ dropHeight }: Strike, method: ImpactMethod): Computed {
  const { mass, gravity } = constantsOf(method);
  if (dropHeight === undefined || isNotEvaluated(dropHeight))
    return {
      value:
        dropHeight ??
        notEvaluated('no dropHeight was keyed for this strike', 'the height of the fall is keyed with its unit'),
      unit: 'J',
      steps: [],
      source: 'keyed',
    };
  const { energy } = drop(mass, dropHeight.value, gravity);
  return {
    value: { kind: 'exact', value: energy },
    unit: 'J',
    source: 'keyed',
    steps: [
      {
        question: 'What energy does the fall have?',
        numbers: { ...readBy(dropHeight.measurement), 'mass, kg': mass, 'gravity, m/s²': gravity, 'energy, J': energy },
        answer: `${joules(energy)}: E = m g h, with nothing lost in the guide.`,
      },
    ],
  };
}

/** Energy of the striker as it met the part, J. */
export function impactEnergy(strike: Strike, method: ImpactMethod): Computed {
  const speed = impactSpeed(strike, method);
  if (isNotEvaluated(speed.value) || speed.value.kind === 'between') return { ...speed, unit: 'J' };
  const { mass } = constantsOf(method);
  const energy = (mass * speed.value.value ** 2) / 2;
  return {
    value: { kind: speed.value.kind, value: energy },
    unit: 'J',
    source: 'keyed',
    steps: [
      ...speed.steps,
      {
        question: 'What energy did the striker bring?',
        numbers: { 'mass, kg': mass, 'speed, m/s': speed.value.value, 'energy, J': energy },
        answer: `${joules(energy)}: E = m v² / 2.`,
      },
    ],
  };
}

/** Speed upward after contact by the gate, m/s; undefined where its time was not keyed. */
export function measuredRebound({ reboundGateTime }: Strike, method: ImpactMethod): number | undefined {
  if (reboundGateTime === undefined || isNotEvaluated(reboundGateTime)) return undefined;
  const { gate, above, gravity } = constantsOf(method);
  return gateSpeed(gate, reboundGateTime.value, above, gravity);
}
