import { checkPackage, DoesNotFit, type NoteKey, type PackageBroken, parseNoteKey } from '@breakbook/evidence';
import { EXIT, Refusal, shown } from '@breakbook/lab';
import { withPackage } from '../package-on-disk.js';
import { Progress, printable, wrapped } from '../terminal.js';

export interface CheckOptions {
  /** The public key of the lab's ledger, as one line. */
  key?: string;
}

/** Is a package of a lot as it was handed out? Needs no service, no database and no network. */
export async function checkCommand(at: string, { key }: CheckOptions): Promise<number> {
  const known = key === undefined ? undefined : noteKey(key);
  const progress = new Progress('checking files');
  const found = await withPackage(at, (source) =>
    checkPackage(source, {
      ...(known ? { key: known } : {}),
      onProgress: (done, of) => progress.report(done, of),
    }),
  ).catch((error: unknown): PackageBroken => {
    if (error instanceof DoesNotFit) return { holds: false, path: error.path, because: error.because };
    throw error;
  });
  progress.end();
  if (!found.holds) {
    console.log(wrapped(printable(`Not as it was handed out, first at ${found.path}: ${found.because}.`)));
    return EXIT.doesNotMeet;
  }
  const { lot, files, entries, rows, size, origin } = found;
  console.log(
    wrapped(
      printable(
        `Lot ${lot}: everything is as it was handed out: ${files} files, ${rows} rows, ${entries} entries of the ledger ` +
          `of ${origin}, which had ${size}.`,
      ),
    ),
  );
  if (!known)
    console.log(
      wrapped(
        'No key was given, so this shows only that the package fits itself. Ask the lab for the key of its ledger by ' +
          'another way than this package came, and check again with --key.',
      ),
    );
  return EXIT.done;
}

function noteKey(text: string): NoteKey {
  try {
    return parseNoteKey(text);
  } catch (error) {
    throw new Refusal({
      code: 'query.invalid',
      parameter: '--key',
      detail: `${shown(text)} is no key of a ledger: ${(error as Error).message}`,
      expected: 'the key as the lab hands it out, one line such as name+1a2b3c4d+base64',
    });
  }
}
