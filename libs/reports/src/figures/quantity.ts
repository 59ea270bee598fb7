import type { AxisQuantity } from '@breakbook/figures';
import { isNotEvaluated, type Result } from '@breakbook/lab';
import { converter, decimalsBeside, decimalsFor } from '@breakbook/units';
import { type PrintedUnits, printedUnits } from '../words/printed-units.js';

/** The axis of a characteristic, with as many decimals as its values deserve. */
export function axisOf(
  results: readonly Result[],
  { title, unit: kept }: { title: string; unit: string },
  units: PrintedUnits = printedUnits('as kept'),
): AxisQuantity {
  const unit = units.of(kept);
  const reference = results.find((one) => one.reference !== undefined)?.reference;
  const second = units.second(unit);
  const decimals = Math.max(0, decimalsOf(results) + (unit === kept ? 0 : digitsLost(kept, unit)));
  return {
    title,
    unit,
    decimals,
    ...(reference ? { reference } : {}),
    ...(second === undefined
      ? {}
      : { second: { unit: second, decimals: Math.max(0, decimals + digitsLost(unit, second)) } }),
  };
}

function decimalsOf(results: readonly Result[]): number {
  const decimals = results.flatMap(({ value, uncertainty }) => {
    if (uncertainty) return [decimalsFor(uncertainty.expanded)];
    if (isNotEvaluated(value)) return [];
    return [decimalsBeside(value.kind === 'between' ? value.lower : value.value, undefined, [])];
  });
  return Math.max(0, ...decimals);
}

/** How many more decimals say the same in the other unit: one for a unit seven times as large. */
function digitsLost(unit: string, second: string): number {
  return Math.round(-Math.log10(converter(unit, second, { difference: true })(1)));
}
