import { requireFinite, requirePositive } from '../requirements.js';

/** What one stop puts into one part. */
export interface BrakingHeat {
  /** Kinetic energy given up by the whole mass, J. */
  energy: number;
  /** Of it, into this part, J. */
  heat: number;
  /** Warming of the part if none of it were carried away, K. */
  rise: number;
}

export interface Stop {
  /** kg */
  mass: number;
  /** m/s */
  speedFrom: number;
  speedTo: number;
  /** Share of the energy that goes into the part, a fraction; 1 for all of it. */
  share: number;
  /** Heat capacity of the part, J/K. */
  capacity: number;
}

/**
 * How much heat does a stop put into a rim, and how warm would it make it with no time to cool?
 *
 *     E = m (v₀² − v₁²) / 2,  Q = share · E,  ΔT = Q / C
 *
 * Assumes that the part warms evenly and loses nothing meanwhile: the rise is the largest possible.
 *
 * Source: kinetic energy and heat capacity; Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 5.1 (from memory).
 */
export function brakingHeat({ mass, speedFrom, speedTo, share, capacity }: Stop): BrakingHeat {
  requirePositive('brakingHeat', { mass, capacity });
  requireFinite('brakingHeat', { speedFrom, speedTo });
  if (!(speedTo >= 0 && speedFrom >= speedTo))
    throw new RangeError(`brakingHeat: a stop runs from a speed to a lower one; got ${speedFrom} to ${speedTo} m/s.`);
  if (!(share > 0 && share <= 1))
    throw new RangeError(`brakingHeat: share must lie above 0 and at most at 1; got ${share}. It is no percentage.`);
  // The product of sum and difference keeps the digits that squares of nearly equal speeds lose.
  const energy = (mass * (speedFrom - speedTo) * (speedFrom + speedTo)) / 2;
  const heat = share * energy;
  return { energy, heat, rise: heat / capacity };
}
