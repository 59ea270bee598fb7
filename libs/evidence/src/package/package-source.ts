/** The files of a package, wherever they lie: a folder, a zip. */
export interface PackageSource {
  /** Every file by its path, with slashes. */
  readonly paths: readonly string[];
  /** The bytes of one, in pieces. */
  read(path: string): AsyncIterable<Uint8Array>;
}

/** A file of a package that is not as it was, and why. */
export class DoesNotFit extends Error {
  override name = 'DoesNotFit';

  constructor(
    readonly path: string,
    readonly because: string,
  ) {
    super(`${path}: ${because}`);
  }
}

/** Descriptors and documents of a lot are read whole; more than this is none. */
const LARGEST_DOCUMENT = 256 * 1024 * 1024;

export async function bytesOfFile(source: PackageSource, path: string): Promise<Buffer> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of source.read(path)) {
    size += piece.byteLength;
    if (size > LARGEST_DOCUMENT) throw new DoesNotFit(path, `it is longer than ${LARGEST_DOCUMENT} bytes`);
    pieces.push(piece);
  }
  return Buffer.concat(pieces);
}

/** A file as text. Bytes that are no UTF-8 are never replaced. */
export async function textOfFile(source: PackageSource, path: string): Promise<string> {
  const bytes = await bytesOfFile(source, path);
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new DoesNotFit(path, 'it is not UTF-8');
  }
}

/** The lines of a file one by one, each ended by a line feed, so that a long ledger need not fit in memory. */
export async function* linesOfFile(source: PackageSource, path: string): AsyncGenerator<{ line: string; at: number }> {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  let rest = '';
  let at = 0;
  for await (const piece of source.read(path)) {
    let text: string;
    try {
      text = decoder.decode(piece, { stream: true });
    } catch {
      throw new DoesNotFit(path, 'it is not UTF-8');
    }
    const lines = (rest + text).split('\n');
    rest = lines.pop() ?? '';
    if (rest.length > LARGEST_DOCUMENT) throw new DoesNotFit(path, 'a line of it does not end');
    for (const line of lines) yield { line, at: ++at };
  }
  if (rest !== '') throw new DoesNotFit(path, 'its last line has no end');
}
