/**
 * A share as people write it: 0.9 is `90 %`, 0.999 is `99.9 %`. Shares are fractions everywhere but in sentences.
 * No digit is lost: 99.9 % rounded to whole percent would claim everything.
 */
export function percent(fraction: number): string {
  // Fifteen digits are what a double holds; they drop the noise of 0.29 * 100 = 28.999999999999996.
  const digits = Number((fraction * 100).toPrecision(15));
  return `${plain(digits)} %`;
}

/** All digits of a number, never in exponent form. */
function plain(value: number): string {
  const text = String(value);
  return text.includes('e') ? value.toFixed(18).replace(/0+$/, '') : text;
}
