/**
 * Seeded chance. The generator uses only integer steps, the four operations and square roots wherever a number
 * reaches a file, so that every machine writes the same bytes; the one logarithm and power of `weibull` are
 * rounded to a millibar before use.
 */

/** A stream of numbers in [0, 1), the same for the same text. */
export class Chance {
  #state;

  /** @param {string} seed */
  constructor(seed) {
    // FNV-1a, 32 bit: spreads a text over the state.
    let hash = 0x811c9dc5;
    for (const byte of new TextEncoder().encode(seed)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
    this.#state = hash;
  }

  /** A 32-bit counter through a mixing function of Steele, Lea and Flood's kind (2014, "Fast splittable generators"). */
  uniform() {
    this.#state = (this.#state + 0x9e3779b9) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  }

  /** Nearly normal, mean 0 and standard deviation 1: twelve uniforms less six. Electrical noise asks for no better tail. */
  normal() {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += this.uniform();
    return sum;
  }

  /** @param {number} low @param {number} high */
  between(low, high) {
    return low + (high - low) * this.uniform();
  }

  /** @template T @param {readonly T[]} list @returns {T} */
  oneOf(list) {
    return /** @type {T} */ (list[Math.floor(this.uniform() * list.length)]);
  }

  /**
   * A strength in bar, to the millibar: scale · (−ln(1 − u))^(1/shape), the inverse of the Weibull distribution.
   * @param {number} shape @param {number} scale
   */
  weibull(shape, scale) {
    const strength = scale * (-Math.log(1 - this.uniform())) ** (1 / shape);
    return Math.round(strength * 1000) / 1000;
  }

  /** So many different numbers from 1 to `size`, in the order drawn. @param {number} count @param {number} size */
  draw(count, size) {
    const list = Array.from({ length: size }, (_, i) => i + 1);
    for (let i = 0; i < count; i++) {
      const j = i + Math.floor(this.uniform() * (size - i));
      [list[i], list[j]] = [/** @type {number} */ (list[j]), /** @type {number} */ (list[i])];
    }
    return list.slice(0, count);
  }
}
