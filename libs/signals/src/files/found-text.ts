import type { Dialect } from './dialect.js';
import type { ProblemList } from './problem-list.js';
import { TextBytes } from './text-bytes.js';
import { isGzip } from './unpacked.js';
import { PackedFault, type Pieces, unpackedPieces } from './unpacked-pieces.js';

/** A text nobody has described, as far as its bytes tell how it is written. */
export interface FoundText {
  /** The first bytes as they are, or as they are inside gzip. */
  start: Uint8Array;
  unpackedBytes?: number;
  encoding: Dialect['encoding'];
  encodingFound: string;
  loneCr: boolean;
  lineEnds: string;
  /** The first lines of the file, whole ones only. */
  lines: string[];
  doubts: string[];
}

/** Looked at: enough for a preamble and some hundred rows. */
const LOOKED_AT = 2 ** 20;
const MOST_LINES = 1500;
const MOST_UNPACKED = 2 ** 29;

export async function findText(pieces: Pieces, problems: ProblemList): Promise<FoundText> {
  const doubts: string[] = [];
  const { start, length, packed } = await openingOf(pieces, problems);
  const { encoding, words } = encodingOf(start, doubts);

  const decoded = new TextBytes({ encoding, loneCr: false }).take(start);
  if ('code' in decoded) return problems.refuse(decoded.code, { line: decoded.linesBefore + 1 }, decoded.said);
  const text = new TextDecoder('utf-8').decode(decoded);
  const loneCr = text.includes('\r') && !text.includes('\n');
  const whole = length <= LOOKED_AT;
  const all = text.split(loneCr ? '\r' : /\r?\n/);
  // A last line that was cut by looking at the start alone says nothing.
  const lines = (whole ? all : all.slice(0, -1)).slice(0, MOST_LINES);
  while (lines.at(-1)?.trim() === '') lines.pop();
  return {
    start,
    ...(packed ? { unpackedBytes: length } : {}),
    encoding,
    encodingFound: packed ? `${words}, packed by gzip` : words,
    loneCr,
    lineEnds: text.includes('\r\n') ? 'CR LF' : 'LF',
    lines,
    doubts,
  };
}

/** The first bytes, and how many there are in all: where they are packed, to the end, so that a damaged file is found. */
async function openingOf(
  pieces: Pieces,
  problems: ProblemList,
): Promise<{ start: Uint8Array; length: number; packed: boolean }> {
  const kept: Uint8Array[] = [];
  let length = 0;
  let sent: Uint8Array | undefined;
  async function* watched() {
    for await (const piece of pieces) {
      if (sent === undefined || sent.length < 2)
        sent = Buffer.concat([sent ?? new Uint8Array(0), piece.subarray(0, 2)]);
      yield piece;
    }
  }
  const packed = () => sent !== undefined && isGzip(sent);
  try {
    for await (const piece of unpackedPieces(watched(), MOST_UNPACKED)) {
      if (length < LOOKED_AT) kept.push(piece.subarray(0, LOOKED_AT - length));
      length += piece.length;
      if (length > LOOKED_AT && !packed()) break;
    }
  } catch (error) {
    if (!(error instanceof PackedFault)) throw error;
    problems.refuse(error.fault.code, {}, error.fault.said);
  }
  return { start: Buffer.concat(kept), length, packed: packed() };
}

function encodingOf(start: Uint8Array, doubts: string[]): { encoding: Dialect['encoding']; words: string } {
  const zeros = (offset: number) => {
    let count = 0;
    for (let at = offset; at < Math.min(start.length, 512); at += 2) if (start[at] === 0) count++;
    return count > Math.min(start.length, 512) / 4;
  };
  if ((start[0] === 0xff && start[1] === 0xfe && start[2] !== 0) || zeros(1))
    return { encoding: 'utf-16le', words: 'UTF-16, low byte first' };
  if ((start[0] === 0xfe && start[1] === 0xff) || zeros(0))
    return { encoding: 'utf-16be', words: 'UTF-16, high byte first' };
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(start, { stream: true });
    return { encoding: 'utf-8', words: start.every((byte) => byte < 0x80) ? 'ASCII, read as UTF-8' : 'UTF-8' };
  } catch {
    const signs = start.some((byte) => byte >= 0x80 && byte < 0xa0);
    doubts.push(
      'The file is no UTF-8, and no file says which other encoding it is in: compare the letters outside ASCII with the logger.',
    );
    return signs
      ? { encoding: 'windows-1252', words: 'no UTF-8; taken as Windows-1252' }
      : { encoding: 'latin-1', words: 'no UTF-8; taken as Latin-1' };
  }
}
