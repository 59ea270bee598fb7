import { requirePositive } from '../requirements.js';
import { STANDARD_GRAVITY } from './standard-gravity.js';

/** A mass let fall. */
export interface Drop {
  /** At the end of the fall, m/s. */
  speed: number;
  /** J. */
  energy: number;
}

/**
 * How fast and with what energy does a mass arrive that falls freely from rest?
 *
 *     v = √(2 g h),  E = m g h
 *
 * `mass` in kg, `height` in m, `gravity` in m/s². Assumes no friction and no drag: what a guide takes away shows when
 * the speed is measured.
 *
 * Source: energy of a body in a uniform field; ISO 6603-1:2000 and ASTM D7136/D7136M state a drop this way (from memory).
 */
export function drop(mass: number, height: number, gravity = STANDARD_GRAVITY): Drop {
  requirePositive('drop', { mass, height, gravity });
  return { speed: Math.sqrt(2 * gravity * height), energy: mass * gravity * height };
}
