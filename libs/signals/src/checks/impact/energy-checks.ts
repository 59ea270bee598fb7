import { type ImpactMethod, isNotEvaluated } from '@breakbook/lab';
import { drop } from '@breakbook/statistics';
import { indexOfLargest } from '../../features/failure.js';
import { maximumDeflection } from '../../features/impact-forces.js';
import {
  constantsOf,
  DISPLACEMENT,
  motionOf,
  STRIKER_FORCE,
  type Strike,
  targetOf,
  wholeContact,
} from '../../features/impact-source.js';
import { impactEnergy, impactSpeed } from '../../features/impact-speed.js';
import { momentumOf } from '../../features/momentum.js';
import { inUnit, percent, seconds } from '../../features/words.js';
import type { Finding } from '../finding.js';

const joules = inUnit('J');
const speedIn = inUnit('m/s');

/** Nothing falls faster than freely; a gate may read so much too fast. Common practice, no source. */
const FASTER_THAN_FALL = 1.02;
/** Two ways to the deflection may differ by this share. Common practice, no source. */
const DEFLECTION_AGREES = 0.05;

/** Did the strike bring the energy it aimed at? */
export function energyInBand(strike: Strike, method: ImpactMethod): Finding {
  const named = { check: 'energy in band', question: 'Did the strike bring the energy it aimed at?' };
  const { value } = impactEnergy(strike, method);
  if (isNotEvaluated(value) || value.kind === 'between')
    return {
      check: {
        ...named,
        outcome: 'not evaluated',
        finding: `The energy is not known${isNotEvaluated(value) ? `: ${value.notEvaluated.because}` : ''}.`,
        action: 'Key the time through the gate, or the speed, of this strike.',
      },
    };
  const target = targetOf(strike, method);
  const { energyBand } = method.parameters;
  const off = value.value / target - 1;
  const away = `${percent(Math.abs(off))} ${off < 0 ? 'below' : 'above'}`;
  const finding = `${joules(value.value)}, ${Math.abs(off) < 1e-6 ? 'exactly' : away} the ${joules(target)} aimed at; the method lets ${percent(energyBand)} pass.`;
  if (Math.abs(off) <= energyBand) return { check: { ...named, outcome: 'pass', finding } };
  return {
    check: {
      ...named,
      outcome: 'fail',
      finding,
      action: 'Check height, mass and guide. A strike of another energy is not the one the method asks for.',
    },
  };
}

/** Did the guide let the striker fall as freely as the method asks? Left out where no height or speed was keyed. */
export function guideEfficiency(strike: Strike, method: ImpactMethod): Finding[] {
  const { dropHeight } = strike;
  const { value } = impactSpeed(strike, method);
  if (!dropHeight || isNotEvaluated(dropHeight) || isNotEvaluated(value) || value.kind === 'between') return [];
  const named = { check: 'guide efficiency', question: 'Did the striker fall as freely as the method asks?' };
  const { mass, gravity } = constantsOf(method);
  const free = drop(mass, dropHeight.value, gravity).speed;
  const share = value.value / free;
  const finding = `${speedIn(value.value)} is ${percent(share)} of the ${speedIn(free)} of a free fall; the method asks for ${percent(method.parameters.guideEfficiency)}.`;
  if (share < method.parameters.guideEfficiency)
    return [
      {
        check: {
          ...named,
          outcome: 'fail',
          finding,
          action: 'Clean and align the guide, and check the height that was keyed.',
        },
      },
    ];
  if (share > FASTER_THAN_FALL)
    return [
      {
        check: {
          ...named,
          outcome: 'flag',
          finding: `${finding} Nothing falls faster than freely.`,
          action: 'Check the height that was keyed, the distance of the gate edges and its timer.',
        },
      },
    ];
  return [{ check: { ...named, outcome: 'pass', finding } }];
}

/** Do the speeds before and after, and the force between, agree? Left out where the way back through the gate was not timed. */
export function momentumBalance(strike: Strike, method: ImpactMethod): Finding[] {
  const balance = momentumOf(strike, method);
  if (!balance) return [];
  const named = { check: 'momentum balance', question: 'Do the speeds and the force agree?' };
  const { exchanged, byForce, off, from, to } = balance;
  const finding = `m (v_i + v_r) is ${inUnit('N·s')(exchanged)}, ∫ (F − m g) dt is ${inUnit('N·s')(byForce)}: ${percent(off)} apart; the method lets ${percent(method.parameters.momentumShare)} pass.`;
  if (off <= method.parameters.momentumShare) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action: 'Check the mass, the gate and the scale of the force sensor: one of them is wrong.',
        place: { channel: STRIKER_FORCE, from, to },
      },
    },
  ];
}

/** Does the displacement recorded agree with the one integrated from the force? Left out where it was not recorded. */
export function deflectionAgrees(strike: Strike, method: ImpactMethod): Finding[] {
  const displacement = strike.features?.record.displacement;
  const contact = wholeContact(strike);
  const { value } = maximumDeflection(strike, method);
  if (!displacement || isNotEvaluated(contact) || isNotEvaluated(value) || value.kind !== 'exact') return [];
  const named = { check: 'deflection', question: 'Do the two ways to the deflection agree?' };
  const course = displacement.subarray(contact.from, contact.to + 1);
  const recorded = (course[indexOfLargest(course)] as number) - (course[0] as number);
  const integrated = 1000 * value.value;
  const off = Math.abs(recorded / integrated - 1);
  const finding = `${inUnit('mm')(recorded)} recorded, ${inUnit('mm')(integrated)} by integration of the force.`;
  if (off <= DEFLECTION_AGREES) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action: 'Check the sign and scale of the displacement, the speed of the strike and the scale of the force.',
        place: {
          channel: DISPLACEMENT,
          from: strike.features?.record.time[contact.from] as number,
          to: strike.features?.record.time[contact.to] as number,
        },
      },
    },
  ];
}

/** Half of the deflection is passed by both within this share of the contact time. Common practice, no source. */
const APART = 0.05;
const PERIODS = 3;

/** Do displacement and force belong to the same moment? Timed where each way to the deflection passes half of its largest. */
export function displacementInTime(strike: Strike, method: ImpactMethod): Finding[] {
  const { features } = strike;
  const displacement = features?.record.displacement;
  const contact = wholeContact(strike);
  const { value } = impactSpeed(strike, method);
  if (!features || !displacement || isNotEvaluated(contact) || isNotEvaluated(value) || value.kind === 'between')
    return [];
  const { time, steps } = features.record;
  const { deflection } = motionOf(features, contact, value.value, method);
  const recorded = displacement.subarray(contact.from, contact.to + 1);
  const at = (index: number) => time[contact.from + index] as number;
  const [here, there] = [at(halfWay(deflection)), at(halfWay(recorded))];
  const off = there - here;
  const duration = (time[contact.to] as number) - (time[contact.from] as number);
  const most = Math.max(APART * duration, PERIODS * steps.period);
  const named = { check: 'late displacement', question: 'Do displacement and force belong to the same moment?' };
  const finding = `The displacement recorded is half way ${seconds(Math.abs(off))} ${off < 0 ? 'before' : 'after'} the one integrated from the force; up to ${seconds(most)} is usual.`;
  if (Math.abs(off) <= most) return [{ check: { ...named, outcome: 'pass', finding } }];
  return [
    {
      check: {
        ...named,
        outcome: 'flag',
        finding,
        action:
          'Find out which channel is late: a filter in one of them shifts energy and deflection against each other.',
        place: { channel: DISPLACEMENT, from: Math.min(here, there), to: Math.max(here, there) },
      },
      signal: 'signal.misaligned',
    },
  ];
}

/** First sample at which a course that starts anywhere has gone half of the way to its largest. */
function halfWay(course: Float64Array): number {
  const start = course[0] as number;
  const half = start + ((course[indexOfLargest(course)] as number) - start) / 2;
  return Math.max(
    0,
    course.findIndex((value) => value >= half),
  );
}
