import { LOT_FOLDER, PackagePath } from '@breakbook/evidence';
import { LOT_FOLDER_DOCUMENTS, type LotBundle, OPTIONAL_LOT_DOCUMENTS, type Run } from '@breakbook/lab';

/** Which names the files of a lot's runs have in its package, by run and place among the files of the run. */
export type FileNames = ReadonlyMap<string, readonly string[]>;

/**
 * A run file keeps the name it was sent with, where that can be a path in a folder of any system and no other file has
 * it; else it gets one of its run and place. Who sends a file may call it anything, a path that leads out of the folder too.
 */
export function fileNames({ runs }: Pick<LotBundle, 'runs'>): FileNames {
  const wanted = new Map<string, number>();
  for (const { files } of runs)
    for (const { name } of files) wanted.set(name.toLowerCase(), (wanted.get(name.toLowerCase()) ?? 0) + 1);
  const taken = new Set<string>([...LOT_FOLDER_DOCUMENTS, ...OPTIONAL_LOT_DOCUMENTS, RENAMED]);
  const keeps = (name: string) => {
    const low = name.toLowerCase();
    const [first = ''] = low.split('/');
    return (
      PackagePath.safeParse(`${LOT_FOLDER}/${name}`).success &&
      !isReserved(name) &&
      wanted.get(low) === 1 &&
      !taken.has(first) &&
      // A file cannot be a folder as well.
      ![...wanted.keys()].some((other) => other.startsWith(`${low}/`))
    );
  };
  return new Map(
    runs.map(({ run, files }, place) => [
      run,
      files.map(({ name }, index) => (keeps(name) ? name : `${RENAMED}/${place + 1}-${index + 1}.dat`)),
    ]),
  );
}

const RENAMED = 'renamed';

/** Names that stand for a device on some systems, whatever their ending. */
function isReserved(name: string): boolean {
  return name.split('/').some((part) => /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i.test(part));
}

/** The lot as its folder in the package has it: the same, with the names that its files have there. */
export function underNames(bundle: LotBundle, names: FileNames): LotBundle {
  return { ...bundle, runs: bundle.runs.map((run) => renamed(run, names.get(run.run) ?? [])) };
}

function renamed(run: Run, names: readonly string[]): Run {
  const files = run.files.map((file, index) => ({ ...file, name: names[index] ?? file.name }));
  if (!run.passages) return { ...run, files };
  const nameOf = new Map(run.files.map(({ name }, index) => [name, names[index] ?? name]));
  const passages = run.passages.map((one) =>
    one.file === undefined ? one : { ...one, file: nameOf.get(one.file) ?? one.file },
  );
  return { ...run, files, passages };
}
