import { isNotEvaluated } from '@breakbook/lab';
import { seededGenerator } from '../random/generator.js';
import { requireCount, requirePositive } from '../requirements.js';
import { type BrakedDescent, byClosedForm, type FieldPrediction, type RimOnRig } from './field-comparison.js';

/** Standard uncertainties of what the prediction is made from, in its units; what is left out is taken as exact. */
export const UNCERTAIN_INPUTS = [
  'mass',
  'slope',
  'speed',
  'dragArea',
  'rolling',
  'airDensity',
  'share',
  'ambient',
  'thermalResistance',
  'timeConstant',
] as const;
export type UncertainInput = (typeof UNCERTAIN_INPUTS)[number];

export interface FieldUncertainty {
  standard: Partial<Record<UncertainInput, number>>;
  /** The exponent lies within so much of its value, anywhere alike. */
  exponentHalfWidth: number;
}

/** How far a predicted number spreads: standard uncertainty, and the middle 95 % of the trials. */
export interface Spread {
  standard: number;
  lower: number;
  upper: number;
}

export interface FieldSpread {
  powerHere: Spread;
  energyHere: Spread;
  temperature: Spread;
  trials: number;
  seed: number;
}

/** A quantity with a normal law as wide as this would be negative in more than one trial of a thousand. */
const WIDEST = 1 / 3;

/**
 * How uncertain is the prediction, by the propagation of distributions? Every input with a stated standard uncertainty is
 * drawn from a normal law, the exponent from a rectangular one, all independent; a trial that needs no brake counts as no
 * power and no warming. The interval is the probabilistically symmetric one of 95 %.
 *
 * Source: JCGM 101:2008, 5.9, 6.4.2, 6.4.7 and 7.7 (from memory).
 */
export function fieldSpread(
  descent: BrakedDescent,
  rim: RimOnRig,
  uncertainty: FieldUncertainty,
  { trials, seed }: { trials: number; seed: number },
): FieldSpread {
  requireCount('fieldSpread', { trials }, 100);
  const values: Record<UncertainInput, number> = { ...descent, ...rim };
  for (const name of UNCERTAIN_INPUTS) {
    const u = uncertainty.standard[name];
    if (u === undefined) continue;
    requirePositive('fieldSpread', { [`standard uncertainty of ${name}`]: u });
    if (name !== 'ambient' && u > WIDEST * values[name])
      throw new RangeError(
        `fieldSpread: a standard uncertainty of ${u} for ${name} = ${values[name]} is more than a third of it, and a normal law so wide draws values that cannot be.`,
      );
  }
  const generator = seededGenerator(seed);
  const drawn: Pick<FieldPrediction, 'powerHere' | 'energyHere' | 'temperature'>[] = Array.from(
    { length: trials },
    () => {
      // Every input is drawn in every trial, so that one more uncertainty leaves the draws of the others as they were.
      const draws = Object.fromEntries(
        UNCERTAIN_INPUTS.map((name) => {
          const value = values[name] + (uncertainty.standard[name] ?? 0) * generator.normal();
          // One normal draw in a thousand may still fall below zero.
          return [name, name === 'ambient' ? value : Math.max(value, 1e-9 * values[name])];
        }),
      ) as Record<UncertainInput, number>;
      const exponent = rim.exponent + uncertainty.exponentHalfWidth * (2 * generator.uniform() - 1);
      const found = byClosedForm(
        { ...descent, ...draws, share: Math.min(1, draws.share) },
        { ...rim, thermalResistance: draws.thermalResistance, timeConstant: draws.timeConstant, exponent },
      );
      return isNotEvaluated(found) ? { powerHere: 0, energyHere: 0, temperature: draws.ambient } : found;
    },
  );
  const spread = (of: keyof (typeof drawn)[number]) => spreadOf(drawn.map((one) => one[of]));
  return {
    powerHere: spread('powerHere'),
    energyHere: spread('energyHere'),
    temperature: spread('temperature'),
    trials,
    seed,
  };
}

function spreadOf(values: number[]): Spread {
  const mean = values.reduce((sum, one) => sum + one / values.length, 0);
  const squares = values.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const sorted = values.toSorted((a, b) => a - b);
  const beyond = Math.round(0.025 * values.length);
  return {
    standard: Math.sqrt(squares / (values.length - 1)),
    lower: sorted[beyond] as number,
    upper: sorted[values.length - 1 - beyond] as number,
  };
}
