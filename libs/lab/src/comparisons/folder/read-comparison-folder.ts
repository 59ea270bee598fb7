import type { LotBundle } from '../../lot-bundle.js';
import { readJson } from '../../lot-folder/read-json.js';
import { LOT_FOLDER_DOCUMENTS, OPTIONAL_LOT_DOCUMENTS, readLotFolder } from '../../lot-folder/read-lot-folder.js';
import { type Problem, Refusal, shown } from '../../problems.js';
import { schemaProblems } from '../../schema-problems.js';
import { ComparisonDocument } from '../case.js';
import { comparisonFolderProblems } from './comparison-folder-problems.js';

/** The document of a comparison folder, where the caller names no other. */
export const COMPARISON_DOCUMENT = 'comparison.json';
/** Where the lot folders of a comparison folder lie. */
export const COMPARISON_LOTS = 'lots';

/** A comparison with the lots that its reference, groups and items are of. */
export interface ComparisonFolder {
  document: ComparisonDocument;
  /** By the name of the folder they lie in. */
  lots: { folder: string; bundle: LotBundle }[];
}

/**
 * A comparison folder's documents as one, or a refusal that names every problem by file and place. `documents` maps names
 * within the folder, such as `comparison.json` and `lots/D42R-2603/lot.json`, to their bytes; `name` says which document is
 * the comparison, for a folder that holds several over the same lots.
 */
export function readComparisonFolder(
  documents: ReadonlyMap<string, Uint8Array>,
  name: string = COMPARISON_DOCUMENT,
): ComparisonFolder {
  const problems: Problem[] = [];
  const read = <T>(reading: () => T): T | undefined => {
    try {
      return reading();
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      problems.push(...error.problems);
      return undefined;
    }
  };

  const document = read(() => readDocument(documents.get(name), name));
  const lots = lotsNamed(documents).flatMap((folder) => {
    const bundle = read(() => readLot(documents, folder));
    return bundle ? [{ folder, bundle }] : [];
  });
  if (lots.length === 0 && problems.length === 0) problems.push(withoutLots());
  if (problems.length > 0 || !document) throw new Refusal(problems);

  const wrong = comparisonFolderProblems(document, lots, name);
  if (wrong.length > 0) throw new Refusal(wrong);
  return { document, lots };
}

function readDocument(bytes: Uint8Array | undefined, name: string): ComparisonDocument {
  if (!bytes)
    throw new Refusal({
      code: 'file.missing',
      file: name,
      detail: `${shown(name)} is missing. A comparison folder holds it beside ${COMPARISON_LOTS}/, with a lot folder for each lot.`,
    });
  const value = readJson(bytes, name);
  const parsed = ComparisonDocument.safeParse(value);
  if (!parsed.success) throw new Refusal(schemaProblems(parsed.error, value, name));
  return parsed.data;
}

/** Names of the folders under `lots/`, in order. */
function lotsNamed(documents: ReadonlyMap<string, Uint8Array>): string[] {
  const names = [...documents.keys()].flatMap((path) => {
    const [top, lot, file] = path.split('/');
    return top === COMPARISON_LOTS && lot !== undefined && file !== undefined ? [lot] : [];
  });
  return [...new Set(names)].sort();
}

/** A lot folder's problems are told with the folder, because every lot has files of the same names. */
function readLot(documents: ReadonlyMap<string, Uint8Array>, folder: string): LotBundle {
  const at = `${COMPARISON_LOTS}/${folder}`;
  const own = [...LOT_FOLDER_DOCUMENTS, ...OPTIONAL_LOT_DOCUMENTS].flatMap((file): [string, Uint8Array][] => {
    const bytes = documents.get(`${at}/${file}`);
    return bytes ? [[file, bytes]] : [];
  });
  try {
    return readLotFolder(new Map(own));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new Refusal(
      error.problems.map((problem) => ({
        ...problem,
        ...(problem.file === undefined ? {} : { file: `${at}/${problem.file}` }),
        detail: `${shown(at)}: ${problem.detail}`,
      })),
    );
  }
}

function withoutLots(): Problem {
  return {
    code: 'file.missing',
    file: COMPARISON_LOTS,
    detail: `${COMPARISON_LOTS}/ holds no lot folder. Put a lot folder there for each lot of the reference and of the items.`,
  };
}
