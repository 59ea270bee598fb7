import fs from 'node:fs';
import type { ReadRun, RunInput } from '@breakbook/signals';
import { signals } from '../arithmetic.js';

/** A file of a run in memory. */
export interface SentRunFile {
  name: string;
  bytes: Uint8Array;
}

/** A file of a run, in memory or spooled to disk: a long one is in memory only where it is read. */
export type RunFileSource = SentRunFile | { name: string; path: string };

/** All that reading a run needs, in a form that can be handed to another thread. */
export interface RunToRead extends Omit<RunInput, 'files' | 'onProgress'> {
  files: (RunFileSource & { sha256: string })[];
}

export async function readRunToRead({ files, ...input }: RunToRead): Promise<ReadRun> {
  const { readRun } = await signals();
  return readRun({
    ...input,
    files: files.map((file) => ({ name: file.name, sha256: file.sha256, bytes: bytesOf(file) })),
  });
}

export function bytesOf(file: RunFileSource): Uint8Array {
  return 'path' in file ? fs.readFileSync(file.path) : file.bytes;
}
