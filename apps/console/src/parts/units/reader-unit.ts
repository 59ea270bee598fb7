/** In which unit a reader sees each kind of quantity; stored values never change. */
export interface UnitChoice {
  pressure: 'kPa' | 'bar' | '[psi]';
  temperature: 'Cel' | '[degF]';
  energy: 'recorded' | 'J' | 'kJ' | '[ft_i].[lbf_av]';
  force: 'recorded' | 'N' | 'kN' | '[lbf_av]';
}
export type Switched = keyof UnitChoice;

export const READER_UNITS: { readonly [Quantity in Switched]: readonly UnitChoice[Quantity][] } = {
  pressure: ['kPa', 'bar', '[psi]'],
  temperature: ['Cel', '[degF]'],
  energy: ['recorded', 'J', 'kJ', '[ft_i].[lbf_av]'],
  force: ['recorded', 'N', 'kN', '[lbf_av]'],
};

/** Before a reader has chosen. Energies and forces span so many sizes that each is best read as it was recorded. */
export const FIRST_UNITS: UnitChoice = { pressure: 'kPa', temperature: 'Cel', energy: 'recorded', force: 'recorded' };

/**
 * Units that follow a choice, each with what it becomes. Stresses in MPa are no pressures, torques in N.m no energies
 * and kelvins differences of temperature: they stay.
 */
const FAMILIES: readonly { follows: Switched; becomes: Readonly<Record<string, string>> }[] = [
  { follows: 'pressure', becomes: { kPa: 'kPa', bar: 'bar', '[psi]': '[psi]' } },
  { follows: 'pressure', becomes: { kPa: 'kPa/s', bar: 'bar/min', '[psi]': '[psi]/s' } },
  { follows: 'temperature', becomes: { Cel: 'Cel', '[degF]': '[degF]' } },
  { follows: 'energy', becomes: { J: 'J', kJ: 'kJ', '[ft_i].[lbf_av]': '[ft_i].[lbf_av]' } },
  { follows: 'force', becomes: { N: 'N', kN: 'kN', '[lbf_av]': '[lbf_av]' } },
];

/** The unit in which this reader sees values stored in `code`. */
export function shownUnit(code: string, choice: UnitChoice): string {
  const family = FAMILIES.find(({ becomes }) => Object.values(becomes).includes(code));
  return family?.becomes[choice[family.follows]] ?? code;
}

/** Every unit code that follows a choice. */
export const SWITCHED_UNITS: readonly string[] = FAMILIES.flatMap(({ becomes }) => Object.values(becomes));
