/** How large a run file may be. */
export interface FileBounds {
  bytes: number;
  rows: number;
  columns: number;
  lineBytes: number;
  nameBytes: number;
}

export const FILE_BOUNDS: FileBounds = {
  bytes: 2 ** 31,
  rows: 20_000_000,
  columns: 200,
  lineBytes: 65_536,
  nameBytes: 1000,
};

/** The bounds in force where some of them are given. */
export function readingBounds(bounds: Partial<FileBounds> = {}): FileBounds {
  return { ...FILE_BOUNDS, ...bounds };
}
