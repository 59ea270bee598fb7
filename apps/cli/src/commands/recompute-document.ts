import fs from 'node:fs';
import path from 'node:path';
import { sha256, verifyDocument } from '@breakbook/evidence';
import { EXIT, Refusal, SOFTWARE, shown } from '@breakbook/lab';
import { type RecomputableContent, type RecomputedDocument, recomputeSignedFile } from '@breakbook/reports';
import { printable, wrapped } from '../terminal.js';
import { documentAt } from './verify.js';

export interface RecomputeDocumentOptions {
  /** A folder with the raw files of the runs, under whatever names; their digests tell which is which. */
  files?: string;
  json?: boolean;
}

/** More differences are counted, not listed. */
const MOST_LISTED = 20;

/** Are the numbers of a document what its own data come to? Needs no service and no database. */
export async function recomputeDocumentCommand(file: string, options: RecomputeDocumentOptions): Promise<number> {
  const bytes = documentAt(file);
  const { findings } = await verifyDocument(bytes);
  const altered = findings.find(({ holds }) => holds === false);
  if (altered) {
    console.log(wrapped(printable(`${file} is not as it was signed, so nothing is recomputed: ${altered.says}.`)));
    return EXIT.doesNotMeet;
  }
  const byDigest = new Map(filesUnder(options.files).map((one) => [sha256(one), one]));
  const again = await recomputeSignedFile(bytes, (digest) => byDigest.get(digest));
  if ('notRecomputed' in again)
    throw new Refusal({
      code: 'file.type-mismatch',
      file,
      detail: `${shown(file)} is a ${again.notRecomputed} that does not hold what its numbers come from, so they cannot be worked out again.`,
      expected:
        'a lot test report, run sheet, specimen record, certificate of test, label sheet or comparison report of this version',
    });
  const { content, found } = again;
  console.log(options.json ? JSON.stringify(found, null, 2) : sheetOf(file, content, found));
  return found.differences.length === 0 && found.pagesAlike !== false ? EXIT.done : EXIT.doesNotMeet;
}

function filesUnder(folder: string | undefined): Uint8Array[] {
  if (folder === undefined) return [];
  try {
    return fs
      .readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((one) => one.isFile())
      .map((one) => fs.readFileSync(path.join(one.parentPath, one.name)));
  } catch (error) {
    throw new Refusal({
      code: 'file.missing',
      file: folder,
      detail: `${shown(folder)} cannot be read: ${(error as Error).message}`,
      expected: 'a folder with the raw files of the runs',
    });
  }
}

function sheetOf(file: string, { document, identity }: RecomputableContent, found: RecomputedDocument): string {
  const { numbers, since, filesRead, differences, pagesAlike } = found;
  const listed = differences
    .slice(0, MOST_LISTED)
    .map(({ place, kept, now }) =>
      wrapped(printable(`${place}: was ${kept ?? 'not there'}, is ${now ?? 'not there'}`), 96, '  '),
    );
  const more = differences.length - listed.length;
  return [
    `${printable(file)} · ${identity.number} rev. ${identity.revision} · now by ${SOFTWARE}`,
    numbers === 0
      ? 'It has no numbers of a test.'
      : differences.length === 0
        ? `${numbers} numbers: each identical to the last bit.`
        : `${numbers} numbers: ${differences.length} places differ since ${since.methods.join(', ')}, ${since.software}:`,
    ...listed,
    ...(more > 0 ? [`  and ${more} more`] : []),
    ...(numbers === 0
      ? []
      : [
          filesRead
            ? 'The raw files were read again.'
            : wrapped(
                document === 'comparison report'
                  ? 'What each run showed was taken as it stands in the document: the reports of the lots tell how it was read.'
                  : 'The raw files are not at hand, so what each run showed was taken as it stands in the document; give a folder with them by --files.',
              ),
        ]),
    pagesAlike
      ? 'The pages are laid out from these data, to the byte.'
      : wrapped('The pages are NOT those that this version of the software lays out from these data.'),
  ].join('\n');
}
