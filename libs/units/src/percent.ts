/**
 * A share as people write it: 0.9 is `90 %`, 0.999 is `99.9 %`. Shares are fractions everywhere but in sentences.
 * No digit is lost: 99.9 % rounded to whole percent would claim everything.
 */
export function printPercent(fraction: number): string {
  // Fifteen digits are what a double holds; they drop the noise of 0.29 * 100 = 28.999999999999996.
  const digits = Number((fraction * 100).toPrecision(15));
  return `${plain(digits)} %`;
}

/** A chance as people read it: whole percent in the middle, one decimal at the ends, never rounded to 0 or to certainty. */
export function printChance(chance: number): string {
  if (chance <= 0) return 'never';
  if (chance >= 1) return 'always';
  if (chance < 0.0005) return 'less than 0.1 %';
  if (chance > 0.9995) return 'more than 99.9 %';
  const decimals = chance < 0.0995 || chance > 0.9905 ? 3 : 2;
  return printPercent(Number(chance.toFixed(decimals)));
}

/** A share that lies below a limit, however small: `0.011 %`. */
export function printShare(share: number): string {
  if (share <= 0) return 'none';
  if (share < 1e-6) return 'less than 0.0001 %';
  return printPercent(Number(share.toPrecision(2)));
}

/** All digits of a number, never in exponent form. */
function plain(value: number): string {
  const text = String(value);
  return text.includes('e') ? value.toFixed(18).replace(/0+$/, '') : text;
}
