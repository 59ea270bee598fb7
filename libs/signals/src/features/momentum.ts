import { type ImpactMethod, isNotEvaluated } from '@breakbook/lab';
import { constantsOf, motionOf, type Strike, wholeContact } from './impact-source.js';
import { impactSpeed, measuredRebound } from './impact-speed.js';

/** The momentum of a strike by two ways, N·s. */
export interface MomentumBalance {
  /** m (v_i + v_r), both speeds by the gate. */
  exchanged: number;
  /** ∫ (F − m g) dt over the contact. */
  byForce: number;
  /** How far they are apart, as a share of the momentum exchanged. */
  off: number;
  /** Contact, s. */
  from: number;
  to: number;
}

/**
 * Do the speeds before and after, and the force between, agree?
 *
 *     m (v_i + v_r) = ∫ (F − m g) dt
 *
 * v_r as a positive speed. Undefined where the way back through the gate was not timed, or the contact is not whole.
 *
 * Newton's second law, integrated over the contact.
 */
export function momentumOf(strike: Strike, method: ImpactMethod): MomentumBalance | undefined {
  const rebound = measuredRebound(strike, method);
  const contact = wholeContact(strike);
  const { value } = impactSpeed(strike, method);
  const { features } = strike;
  if (rebound === undefined || isNotEvaluated(contact) || !features) return undefined;
  if (isNotEvaluated(value) || value.kind === 'between') return undefined;
  const { mass, gravity } = constantsOf(method);
  const { time } = features.record;
  const [from, to] = [time[contact.from] as number, time[contact.to] as number];
  const { impulse } = motionOf(features, contact, value.value, method);
  const exchanged = mass * (value.value + rebound);
  const byForce = impulse - mass * gravity * (to - from);
  return { exchanged, byForce, off: Math.abs(byForce - exchanged) / exchanged, from, to };
}
