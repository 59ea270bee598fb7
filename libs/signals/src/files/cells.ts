import type { Fault } from './line-bytes.js';

/**
 * The cells of one line: parted by the delimiter; a cell may stand in double quotes, with a quote inside written twice
 * (RFC 4180, section 2), but never runs over the end of its line.
 */
export function cellsOf(line: string, delimiter = ','): { cells: string[] } | (Fault & { column: number }) {
  if (!line.includes('"')) return { cells: line.split(delimiter) };

  const cells: string[] = [];
  const [inQuotes, bare] = expressions(delimiter);
  let rest = line;
  for (;;) {
    const quoted = inQuotes.exec(rest);
    const plain = quoted ? null : bare.exec(rest);
    const found = quoted ?? plain;
    if (!found) return quoteFault(rest, cells.length + 1);
    cells.push(quoted ? (found[1] ?? '').replaceAll('""', '"') : (found[1] ?? ''));
    if (found.at(-1) === '') return { cells };
    rest = rest.slice(found[0].length);
  }
}

function expressions(delimiter: string): [RegExp, RegExp] {
  return [new RegExp(`^ *"((?:[^"]|"")*)"( *)(${delimiter}|$)`), new RegExp(`^([^"${delimiter}]*)(${delimiter}|$)`)];
}

function quoteFault(rest: string, column: number): Fault & { column: number } {
  const opened = /^ *"/.test(rest);
  const closed = /^ *"(?:[^"]|"")*"/.test(rest);
  const sentence = !opened
    ? 'a quote stands inside a cell that does not begin with one.'
    : closed
      ? 'text follows the closing quote of this cell.'
      : 'the quote that opens here is never closed on its line.';
  return {
    code: 'csv.quote',
    column,
    said: {
      sentence,
      found: rest,
      expected: 'a cell without quotes, or wholly in quotes with inner quotes doubled',
      action: 'Correct the export of this cell and send the file again.',
    },
  };
}
