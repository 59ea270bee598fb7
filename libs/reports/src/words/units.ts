import { boundInWords, valueInWords, withUnit } from '@breakbook/acceptance';
import { type CharacteristicValue } from '@breakbook/lab';
import {
  converter,
  decimalsBeside,
  printDeclared,
  printDown,
  printFixed,
  sameDimension,
  unitByCode,
} from '@breakbook/units';

/** The unit printed beside another: psi beside every other unit of pressure, as the trade reads both. */
export function secondUnit(unit: string): string | undefined {
  const isPressure = unitByCode(unit) !== undefined && sameDimension(unit, 'kPa');
  if (!isPressure) return undefined;
  return unit === '[psi]' ? 'kPa' : '[psi]';
}

export interface Measured {
  value: CharacteristicValue;
  unit: string;
  uncertainty?: number;
  /** Limits it is set against: enough digits are printed to keep it on its side of them. */
  limits?: readonly number[];
}

/** `1 842 kPa`, and the same in the second unit where there is one. */
export function measuredInWords({ value, unit, uncertainty, limits = [] }: Measured): [first: string, second: string] {
  const one = (code: string) => {
    const into = converter(unit, code);
    const difference = converter(unit, code, { difference: true });
    return valueInWords(mapped(value, into), code, {
      limits: limits.map(into),
      ...(uncertainty === undefined ? {} : { uncertainty: difference(uncertainty) }),
    });
  };
  const second = secondUnit(unit);
  return [one(unit), second === undefined ? '' : one(second)];
}

/** An uncertainty, to two significant digits. */
export function uncertaintyInWords(expanded: number, unit: string): [first: string, second: string] {
  const one = (code: string) => {
    const value = converter(unit, code, { difference: true })(expanded);
    return withUnit(printFixed(value, decimalsBeside(value, value, [])), code);
  };
  const second = secondUnit(unit);
  return [one(unit), second === undefined ? '' : one(second)];
}

/** A limit as it was declared; where it was converted, without what the conversion adds behind its digits. */
export function declaredInWords(value: number, unit: string): string {
  return withUnit(printDeclared(Number(value.toPrecision(12))), unit);
}

/** A lower bound, rounded down. */
export function boundInUnits(bound: number, unit: string, limit: number): [first: string, second: string] {
  const one = (code: string) => {
    const into = converter(unit, code);
    return boundInWords(into(bound), code, [into(limit)]);
  };
  const second = secondUnit(unit);
  return [one(unit), second === undefined ? '' : one(second)];
}

/** A distance to a limit with its sign, rounded down so that it never looks larger than it is. */
export function marginInWords(
  margin: number,
  { unit, value, limit, uncertainty }: { unit: string; value: number; limit: number; uncertainty?: number },
): [first: string, second: string] {
  const one = (code: string) => {
    const into = converter(unit, code);
    const difference = converter(unit, code, { difference: true });
    const decimals =
      uncertainty === undefined
        ? // A value of nothing has no digits to go by; its limit has.
          Math.max(decimalsBeside(into(value), undefined, [into(limit)]), decimalsBeside(into(limit), undefined, []))
        : decimalsBeside(into(value), difference(uncertainty), [into(limit)]);
    const printed = printDown(difference(margin), decimals);
    return withUnit(margin > 0 ? `+${printed}` : printed, code);
  };
  const second = secondUnit(unit);
  return [one(unit), second === undefined ? '' : one(second)];
}

/** Two wordings of one number in one line: `1 578 kPa (228 psi)`. */
export function both([first, second]: readonly [string, string]): string {
  return second === '' ? first : `${first} (${second})`;
}

function mapped(value: CharacteristicValue, into: (value: number) => number): CharacteristicValue {
  return value.kind === 'between'
    ? { kind: 'between', lower: into(value.lower), upper: into(value.upper) }
    : { kind: value.kind, value: into(value.value) };
}
