import { percent } from './percent.js';

/** A chance as people read it: whole percent in the middle, one decimal at the ends, never rounded to 0 or to certainty. */
export function chanceInWords(chance: number): string {
  if (chance <= 0) return 'never';
  if (chance >= 1) return 'always';
  if (chance < 0.0005) return 'less than 0.1 %';
  if (chance > 0.9995) return 'more than 99.9 %';
  const decimals = chance < 0.0995 || chance > 0.9905 ? 3 : 2;
  return percent(Number(chance.toFixed(decimals)));
}

/** A share that lies below a limit, however small: `0.011 %`. */
export function shareInWords(share: number): string {
  if (share <= 0) return 'none';
  if (share < 1e-6) return 'less than 0.0001 %';
  return percent(Number(share.toPrecision(2)));
}
