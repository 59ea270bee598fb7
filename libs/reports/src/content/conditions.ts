import type { Quantity, Run } from '@breakbook/lab';
import { unitSymbol } from '@breakbook/units';
import type { Printing } from '../words/printing.js';
import { quantityInWords } from '../words/units.js';

type Words = Pick<Printing, 'entered' | 'say' | 'number' | 'units' | 'language'>;

/** Conditions of some runs in few words: "medium water; room temperature 22 to 22.9 °C". */
export function conditionsInWords(runs: readonly Pick<Run, 'conditions'>[], words: Words): string {
  const names = [...new Set(runs.flatMap(({ conditions }) => Object.keys(conditions)))];
  return names.map((name) => `${words.entered(name)} ${valuesOf(runs, name, words)}`).join('; ');
}

function valuesOf(runs: readonly Pick<Run, 'conditions'>[], name: string, words: Words): string {
  const stated = runs.flatMap(({ conditions }) => conditions[name] ?? []);
  const quantities = stated.filter((one): one is Quantity => typeof one !== 'string');
  const [first] = quantities;
  if (first && quantities.length === stated.length && quantities.every(({ unit }) => unit === first.unit)) {
    const values = quantities.map(({ value }) => value);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const highest = quantityInWords(high, first.unit, words);
    if (low === high) return highest;
    return words.say('{low} to {high}', { low: lowest(low, first.unit, words), high: highest });
  }
  const written = (value: string | Quantity) =>
    typeof value === 'string' ? words.entered(value) : quantityInWords(value.value, value.unit, words);
  return [...new Set(stated.map(written))].join(', ');
}

/** The first of two values, whose unit stands behind the second. */
function lowest(value: number, unit: string, words: Words): string {
  const printed = quantityInWords(value, unit, words);
  const symbol = unitSymbol(words.units.of(unit));
  return symbol !== '' && printed.endsWith(` ${symbol}`) ? printed.slice(0, -symbol.length - 1) : printed;
}
