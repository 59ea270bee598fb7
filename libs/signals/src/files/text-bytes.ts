import type { Dialect } from './dialect.js';
import type { Fault } from './line-bytes.js';

const [LF, CR] = [10, 13];

/** A fault in the bytes of a text, and how many line ends stood before it. */
export type TextFault = Fault & { linesBefore: number };

/**
 * A text of another encoding, or with lone carriage returns, made into what the reader of rows knows: UTF-8, lines that
 * end with a line feed. Takes pieces of any length; line ends stay one for one, so that line numbers are those of the
 * file. Nothing is replaced: what does not belong to the encoding is a fault.
 */
export class TextBytes {
  private held = new Uint8Array(0);
  private lines = 0;
  private readonly singles: Uint8Array[] | undefined;

  constructor(private readonly dialect: Pick<Dialect, 'encoding' | 'loneCr'>) {
    const { encoding } = dialect;
    if (encoding === 'latin-1' || encoding === 'windows-1252') this.singles = singleBytes(encoding);
  }

  take(piece: Uint8Array): Uint8Array | TextFault {
    const { encoding, loneCr } = this.dialect;
    if (encoding === 'utf-8' && !loneCr) return piece;
    const decoded = this.singles
      ? widened(piece, this.singles)
      : encoding === 'utf-8'
        ? copied(piece)
        : this.utf16(piece, encoding === 'utf-16le');
    if ('code' in decoded) return decoded;
    return loneCr ? this.fed(decoded) : this.counted(decoded);
  }

  /** At the end of the file: half a character left over is a fault. */
  end(): TextFault | undefined {
    return this.held.length > 0 ? this.notOfIt(this.lines) : undefined;
  }

  private utf16(piece: Uint8Array, little: boolean): Uint8Array | TextFault {
    const bytes = new Uint8Array(this.held.length + piece.length);
    bytes.set(this.held);
    bytes.set(piece, this.held.length);
    const unit = (at: number) =>
      little
        ? (bytes[at] as number) | ((bytes[at + 1] as number) << 8)
        : ((bytes[at] as number) << 8) | (bytes[at + 1] as number);

    const into = new Uint8Array(bytes.length * 2);
    let at = 0;
    let to = 0;
    let feeds = 0;
    while (at + 2 <= bytes.length) {
      const high = unit(at);
      if (high === LF) feeds++;
      if (high < 0x80) into[to++] = high;
      else if (high < 0x800) {
        into[to++] = 0xc0 | (high >> 6);
        into[to++] = 0x80 | (high & 0x3f);
      } else if (high < 0xd800 || high > 0xdfff) {
        into[to++] = 0xe0 | (high >> 12);
        into[to++] = 0x80 | ((high >> 6) & 0x3f);
        into[to++] = 0x80 | (high & 0x3f);
      } else {
        if (high > 0xdbff) return this.notOfIt(this.lines + feeds);
        if (at + 4 > bytes.length) break;
        const low = unit(at + 2);
        if (low < 0xdc00 || low > 0xdfff) return this.notOfIt(this.lines + feeds);
        const point = 0x10000 + ((high - 0xd800) << 10) + (low - 0xdc00);
        into[to++] = 0xf0 | (point >> 18);
        into[to++] = 0x80 | ((point >> 12) & 0x3f);
        into[to++] = 0x80 | ((point >> 6) & 0x3f);
        into[to++] = 0x80 | (point & 0x3f);
        at += 2;
      }
      at += 2;
    }
    this.held = bytes.slice(at);
    return into.subarray(0, to);
  }

  /** Every carriage return becomes a line feed; a line feed of the file's own does not belong in it. */
  private fed(bytes: Uint8Array): Uint8Array | TextFault {
    for (let at = 0; at < bytes.length; at++) {
      if (bytes[at] === LF)
        return {
          code: 'csv.line-ending',
          linesBefore: this.lines,
          said: {
            sentence: 'a line feed stands here, and the layout says that every line ends with a carriage return alone.',
            expected: 'lines that end with CR, throughout',
            action: 'Find out whether the file was put together or edited by hand, or correct the layout.',
          },
        };
      if (bytes[at] === CR) {
        bytes[at] = LF;
        this.lines++;
      }
    }
    return bytes;
  }

  private counted(bytes: Uint8Array): Uint8Array {
    for (let at = bytes.indexOf(LF); at >= 0; at = bytes.indexOf(LF, at + 1)) this.lines++;
    return bytes;
  }

  private notOfIt(linesBefore: number): TextFault {
    return {
      code: 'file.encoding',
      linesBefore,
      said: {
        sentence: `these bytes are not ${this.dialect.encoding.toUpperCase()}, and none is replaced.`,
        expected: `a text in ${this.dialect.encoding.toUpperCase()}, as the layout says`,
        action: 'Export the record again, or have a layout with the right encoding read the unread file.',
      },
    };
  }
}

/**
 * What Windows-1252 has for the bytes 0x80 to 0x9f; all other bytes are as in ISO/IEC 8859-1. The five that it leaves
 * open stay control characters, which no cell may hold. Source: WHATWG Encoding Standard, index-windows-1252.
 */
const WINDOWS_1252 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/** The UTF-8 of each of the 256 bytes. The language's own decoder is not asked: it takes one encoding for the other. */
function singleBytes(encoding: 'latin-1' | 'windows-1252'): Uint8Array[] {
  const letterOf = (byte: number) =>
    (encoding === 'windows-1252' ? WINDOWS_1252[byte - 0x80] : undefined) ?? String.fromCharCode(byte);
  return Array.from({ length: 256 }, (_, byte) => new TextEncoder().encode(letterOf(byte)));
}

/** A Buffer's own slice would be the same memory, and what is written into it the sent bytes of somebody's run. */
function copied(piece: Uint8Array): Uint8Array {
  return new Uint8Array(piece);
}

function widened(piece: Uint8Array, singles: readonly Uint8Array[]): Uint8Array {
  let extra = 0;
  for (const byte of piece) if (byte > 0x7f) extra += (singles[byte] as Uint8Array).length - 1;
  if (extra === 0) return copied(piece);
  const into = new Uint8Array(piece.length + extra);
  let to = 0;
  for (const byte of piece) {
    if (byte < 0x80) into[to++] = byte;
    else {
      const one = singles[byte] as Uint8Array;
      into.set(one, to);
      to += one.length;
    }
  }
  return into;
}
