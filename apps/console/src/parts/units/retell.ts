import { convert, printDown, printFixed, unitSymbol } from '@breakbook/units';
import type { KnownQuantity } from './known-quantities.js';
import { SWITCHED_UNITS, shownUnit, type UnitChoice } from './reader-unit.js';

const NUMBER = String.raw`[+−-]?\d+(?:[ \u00a0\u202f]\d{3})*(?:\.\d+)?`;
const CODES = new Map(SWITCHED_UNITS.map((code) => [unitSymbol(code), code]));
// The longest symbol first, or "kPa/s" would be read as "kPa".
const SYMBOLS = [...CODES.keys()].sort((a, b) => b.length - a.length).join('|');
const PAIR = `(?:(?<=between )${NUMBER} and ${NUMBER}|${NUMBER} ?(?:±|to|–) ?${NUMBER})`;
const QUANTITY = new RegExp(String.raw`(?<![\w.])(${PAIR}|${NUMBER})[ \u00a0\u202f](${SYMBOLS})(?![\w·/²])`, 'g');
/** The same quantity again in a second unit, for readers who cannot choose one. */
const SAID_AGAIN = new RegExp(
  String.raw`((?:${SYMBOLS})) \((?:at (?:least|most) |between ${NUMBER} and )?${NUMBER}(?: ± ${NUMBER})?[ \u00a0\u202f](?:${SYMBOLS})\)`,
  'g',
);
const ONE_NUMBER = new RegExp(NUMBER, 'g');
/** A range of measured numbers that leaves its unit to the words around it. */
const RANGE_WITHOUT_UNIT =
  /\d\.\d+ to \d+\.\d+(?![\d.]|[ \u00a0](?:%|m?s|min|h|k?Hz|°[CF]|K|mm|k?g|k?N|k?J|k?W|kPa|bar|psi)(?![\w·]))/;
/** Words that tell of a difference of temperatures, which converts without the zero point and must not be guessed at. */
const PERHAPS_DIFFERENCE =
  /[ \u00a0]°[CF](?![\w·]).*\b(?:above|below|more|less|higher|lower|warmer|colder|apart)\b|\b(?:margin|differ\w*|drift\w*|rises?|rose|f[ae]ll\w*|change[ds]?|within|by|scatter\w*|deviation|uncertain\w*)\b.*[ \u00a0]°[CF](?![\w·])/;
const QUOTED = /"[^"]*"/g;
/** Stands round the place of quoted words while the others are told; of the private use area, so that nobody typed it. */
const MASK = '\uE000';
const MASKED = new RegExp(`${MASK}(\\d+)${MASK}`, 'g');
const CLAUSE_END = /(?<=[.;:]) /;

/**
 * The same sentence in the reader's unit. The record words its sentences in the unit it judged in; a reader who thinks
 * in another gets each quantity converted from the exact number behind it, found among `known`; where there is none,
 * from the printed one. A converted number is printed to the same fineness or the next finer place. A clause with a
 * range that names no unit, or with what may be a difference of temperatures, stays as recorded, since half a
 * conversion would be a wrong statement. A quantity said again in a second unit, as on paper, is said once.
 *
 * Only sentences the program made go through here; what a person wrote is shown letter by letter, also where it stands
 * between double quotes in such a sentence: the reason for moving a moment, the name of a hold.
 */
export function retell(sentence: string, choice: UnitChoice, known: readonly KnownQuantity[] = []): string {
  const quoted: string[] = [];
  return sentence
    .replace(QUOTED, (words) => `${MASK}${quoted.push(words) - 1}${MASK}`)
    .replace(SAID_AGAIN, '$1')
    .split(CLAUSE_END)
    .map((clause) =>
      RANGE_WITHOUT_UNIT.test(clause) || PERHAPS_DIFFERENCE.test(clause) ? clause : retoldClause(clause, choice, known),
    )
    .join(' ')
    .replace(MASKED, (_, place: string) => quoted[Number(place)] ?? '');
}

function retoldClause(clause: string, choice: UnitChoice, known: readonly KnownQuantity[]): string {
  return clause.replace(QUANTITY, (printed: string, numbers: string, symbol: string) => {
    const unit = CODES.get(symbol) ?? symbol;
    const shown = shownUnit(unit, choice);
    if (shown === unit) return unbroken(printed, numbers);
    const converted = numbers.replace(ONE_NUMBER, (number, place: number) =>
      // What follows "±" is an uncertainty.
      convertedPrint(number, unit, shown, known, /± ?$/.test(numbers.slice(0, place))),
    );
    return unbroken(`${converted} ${unitSymbol(shown)}`, converted);
  });
}

function convertedPrint(
  printed: string,
  unit: string,
  shown: string,
  known: readonly KnownQuantity[],
  difference: boolean,
): string {
  const plain = printed.replaceAll(/[ \u00a0\u202f]/g, '').replace('−', '-');
  const printedDecimals = plain.split('.')[1]?.length ?? 0;
  const value = Number(plain);
  const behind = exactBehind(value, unit, 10 ** -printedDecimals, known);
  const exact = behind ? behind.value : value;
  const decimals = decimalsInUnit(printedDecimals, unit, shown);
  const converted = convert(exact, unit, shown, { difference });
  const text = behind?.bound ? printDown(converted, decimals) : printFixed(converted, decimals);
  return plain.startsWith('+') ? `+${text}` : text;
}

/** The number of the record that printed like this: nearest, and nearer than one unit of the last printed place. */
function exactBehind(
  value: number,
  unit: string,
  place: number,
  known: readonly KnownQuantity[],
): KnownQuantity | undefined {
  const near = (one: KnownQuantity) => Math.abs(one.value - value);
  return known
    .filter(
      (one) => one.unit === unit && near(one) < (one.bound ? place : place / 2 + Number.EPSILON * Math.abs(value)),
    )
    .reduce<KnownQuantity | undefined>((best, one) => (best && near(best) <= near(one) ? best : one), undefined);
}

/** Decimals in another unit that are as fine as `decimals` were, or the next finer place. */
export function decimalsInUnit(decimals: number, from: string, to: string): number {
  const place = convert(10 ** -decimals, from, to, { difference: true });
  // 0.01 bar is log -2 but for a rounding error, which must not cost a decimal.
  return Math.max(0, Math.ceil(-Math.log10(place) - 1e-9));
}

/** A quantity stays on one line: thin no-break spaces in its number, a no-break space before its unit. */
export function unbroken(quantity: string, numbers = quantity): string {
  const thin = (text: string) => text.replaceAll(/(?<=\d) (?=\d{3}(?!\d))/g, '\u202f');
  return thin(numbers) + quantity.slice(numbers.length).replaceAll(' ', '\u00a0');
}
