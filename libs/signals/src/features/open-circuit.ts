import { convert } from '@breakbook/units';

/**
 * What instruments show for an open thermocouple, degrees Celsius: the end of type K and of type B (IEC 60584-1: 1372 and
 * 1820), the end of a 16-bit count of tenths (3276.7), nines, and below: the ends to which an input drifts. Common
 * practice, no source for which instrument shows which.
 */
const SHOWN = [1372, 1820, 3276.7, 9999, -200, -270];
/** Readings this near to one of them are it. Kelvin. */
const NEAR = 1;
/** A reading at this share of full scale is at it. */
const AT_FULL_SCALE = 0.999;
/** Between two readings no track changes by more: what arrives so was not warmed. Kelvin. Common practice, no source. */
const AT_ONCE = 50;

/**
 * Where was this thermocouple open? A reading is open where it stands at full scale or at one of the values that
 * instruments show for it, and came there at once, or stood there from the start; so is what follows until it leaves at once. A sensor that warms up to its full
 * scale is clipped, not open. Undefined where it never was.
 */
export function openReadings(
  indicated: Float64Array,
  unit: string,
  fullScale: number | undefined,
): Uint8Array | undefined {
  const celsius = (value: number) => (unit === 'Cel' ? value : convert(value, unit, 'Cel'));
  const top = fullScale === undefined ? Number.POSITIVE_INFINITY : AT_FULL_SCALE * celsius(fullScale);
  let open: Uint8Array | undefined;
  // Before the first reading stands one that anything is far from.
  let [before, isOpen] = [Number.NEGATIVE_INFINITY, false];
  for (let i = 0; i < indicated.length; i++) {
    const value = celsius(indicated[i] as number);
    // An open input drifts about its end; it leaves at once, as it came.
    if (Math.abs(value - before) > AT_ONCE) isOpen = value >= top || SHOWN.some((one) => Math.abs(value - one) <= NEAR);
    if (isOpen) {
      open ??= new Uint8Array(indicated.length);
      open[i] = 1;
    }
    before = value;
  }
  return open;
}
