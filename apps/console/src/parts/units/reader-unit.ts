/** The units a reader may choose for pressures; stored values never change. */
export const PRESSURE_UNITS = ['kPa', 'bar', '[psi]'] as const;
export type PressureUnit = (typeof PRESSURE_UNITS)[number];

/** Units that follow the reader's choice, each with what it becomes. Stresses in MPa are no pressures and stay. */
const FAMILIES: readonly Record<PressureUnit, string>[] = [
  { kPa: 'kPa', bar: 'bar', '[psi]': '[psi]' },
  { kPa: 'kPa/s', bar: 'bar/min', '[psi]': '[psi]/s' },
];

/** The unit in which this reader sees values stored in `code`. */
export function shownUnit(code: string, choice: PressureUnit): string {
  return FAMILIES.find((family) => Object.values(family).includes(code))?.[choice] ?? code;
}

/** Every unit code that follows the choice. */
export const SWITCHED_UNITS: readonly string[] = FAMILIES.flatMap((family) => Object.values(family));
