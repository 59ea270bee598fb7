/**
 * Text as a cell of a table that a spreadsheet may open. A text that begins with `=`, `+`, `-`, `@`, a tab, a carriage
 * return or a zero byte is taken for a formula there, so an apostrophe is put before it; one more where it begins with
 * apostrophes before such a sign, so that what was written can always be read back. Numbers are no text and stay as they are.
 */
export function harmlessCell(text: string): string {
  return DOUBTFUL.test(text) ? `'${text}` : text;
}

/** The text that `harmlessCell` was given. */
export function cellAsWritten(cell: string): string {
  return cell.startsWith("'") && DOUBTFUL.test(cell) ? cell.slice(1) : cell;
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are among what a spreadsheet takes for the beginning of a formula
const DOUBTFUL = /^'*[=+\-@\t\r\u0000]/;
