import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { packColumn, unpackColumn } from './packed-column.js';

const ORDERS = [1, 2] as const;
const bits = (values: Float64Array) => new BigUint64Array(values.slice().buffer);

/** Any pattern of 64 bits at all, so every NaN too. */
const anyDouble = fc
  .bigInt({ min: 0n, max: 2n ** 64n - 1n })
  .map((pattern) => new Float64Array(BigUint64Array.of(pattern).buffer)[0] as number);

describe('packed columns', () => {
  it.each(ORDERS)('give back every double bit for bit, with differences of order %i', (order) => {
    fc.assert(
      fc.property(fc.array(fc.oneof(anyDouble, fc.double()), { maxLength: 300 }), (values) => {
        const column = Float64Array.from(values);
        expect(bits(unpackColumn(packColumn(column, order)))).toEqual(bits(column));
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it.each(ORDERS)('keep negative zero, the smallest double and a NaN with a message in it, order %i', (order) => {
    const column = Float64Array.of(-0, 0, 5e-324, -Infinity, 1, -0);
    new BigUint64Array(column.buffer)[4] = 0x7ff800000000beefn;
    expect(bits(unpackColumn(packColumn(column, order)))).toEqual(bits(column));
    expect(Object.is(unpackColumn(packColumn(column, order))[0], -0)).toBe(true);
  });

  it('store an even clock in less than an eighth of its bytes', () => {
    const clock = Float64Array.from({ length: 65_536 }, (_, i) => Number((i * 1e-4).toFixed(4)));
    expect(packColumn(clock, 2).length).toBeLessThan(clock.byteLength / 8);
  });

  it('are read from a place within other bytes', () => {
    const packed = packColumn(Float64Array.of(1, 2, 3), 1);
    const around = new Uint8Array(packed.length + 3);
    around.set(packed, 3);
    expect(unpackColumn(around.subarray(3))).toEqual(Float64Array.of(1, 2, 3));
  });

  it('are refused wherever a byte is changed', () => {
    const packed = packColumn(
      Float64Array.from({ length: 50 }, (_, i) => Math.sin(i)),
      1,
    );
    for (let at = 0; at < packed.length; at++) {
      const altered = packed.slice();
      altered[at] = (altered[at] as number) ^ 1;
      expect(() => unpackColumn(altered), `byte ${at}`).toThrow();
    }
  });

  it('are refused where they are cut', () => {
    const packed = packColumn(Float64Array.of(1, 2, 3), 2);
    for (let length = 0; length < packed.length; length++)
      expect(() => unpackColumn(packed.subarray(0, length))).toThrow();
  });
});
