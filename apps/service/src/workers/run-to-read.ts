import fs from 'node:fs';
import { type ReadRun, type RunInput, readRun } from '@breakbook/signals';

/** A file of a run as it was sent: in memory, or spooled to disk so that a long one is never in memory twice. */
export type SentRunFile = { name: string } & ({ bytes: Uint8Array } | { path: string });

/** All that reading a run needs, in a form that can be handed to another thread. */
export interface RunToRead extends Omit<RunInput, 'files' | 'onProgress'> {
  files: (SentRunFile & { sha256: string })[];
}

export function readRunToRead({ files, ...input }: RunToRead): ReadRun {
  return readRun({
    ...input,
    files: files.map((file) => ({ name: file.name, sha256: file.sha256, bytes: bytesOf(file) })),
  });
}

export function bytesOf(file: SentRunFile): Uint8Array {
  return 'path' in file ? fs.readFileSync(file.path) : file.bytes;
}
