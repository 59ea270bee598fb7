import { requireFinite, requirePositive, requireValues } from '../requirements.js';
import { cumulativeTrapezoid } from './cumulative-trapezoid.js';
import { STANDARD_GRAVITY } from './standard-gravity.js';

/** A falling mass met by a force: the record of one strike. */
export interface StrikeRecord {
  /** s, increasing; the first is the beginning of contact. */
  time: ArrayLike<number>;
  /** N, upward on the striker. */
  force: ArrayLike<number>;
  /** kg, all that falls. */
  mass: number;
  /** At the beginning of contact, m/s, downward positive. */
  speed: number;
  /** m/s² */
  gravity?: number;
}

/** How the striker moved, and what it gave to the part. */
export interface ImpactIntegration {
  /** m/s, downward positive. */
  velocity: Float64Array;
  /** Travel since the beginning of contact, m. */
  deflection: Float64Array;
  /** Given to the part so far, J. */
  energy: Float64Array;
  peakForce: number;
  /** Deepest travel, m; where the striker never came to rest, the travel at the end of the record. */
  maxDeflection: number;
  /** When it was reached, s; left out where the striker never came to rest. */
  timeOfMaxDeflection?: number;
  /** Did the striker come to rest and turn within the record? */
  cameToRest: boolean;
  /** Energy still in the part at the end of the record, J. */
  absorbedEnergy: number;
  /** Speed upward at the end of the record, m/s; negative where it still moves down. */
  rebound: number;
  /** ∫ F dt, N·s. */
  impulse: number;
}

/**
 * How did the striker move while the force acted on it, and how much energy did the part take?
 *
 *     v(t) = v₀ + g t − (1/m) ∫ F dt
 *     δ(t) = ∫ v dt
 *     E(t) = m (v₀² − v²) / 2 + m g δ
 *
 * Impulse and deflection by cumulative trapezoids at the rate of the record, the gravity term exactly. With this scheme
 * E equals the trapezoid sum of F over δ, so no energy is made or lost by the arithmetic. Between the samples where the
 * speed changes its sign it is taken as a straight line, and the deepest travel is where it crosses zero.
 *
 * Assumes that mass and force sensor move as one, and that nothing but the part and gravity acts on them.
 *
 * Source: ASTM D7136/D7136M, calculation of velocity, displacement and absorbed energy; ISO 6603-2:2000, 9 (both from memory).
 */
export function integrateImpact(record: StrikeRecord): ImpactIntegration {
  const { time, force, mass, speed, gravity = STANDARD_GRAVITY } = record;
  requirePositive('integrateImpact', { mass });
  requireFinite('integrateImpact', { speed, gravity });
  requireRecord(time, force);
  const n = time.length;
  const start = time[0] as number;

  const impulse = cumulativeTrapezoid(time, force);
  const velocity = impulse.map((sum, i) => speed + gravity * ((time[i] as number) - start) - sum / mass);
  const deflection = cumulativeTrapezoid(time, velocity);
  const energy = velocity.map(
    (v, i) => (mass * (speed * speed - v * v)) / 2 + mass * gravity * (deflection[i] as number),
  );

  const deepest = deepestPoint(time, velocity, deflection);
  return {
    velocity,
    deflection,
    energy,
    peakForce: largest(force),
    maxDeflection: deepest ? deepest.deflection : largest(deflection),
    ...(deepest ? { timeOfMaxDeflection: deepest.time } : {}),
    cameToRest: deepest !== undefined,
    absorbedEnergy: energy[n - 1] as number,
    rebound: -(velocity[n - 1] as number),
    impulse: impulse[n - 1] as number,
  };
}

/** Where the speed first turns from down to up; undefined where it never does. */
function deepestPoint(time: ArrayLike<number>, velocity: Float64Array, deflection: Float64Array) {
  for (let i = 0; i + 1 < velocity.length; i++) {
    const [here, next] = [velocity[i] as number, velocity[i + 1] as number];
    if (here < 0 || next > 0 || here === next) continue;
    const step = ((time[i + 1] as number) - (time[i] as number)) * (here / (here - next));
    return { time: (time[i] as number) + step, deflection: (deflection[i] as number) + (here * step) / 2 };
  }
  return undefined;
}

function largest(values: ArrayLike<number>): number {
  let most = values[0] as number;
  for (let i = 1; i < values.length; i++) most = Math.max(most, values[i] as number);
  return most;
}

function requireRecord(time: ArrayLike<number>, force: ArrayLike<number>): void {
  if (time.length !== force.length)
    throw new RangeError(
      `integrateImpact: time and force must be of one length; got ${time.length} and ${force.length}.`,
    );
  if (time.length < 2) throw new RangeError(`integrateImpact: needs at least 2 samples; got ${time.length}.`);
  requireValues('integrateImpact', 'time', Array.from(time));
  requireValues('integrateImpact', 'force', Array.from(force));
  for (let i = 1; i < time.length; i++)
    if (!((time[i] as number) > (time[i - 1] as number)))
      throw new RangeError(
        `integrateImpact: time must increase; time[${i}] = ${time[i]} does not follow ${time[i - 1]}.`,
      );
}
