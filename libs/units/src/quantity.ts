import { convert } from './convert.js';

/** A number with its UCUM unit. */
export interface Quantity {
  value: number;
  unit: string;
}

/** The value of this quantity in another unit of the same kind. */
export function valueIn(quantity: Quantity, unit: string): number {
  return convert(quantity.value, quantity.unit, unit);
}

/**
 * The kinds of quantity the lab deals in: the unit stored, and the units a reader may choose.
 * Two kinds of one dimension (torque and energy) stay apart by name.
 */
export const QUANTITY_KINDS = {
  pressure: { stored: 'kPa', shown: ['kPa', 'bar', '[psi]'] },
  'pressure rate': { stored: 'kPa/s', shown: ['kPa/s', 'bar/min', '[psi]/s'] },
  'pressure-time': { stored: 'kPa.s', shown: ['kPa.s'] },
  stress: { stored: 'MPa', shown: ['MPa', 'GPa', '[psi]'] },
  force: { stored: 'N', shown: ['N', 'kN', '[lbf_av]', 'kgf'] },
  torque: { stored: 'N.m', shown: ['N.m'] },
  impulse: { stored: 'N.s', shown: ['N.s'] },
  energy: { stored: 'J', shown: ['J', 'kJ', 'W.h', '[ft_i].[lbf_av]'] },
  power: { stored: 'W', shown: ['W', 'kW'] },
  temperature: { stored: 'Cel', shown: ['Cel', '[degF]', 'K'] },
  'temperature-time': { stored: 'K.s', shown: ['K.s', 'K.min'] },
  'temperature difference': { stored: 'K', shown: ['K', '[degF]'] },
  speed: { stored: 'm/s', shown: ['m/s', 'km/h', '[mi_i]/h'] },
  length: { stored: 'mm', shown: ['mm', '[in_i]'] },
  mass: { stored: 'kg', shown: ['kg', 'g', '[lb_av]'] },
  time: { stored: 's', shown: ['s', 'min', 'h'] },
  frequency: { stored: 'Hz', shown: ['Hz', 'kHz'] },
  acceleration: { stored: 'm/s2', shown: ['m/s2', '[g]'] },
  angle: { stored: 'deg', shown: ['deg'] },
  'thermal resistance': { stored: 'K/W', shown: ['K/W'] },
  'heat capacity': { stored: 'J/K', shown: ['J/K'] },
  volume: { stored: 'mL', shown: ['mL', 'L'] },
  flow: { stored: 'mL/min', shown: ['mL/min'] },
  'pressure per volume': { stored: 'kPa/mL', shown: ['kPa/mL', 'bar/mL'] },
  stiffness: { stored: 'N/mm', shown: ['N/mm', 'kN/mm'] },
  voltage: { stored: 'V', shown: ['V', 'mV'] },
  hardness: { stored: '{ShoreA}', shown: ['{ShoreA}'] },
  ratio: { stored: '1', shown: ['1', '%'] },
  count: { stored: '1', shown: ['1'] },
} as const satisfies Record<string, { stored: string; shown: readonly string[] }>;

export type QuantityKind = keyof typeof QUANTITY_KINDS;

/** Kinds whose values are differences: they convert without a zero point. */
export function isDifference(kind: QuantityKind): boolean {
  return kind === 'temperature difference';
}
