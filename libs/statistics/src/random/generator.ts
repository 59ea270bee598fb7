import { normalQuantile } from '../distributions/normal.js';
import { type WeibullParameters, weibullQuantile } from '../distributions/weibull.js';
import { requireCount } from '../requirements.js';

/** A source of chance that gives the same numbers for the same seed, on every machine. */
export interface Generator {
  /** A whole number from 0 to 2^32 - 1. */
  word(): number;
  /** A number between 0 and 1, neither end included; 53 bits. */
  uniform(): number;
  /** A standard normal number, by inversion: one uniform each, so that streams stay in step. */
  normal(): number;
  weibull(parameters: WeibullParameters): number;
}

/**
 * The generator xoshiro128** 1.1. Its state is filled from the seed by counting in steps of the golden
 * ratio and mixing each count's bits, so that near seeds give unlike streams. For simulation; not for
 * secrets.
 *
 * Source: Blackman and Vigna (2021), ACM Trans. Math. Softw. 47, 36. Seeding after Steele, Lea and
 * Flood (2014), OOPSLA, 453-472, with the 32-bit finaliser of MurmurHash3.
 */
export function seededGenerator(seed: number): Generator {
  requireCount('seededGenerator', { seed });
  let filling = (seed ^ Math.floor(seed / 2 ** 32)) | 0;
  const next = () => {
    filling = (filling + 0x9e3779b9) | 0;
    let mixed = filling;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return (mixed ^ (mixed >>> 16)) >>> 0;
  };
  return generatorFrom([next(), next(), next(), next()]);
}

/** The generator in a given state of four 32-bit words, not all zero. */
export function generatorFrom(state: readonly [number, number, number, number]): Generator {
  if (state.every((word) => word === 0)) throw new RangeError('generatorFrom: a state of zeros gives zeros for ever.');
  let [a, b, c, d] = state.map((word) => word | 0) as [number, number, number, number];
  const word = () => {
    const scrambled = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const kept = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= kept;
    d = rotated(d, 11);
    return scrambled;
  };
  // The half keeps both ends out, where quantiles are infinite.
  const uniform = () => ((word() >>> 5) * 2 ** 26 + (word() >>> 6) + 0.5) / 2 ** 53;
  return {
    word,
    uniform,
    normal: () => normalQuantile(uniform()),
    weibull: (parameters) => weibullQuantile(uniform(), parameters),
  };
}

function rotated(value: number, by: number): number {
  return (value << by) | (value >>> (32 - by));
}
