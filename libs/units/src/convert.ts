import { exactRatio, exactShift, multiplierBy, ratioAsNumber } from './exact-factor.js';
import { type Unit, unitByCode } from './unit.js';

/** Why two units do not convert. */
export class UnitError extends Error {
  constructor(
    readonly code: 'unit.unknown' | 'unit.wrong-dimension',
    message: string,
  ) {
    super(message);
  }
}

function requireUnit(code: string): Unit {
  const unit = unitByCode(code);
  if (!unit) throw new UnitError('unit.unknown', `"${code}" is not a UCUM unit code`);
  return unit;
}

/** Do values in these two units measure the same kind of thing? */
export function sameDimension(a: string, b: string): boolean {
  return requireUnit(a).dimension === requireUnit(b).dimension;
}

/**
 * A function that turns values in one unit into values in another: y = x · (f₁ / f₂) + (z₁ − z₂) / f₂
 * with the size f and the zero point z of each unit's scale.
 *
 * `difference` converts a temperature difference or an uncertainty: the zero points then drop out
 * (NIST SP 811, 2008, section 8.5: 1 °F of difference is 5/9 K exactly).
 * Units of the trade convert by exact ratios; any other UCUM unit by the library's factors, good to about 1e-15.
 */
export function converter(from: string, to: string, options: { difference?: boolean } = {}): (value: number) => number {
  const a = requireUnit(from);
  const b = requireUnit(to);
  if (a.dimension !== b.dimension)
    throw new UnitError(
      'unit.wrong-dimension',
      `"${from}" does not convert into "${to}": they measure different things`,
    );
  if (from === to) return (value) => value;

  const ratio = exactRatio(from, to);
  const multiply = ratio ? multiplierBy(ratio) : (value: number) => value * (a.factor / b.factor);
  const shift = exactShift(from, to);
  if (!shift || options.difference) return multiply;
  const offset = ratioAsNumber(shift);
  return (value) => multiply(value) + offset;
}

/** One value converted; see `converter`. */
export function convert(value: number, from: string, to: string, options: { difference?: boolean } = {}): number {
  return converter(from, to, options)(value);
}
