/** What goes to a person's terminal: width, plain text in columns, a bar while something long runs. */

/** Width of a text on the terminal, with combining marks taking no room. */
function widthOf(text: string): number {
  return [...text.normalize('NFC').replaceAll(/\p{M}/gu, '')].length;
}

function padded(text: string, width: number, side: 'left' | 'right'): string {
  const blanks = ' '.repeat(Math.max(0, width - widthOf(text)));
  return side === 'left' ? text + blanks : blanks + text;
}

export interface Column {
  head: string;
  side?: 'left' | 'right';
}

/** Rows in aligned columns under a ruled head. Control characters from files are shown, never sent. */
export function table(columns: Column[], rows: string[][]): string {
  const cells = [columns.map(({ head }) => head), ...rows].map((row) => row.map(printable));
  const widths = columns.map((_, c) => Math.max(...cells.map((row) => widthOf(row[c] ?? ''))));
  const line = (row: string[]) =>
    row
      .map((cell, c) => padded(cell, widths[c] ?? 0, columns[c]?.side ?? 'left'))
      .join('  ')
      .trimEnd();
  const [head = [], ...body] = cells;
  return [
    line(head),
    widths
      .map((width) => '─'.repeat(width))
      .join('  ')
      .trimEnd(),
    ...body.map(line),
  ].join('\n');
}

/** Text from a file, made safe for a terminal: escape sequences and bidirectional controls become visible. */
export function printable(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not reach a terminal
  return text.replaceAll(/[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g, (one) => {
    const point = one.codePointAt(0) ?? 0;
    return `\\u${point.toString(16).toUpperCase().padStart(4, '0')}`;
  });
}

/** Lines of at most `width` characters, broken at blanks, each after `indent`. */
export function wrapped(text: string, width = 96, indent = ''): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && widthOf(line) + 1 + widthOf(word) > width - indent.length) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map((one) => indent + one).join('\n');
}

/** A bar on standard error, drawn only where a person watches. */
export class Progress {
  private shown = 0;
  private readonly begun = Date.now();

  constructor(private readonly what: string) {}

  report(done: number, total: number): void {
    if (!process.stderr.isTTY || total === 0) return;
    const now = Date.now();
    // Short work needs no bar, and a terminal needs no more than ten a second.
    if (now - this.begun < 400 || now - this.shown < 100) return;
    this.shown = now;
    const share = done / total;
    const filled = Math.round(share * 30);
    const left = share > 0.02 ? `, ${Math.ceil(((now - this.begun) / 1000 / share) * (1 - share))} s left` : '';
    process.stderr.write(
      `\r\x1b[K${this.what} ${'━'.repeat(filled)}${'╌'.repeat(30 - filled)} ${Math.floor(share * 100)} %${left}`,
    );
  }

  end(): void {
    if (this.shown > 0) process.stderr.write('\r\x1b[K');
  }
}
