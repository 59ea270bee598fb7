import type { Limit } from '@breakbook/lab';
import type { Printing } from './printing.js';
import { besideInWords } from './units.js';

/** What a limit asks for in the units of the document, where that is not how it was declared, and in the second unit. */
export function inOtherUnits(limit: Limit, printing: Printing): string {
  if (limit.bound === 'absent') return '';
  const values = limit.bound === 'between' ? [limit.lower, limit.upper] : [limit.value];
  return values
    .map((value) => besideInWords(value, limit.unit, printing))
    .filter((text) => text !== '')
    .join(printing.say(' to '));
}

/** When a result y is accepted, as a formula: U is its expanded uncertainty, TL the limit. */
export function formulaOf(limit: Limit, { say, number }: Printing): string {
  const { decisionRule } = limit;
  // Of four outcomes the formula gives the one without a condition; the words beside it tell the others.
  const band = decisionRule.rule === 'simple' ? '' : decisionRule.r === 1 ? ' U' : ` ${number(`${decisionRule.r}`)} U`;
  const plus = band === '' ? '' : ` +${band}`;
  const minus = band === '' ? '' : ` −${band}`;
  switch (limit.bound) {
    case 'at least':
      return `y ≥ TL${plus}`;
    case 'at most':
      return `y ≤ TL${minus}`;
    case 'between':
      return say('lower TL{plus} ≤ y ≤ upper TL{minus}', { plus, minus });
    case 'absent':
      return say('number found = 0');
  }
}
