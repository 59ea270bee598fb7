/** A positive ratio of two whole numbers: the exact size of a unit. */
export interface Ratio {
  numerator: bigint;
  denominator: bigint;
}

/**
 * Sizes in SI coherent units, exact by definition: 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 mi = 5280 ft,
 * 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s² (so 1 lbf = 4.4482216152605 N and
 * 1 psi = 1 lbf/in²), 1 bar = 100 kPa.
 * Source: NIST SP 811 (2008), appendix B, factors in bold and their footnotes.
 */
const SIZES: Record<string, [numerator: string, denominator?: string]> = {
  '1': ['1'],
  '%': ['0.01'],
  Pa: ['1'],
  kPa: ['1000'],
  MPa: ['1000000'],
  GPa: ['1000000000'],
  bar: ['100000'],
  mbar: ['100'],
  '[psi]': ['4.4482216152605', '0.00064516'],
  'kPa/s': ['1000'],
  'bar/s': ['100000'],
  'bar/min': ['100000', '60'],
  '[psi]/s': ['4.4482216152605', '0.00064516'],
  'kPa.s': ['1000'],
  N: ['1'],
  kN: ['1000'],
  kgf: ['9.80665'],
  '[lbf_av]': ['4.4482216152605'],
  'N.m': ['1'],
  J: ['1'],
  kJ: ['1000'],
  'W.h': ['3600'],
  '[ft_i].[lbf_av]': ['1.3558179483314004'],
  W: ['1'],
  kW: ['1000'],
  'm/s': ['1'],
  'km/h': ['1', '3.6'],
  '[mi_i]/h': ['0.44704'],
  m: ['1'],
  mm: ['0.001'],
  '[in_i]': ['0.0254'],
  '[ft_i]': ['0.3048'],
  L: ['0.001'],
  mL: ['0.000001'],
  'kPa/mL': ['1000', '0.000001'],
  'bar/mL': ['100000', '0.000001'],
  'N/mm': ['1', '0.001'],
  'kN/mm': ['1000', '0.001'],
  kg: ['1'],
  g: ['0.001'],
  '[lb_av]': ['0.45359237'],
  '[oz_av]': ['0.45359237', '16'],
  s: ['1'],
  ms: ['0.001'],
  min: ['60'],
  h: ['3600'],
  Hz: ['1'],
  kHz: ['1000'],
  'm/s2': ['1'],
  '[g]': ['9.80665'],
};

/** Size of one degree of a temperature scale, and its zero point in kelvin (NIST SP 811, appendix B.8). */
const SCALES: Record<string, { degree: [string, string?]; zero: [string, string?] }> = {
  K: { degree: ['1'], zero: ['0'] },
  Cel: { degree: ['1'], zero: ['273.15'] },
  '[degF]': { degree: ['1', '1.8'], zero: ['459.67', '1.8'] },
};

/** The exact ratio between two units the table knows, or undefined. */
export function exactRatio(from: string, to: string): Ratio | undefined {
  const a = SIZES[from] ?? SCALES[from]?.degree;
  const b = SIZES[to] ?? SCALES[to]?.degree;
  return a && b ? divided(ratioOf(a), ratioOf(b)) : undefined;
}

/** The exact shift of a temperature conversion, in degrees of the target scale. */
export function exactShift(from: string, to: string): Ratio | undefined {
  const a = SCALES[from];
  const b = SCALES[to];
  if (!a || !b) return undefined;
  const [za, zb] = [ratioOf(a.zero), ratioOf(b.zero)];
  const difference = {
    numerator: za.numerator * zb.denominator - zb.numerator * za.denominator,
    denominator: za.denominator * zb.denominator,
  };
  return divided(difference, ratioOf(b.degree));
}

function ratioOf([numerator, denominator = '1']: [string, string?]): Ratio {
  return divided(decimal(numerator), decimal(denominator));
}

function decimal(text: string): Ratio {
  const [whole = '0', fraction = ''] = text.split('.');
  return { numerator: BigInt(whole + fraction), denominator: 10n ** BigInt(fraction.length) };
}

function divided(a: Ratio, b: Ratio): Ratio {
  const numerator = a.numerator * b.denominator;
  const denominator = a.denominator * b.numerator;
  const common = greatestCommonDivisor(numerator < 0n ? -numerator : numerator, denominator);
  return { numerator: numerator / common, denominator: denominator / common };
}

function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : greatestCommonDivisor(b, a % b);
}

/** Multiplication by an exact ratio, with as few roundings as a double allows. */
export function multiplierBy({ numerator, denominator }: Ratio): (value: number) => number {
  const safe = BigInt(Number.MAX_SAFE_INTEGER);
  if (numerator <= safe && denominator <= safe) {
    const [n, d] = [Number(numerator), Number(denominator)];
    return d === 1 ? (value) => value * n : (value) => (value * n) / d;
  }
  const factor = ratioAsNumber({ numerator, denominator });
  return (value) => value * factor;
}

/** The double nearest to a ratio. */
export function ratioAsNumber({ numerator, denominator }: Ratio): number {
  // Forty decimal digits and one correctly rounded reading of them.
  return Number(`${(numerator * 10n ** 40n) / denominator}e-40`);
}
