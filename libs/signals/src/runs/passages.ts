import { type Method, Refusal, type Run, type RunPassage, shown } from '@breakbook/lab';
import type { SentFile } from './run-file.js';

/** One file of a run, with the passages it records; none where the run names none. */
export interface RunRecord {
  file: SentFile;
  passages: RunPassage[];
}

/** A run's files, in the order of its passages. */
export interface RunRecords {
  records: RunRecord[];
  /** Passages that no file records. */
  unrecorded: RunPassage[];
}

/**
 * Which file records which passage? Each passage names its file. One file that no passage names records the whole run.
 * Throws a `Refusal` where it is not known what a file records, or where a method that reads channels has none.
 */
export function recordsOf(files: readonly SentFile[], run: Run, method: Method): RunRecords {
  const passages = run.passages ?? [];
  if (files.length === 0) {
    if (method.channels.some(({ required }) => required)) throw noFile(run);
    return { records: [], unrecorded: passages };
  }

  const names = files.map(({ name }) => name);
  for (const { passage, file } of passages)
    if (file !== undefined && !names.includes(file))
      throw new Refusal({
        code: 'file.missing',
        file: shown(file),
        detail: `Run ${run.run}, passage ${passage}: it names the file ${shown(file)}, and that did not come.`,
        found: shown(names.join(', ')),
        expected: shown(file),
        action: 'Send the file of each passage with the run, or correct the name.',
      });

  const [only] = files;
  if (only && files.length === 1 && passages.every(({ file }) => file === undefined))
    return { records: [{ file: only, passages }], unrecorded: [] };
  const records = files.map((file) => ({ file, passages: passages.filter((one) => one.file === file.name) }));
  const unclaimed = records.find((one) => one.passages.length === 0);
  if (unclaimed)
    throw new Refusal({
      code: passages.length === 0 ? 'request.too-many-parts' : 'meta.unknown',
      file: shown(unclaimed.file.name),
      detail:
        passages.length === 0
          ? `Run ${run.run} came with ${files.length} files and names no passages, so it is not known what each records.`
          : `${shown(unclaimed.file.name)}: no passage of run ${run.run} names this file.`,
      found: shown(names.join(', ')),
      expected: 'passages of the run, each with its file',
      action:
        'Have each passage (a strike, a stage) name the file that recorded it, or send the file with its own run.',
    });
  return {
    records: records.sort((a, b) => (a.passages[0]?.passage ?? 0) - (b.passages[0]?.passage ?? 0)),
    unrecorded: passages.filter(({ file }) => file === undefined),
  };
}

/** A record of a strike holds one strike: what struck first would hide behind what struck last. */
export function strikePerFile(records: readonly RunRecord[], run: Run): void {
  const shared = records.find(({ passages }) => passages.length > 1);
  if (!shared) return;
  throw new Refusal({
    code: 'meta.unknown',
    file: shown(shared.file.name),
    detail: `${shown(shared.file.name)}: run ${run.run} takes this file for passages ${shared.passages.map(({ passage }) => passage).join(', ')}, and a file holds one strike.`,
    expected: 'one file for each strike',
    action: 'Have each strike name its own file.',
  });
}

/** The one file of a run that is one loading. */
export function onlyRecord(files: readonly SentFile[], run: Run): RunRecord {
  const [file] = files;
  if (!file) throw noFile(run);
  if (files.length > 1)
    throw new Refusal({
      code: 'request.too-many-parts',
      detail: `Run ${run.run} came with ${files.length} files; a run of this method is one loading, read from one file.`,
      found: shown(files.map(({ name }) => name).join(', ')),
      expected: 'one run file',
      action: 'Send the file that holds every channel of the run.',
    });
  return { file, passages: [] };
}

function noFile(run: Run): Refusal {
  return new Refusal({
    code: 'file.missing',
    detail: `Run ${run.run} came without a file, and its method reads one.`,
    expected: 'one run file',
    action: 'Send the file of the run with it.',
  });
}
