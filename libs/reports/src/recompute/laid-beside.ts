import type { FileBytes } from '@breakbook/acceptance';

/** Numbers of a document as it has them, and as they are worked out now. */
export interface LaidBeside {
  kept: object;
  now: object;
  /** By which software they came to be, and by which methods the runs were read. */
  since: { software: string; methods: string[] };
}

/** The files of each run; undefined of a run whose files are not at hand. */
export type FilesOfRuns = ReadonlyMap<string, FileBytes[] | undefined>;

/** The files of a run, where those of every run of the document are at hand. */
export function filesRead(files: FilesOfRuns): boolean {
  return [...files.values()].every((own) => own !== undefined);
}
