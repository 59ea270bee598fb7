/** How much one upload may hold. The figures stand in docs/formats.md. */
export const UPLOAD_BOUNDS = {
  /** Of the description of the run, as for any JSON. */
  descriptionBytes: 256 * 1024,
  files: 24,
  /** Of one file: half an hour of ten channels at 200 samples a second. */
  fileBytes: 128 * 1024 * 1024,
  /** Of all files of a run together. */
  bytes: 256 * 1024 * 1024,
  /** Of a packed file that a layout is tried on, once it is unpacked. */
  unpackedBytes: 1024 * 1024 * 1024,
  nameBytes: 1000,
} as const;
