import { isNotEvaluated, type NotEvaluated, notEvaluated } from '@breakbook/lab';
import { requireFinite, requirePositive } from '../requirements.js';
import { type Descent, descentPower } from './descent-power.js';

/** A descent as one of its brakes meets it. */
export interface BrakedDescent extends Descent {
  /** Share of the braking that this brake does, a fraction; 1 for all of it. */
  share: number;
  /** °C */
  ambient: number;
  /** How far it goes: s of braking, or m of height. */
  length: { duration: number } | { height: number };
}

/** The rim as one heated body, as a run on a rig showed it. */
export interface RimOnRig {
  /** K/W */
  thermalResistance: number;
  /** s */
  timeConstant: number;
  /** Of the air stream on the rig, m/s. */
  airSpeed: number;
  /** n: heat goes to the air in proportion to its speed to this power. */
  exponent: number;
}

/** What one brake meets on a descent, by the rim as one heated body. */
export interface FieldPrediction {
  /** Of both brakes together, W; and of this one. */
  power: number;
  powerHere: number;
  /** s, m. */
  duration: number;
  height: number;
  /** Into this brake, J. */
  energyHere: number;
  /** K/W and s, at the speed of the descent. */
  thermalResistance: number;
  timeConstant: number;
  /** At the end of the descent, °C: by the closed form. */
  temperature: number;
  /** The same by steps of the differential equation. */
  stepwise: number;
  /** What it would come to if the descent went on for ever, °C. */
  steadyTemperature: number;
}

/**
 * How much energy does a descent put into this brake, and how warm does the rim get?
 *
 *     E = s P t,   T = T_a + s P R' (1 − e^(−t/τ')),   R' = R (u/v)^n,   τ' = τ (u/v)^n
 *
 * with P by `descentPower`, s the share of this brake, u the air speed of the rig and v the speed of the descent. The rim
 * begins at the temperature of the air. Heat goes to the air alone, and the heat capacity stays what it was, so that R and
 * τ follow the air alike. Beside the closed form stands the differential equation τ' dT/dt = s P R' − (T − T_a) by
 * classical Runge-Kutta steps.
 *
 * A comparison of energy and temperature. It says nothing of whether a descent is safe.
 *
 * Source: lumped capacitance, Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 5.1 to 5.3; n = 1/2 for a
 * laminar and 4/5 for a turbulent boundary layer on a plate, 7.2 (both from memory). That a rim lies between the two is
 * common practice, no source.
 */
export function predictField(descent: BrakedDescent, rim: RimOnRig): FieldPrediction | NotEvaluated {
  const found = byClosedForm(descent, rim);
  if (isNotEvaluated(found)) return found;
  const rise = found.steadyTemperature - descent.ambient;
  return { ...found, stepwise: descent.ambient + stepped(rise, found.timeConstant, found.duration) };
}

/** The same without the steps. */
export function byClosedForm(descent: BrakedDescent, rim: RimOnRig): Omit<FieldPrediction, 'stepwise'> | NotEvaluated {
  const { share, ambient, length, speed } = descent;
  const { thermalResistance, timeConstant, airSpeed, exponent } = rim;
  requirePositive('predictField', { share, thermalResistance, timeConstant, airSpeed, ...length });
  requireFinite('predictField', { ambient, exponent });
  if (share > 1) throw new RangeError(`predictField: share must be at most 1; got ${share}. It is no percentage.`);

  const { brakes: power, descentRate } = descentPower(descent);
  if (!(power > 0))
    return notEvaluated(
      'air and tyres hold this speed on this slope, and no brake is needed',
      'the slope is steeper or the speed lower',
    );
  const duration = 'duration' in length ? length.duration : length.height / descentRate;
  const slower = (airSpeed / speed) ** exponent;
  const [resistance, tau] = [thermalResistance * slower, timeConstant * slower];
  const powerHere = share * power;
  const rise = powerHere * resistance;
  return {
    power,
    powerHere,
    duration,
    height: duration * descentRate,
    energyHere: powerHere * duration,
    thermalResistance: resistance,
    timeConstant: tau,
    temperature: ambient - rise * Math.expm1(-duration / tau),
    steadyTemperature: ambient + rise,
  };
}

/** Steps of a time constant, and of a short descent. */
const STEPS = 100;

/** Warming after `duration` by τ dθ/dt = rise − θ from 0, classical Runge-Kutta. */
function stepped(rise: number, tau: number, duration: number): number {
  // After forty time constants nothing moves any more.
  const until = Math.min(duration, 40 * tau);
  const count = Math.ceil(STEPS * Math.max(1, until / tau));
  const h = until / count;
  const slope = (theta: number) => (rise - theta) / tau;
  let theta = 0;
  for (let i = 0; i < count; i++) {
    const first = slope(theta);
    const second = slope(theta + (h * first) / 2);
    const third = slope(theta + (h * second) / 2);
    const fourth = slope(theta + h * third);
    theta += (h * (first + 2 * second + 2 * third + fourth)) / 6;
  }
  return theta;
}
