import type { PrintChoice, PrintUnits } from '@breakbook/lab';

export type Kind = keyof PrintUnits;

/**
 * Units that follow a choice, each with what it becomes. Stresses in MPa are no pressures, torques in N.m no energies and
 * kelvins differences of temperature: they stay.
 */
const FAMILIES: readonly { follows: Kind; becomes: Readonly<Record<string, string>>; also?: readonly string[] }[] = [
  { follows: 'pressure', becomes: { kPa: 'kPa', bar: 'bar', '[psi]': '[psi]' }, also: ['Pa', 'mbar'] },
  { follows: 'pressure', becomes: { kPa: 'kPa/s', bar: 'bar/min', '[psi]': '[psi]/s' }, also: ['bar/s'] },
  { follows: 'temperature', becomes: { Cel: 'Cel', '[degF]': '[degF]' } },
  { follows: 'energy', becomes: { J: 'J', '[ft_i].[lbf_av]': '[ft_i].[lbf_av]' }, also: ['kJ'] },
  { follows: 'force', becomes: { N: 'N', '[lbf_av]': '[lbf_av]' }, also: ['kN', 'kgf'] },
  { follows: 'length', becomes: { mm: 'mm', '[in_i]': '[in_i]' }, also: ['m', '[ft_i]'] },
  { follows: 'mass', becomes: { g: 'g', '[oz_av]': '[oz_av]' }, also: ['kg', '[lb_av]'] },
];

export interface PrintedUnits {
  /** Is anything printed in another unit than it is kept in? */
  chosen: boolean;
  /** The unit in which values kept in `code` are printed. */
  of: (code: string) => string;
  /** The one printed beside it: psi beside every other pressure, as the trade reads both, and kPa beside psi. */
  second: (code: string) => string | undefined;
}

export function printedUnits(units: PrintChoice['units']): PrintedUnits {
  const choice: PrintUnits = units === 'as kept' ? {} : units;
  const of = (code: string) => {
    const family = FAMILIES.find(({ becomes, also = [] }) => [...Object.values(becomes), ...also].includes(code));
    const chosen = family && choice[family.follows];
    return (chosen && family.becomes[chosen]) ?? code;
  };
  return { chosen: Object.keys(choice).length > 0, of, second: secondUnit };
}

const PRESSURES = ['Pa', 'kPa', 'MPa', 'bar', 'mbar', '[psi]'];

/** The unit printed beside another: psi beside every other unit of pressure, and kPa beside psi. */
export function secondUnit(unit: string): string | undefined {
  if (!PRESSURES.includes(unit)) return undefined;
  return unit === '[psi]' ? 'kPa' : '[psi]';
}
