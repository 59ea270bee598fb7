import { Readable } from 'node:stream';
import { ZipFile } from 'yazl';
import type { PackedFile } from './package-files.js';

/** What is packed already gains nothing. */
const PACKED = new Set(['image/png', 'image/jpeg', 'application/pdf', 'video/mp4', 'video/quicktime']);

/** The files as one zip, in pieces; the bytes of each are read when its turn comes. */
export async function* zipOf(
  files: readonly PackedFile[],
  { made, read }: { made: Date; read: (rawId: string) => AsyncIterable<Uint8Array> },
): AsyncGenerator<Buffer> {
  const zip = new ZipFile();
  const output = zip.outputStream as Readable;
  zip.on('error', (error: Error) => output.destroy(error));
  for (const { path, content, mediatype } of files) {
    const options = { mtime: made, mode: 0o100644, compress: !PACKED.has(mediatype) };
    if ('rawId' in content)
      zip.addReadStreamLazy(path, { ...options, size: content.size }, (take) =>
        take(null, Readable.from(read(content.rawId))),
      );
    else zip.addBuffer(content, path, options);
  }
  zip.end();
  for await (const piece of output) yield piece as Buffer;
}
