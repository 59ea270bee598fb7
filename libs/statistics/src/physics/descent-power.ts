import { requirePositive } from '../requirements.js';
import { STANDARD_GRAVITY } from './standard-gravity.js';

/** A bicycle held at a constant speed down a constant slope, without wind. */
export interface Descent {
  /** Rider and bicycle with all they carry, kg. */
  mass: number;
  /** Height over horizontal way: 0.1 for 10 %. */
  slope: number;
  /** m/s */
  speed: number;
  /** Drag coefficient times frontal area, m². */
  dragArea: number;
  /** Coefficient of rolling resistance. */
  rolling: number;
  /** kg/m³ */
  airDensity: number;
}

/** How a descent shares out its power, W. */
export interface DescentPower {
  /** Given up by height. */
  gravity: number;
  /** Taken by the air. */
  air: number;
  /** Taken by the tyres. */
  rolling: number;
  /** What is left for both brakes; negative where the rider would have to pedal. */
  brakes: number;
  /** Height lost a second, m/s. */
  descentRate: number;
}

/**
 * How much power must the brakes take to hold this speed down this slope?
 *
 *     P = v [m g (sin α − c cos α) − ½ ρ A v²],   tan α = slope
 *
 * with c the coefficient of rolling resistance and A the drag area. The equation of motion at constant speed, without wind,
 * bearings and drivetrain: they would take a little more off the brakes.
 *
 * Source: Martin, Milliken, Cobb, McFadden and Coggan (1998), J. Appl. Biomech. 14, 276-291, whose terms of height, air and
 * rolling these are, validated on the road to 2.7 W (standard error; terms from memory).
 */
export function descentPower({ mass, slope, speed, dragArea, rolling, airDensity }: Descent): DescentPower {
  requirePositive('descentPower', { mass, slope, speed, dragArea, rolling, airDensity });
  const along = Math.hypot(1, slope);
  const [sine, cosine] = [slope / along, 1 / along];
  const weight = mass * STANDARD_GRAVITY;
  const shares = {
    gravity: weight * sine * speed,
    air: (airDensity * dragArea * speed ** 3) / 2,
    rolling: rolling * weight * cosine * speed,
  };
  return { ...shares, brakes: shares.gravity - shares.air - shares.rolling, descentRate: speed * sine };
}
