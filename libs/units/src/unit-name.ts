import { QUANTITY_KINDS, type QuantityKind } from './quantity.js';
import { unitByCode } from './unit.js';

export interface UnitProblem {
  code: 'unit.missing' | 'unit.unknown' | 'unit.ambiguous' | 'unit.wrong-dimension';
  found: string;
  expected: string;
  action: string;
}

/**
 * Names seen in rig files whose meaning is doubtful, with the readings they could have.
 * A layout may map such a name to one code; nothing here picks one.
 */
const DOUBTFUL: Record<string, string> = {
  mpa: '"mPa" is a thousandth of a pascal, "MPa" a million pascals',
  kpa: '"kPa" is a thousand pascals; UCUM codes are case-sensitive',
  psig: '"[psi]" gauge, or "[psi]" absolute less the day\'s air pressure',
  psia: '"[psi]" absolute, which is not what a gauge-pressure channel records',
  psi: '"[psi]" is the UCUM code; whether gauge or absolute must be declared',
  barg: '"bar" gauge; "bar" is the UCUM code',
  c: '"Cel" is degrees Celsius, "C" a coulomb',
  '°c': '"Cel" is the UCUM code for degrees Celsius',
  f: '"[degF]" is degrees Fahrenheit, "F" a farad',
  '°f': '"[degF]" is the UCUM code for degrees Fahrenheit',
  k: '"K" is a kelvin; "k" alone is a prefix',
  sec: '"s" is the UCUM code for seconds',
  lbs: '"[lb_av]" is a pound of mass, "[lbf_av]" a pound of force',
  lb: '"[lb_av]" is a pound of mass, "[lbf_av]" a pound of force',
  in: '"[in_i]" is the UCUM code for an inch',
};

/**
 * Reads a unit as written in a file or form for a channel of this kind.
 * Answers the UCUM code, or a problem that says what was found, what was expected and what to do.
 * Nothing is guessed: a doubtful name gets both of its readings.
 */
export function readUnitName(
  written: string | undefined,
  kind: QuantityKind,
): { unit: string } | { problem: UnitProblem } {
  const { stored, shown } = QUANTITY_KINDS[kind];
  const accepted = `a unit of ${kind}, such as ${shown.map((code) => `"${code}"`).join(', ')}`;
  const problem = (code: UnitProblem['code'], expected: string, action: string) => ({
    problem: { code, found: written ?? '', expected, action },
  });

  const name = written?.trim() ?? '';
  if (name === '')
    return problem('unit.missing', accepted, `Write the unit in brackets after the name, for example "[${stored}]".`);

  const unit = unitByCode(name);
  const sameKind = unit !== undefined && unit.dimension === unitByCode(stored)?.dimension;
  const doubt = DOUBTFUL[name.toLowerCase()];
  // "C" and "F" are UCUM codes of other things; in a temperature column they are a doubt, not a charge.
  if (doubt && (!sameKind || name === 'mPa'))
    return problem('unit.ambiguous', doubt, `Write ${accepted}, or have the layout say what "${name}" means.`);
  if (!unit) return problem('unit.unknown', accepted, 'Write a UCUM code, or have the layout map this name to one.');
  if (!sameKind)
    return problem('unit.wrong-dimension', accepted, `Check the column: "${name}" does not measure ${kind}.`);
  return { unit: name };
}
