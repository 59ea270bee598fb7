import fs from 'node:fs';
import path from 'node:path';
import { DESCRIPTOR, DoesNotFit, type PackageSource } from '@breakbook/evidence';
import { Refusal, shown } from '@breakbook/lab';
import { type Entry, openPromise, type ZipFile } from 'yauzl';

/** More than any lot has; a zip that claims more is not unpacked. */
const MOST_FILES = 100_000;
const MOST_BYTES = 64 * 1024 ** 3;

/** The files of a package, from a folder or a zip; nothing is written anywhere. */
export async function withPackage<T>(at: string, work: (source: PackageSource) => Promise<T>): Promise<T> {
  if (!fs.existsSync(at))
    throw new Refusal({ code: 'file.missing', file: at, detail: `There is no folder or file ${shown(at)}.` });
  if (fs.statSync(at).isDirectory()) return work(folderSource(at));
  const zip = await opened(at);
  try {
    return await work(await zipSource(zip, at));
  } finally {
    zip.close();
  }
}

function folderSource(folder: string): PackageSource {
  if (!fs.existsSync(path.join(folder, DESCRIPTOR)))
    throw new Refusal({
      code: 'file.missing',
      file: DESCRIPTOR,
      detail: `${shown(folder)} holds no ${DESCRIPTOR}, so it is no package of a lot.`,
      action: 'Give the folder that a package was unpacked to, or its zip.',
    });
  const paths: string[] = [];
  const look = (within: string) => {
    for (const entry of fs.readdirSync(path.join(folder, within), { withFileTypes: true })) {
      const name = within === '' ? entry.name : `${within}/${entry.name}`;
      if (entry.isDirectory()) look(name);
      // A link is listed too: what is no plain file is not what was handed out.
      else paths.push(name);
    }
  };
  look('');
  return {
    paths,
    async *read(name) {
      const file = path.join(folder, ...name.split('/'));
      if (!fs.lstatSync(file).isFile()) throw new DoesNotFit(name, 'it is no plain file');
      yield* fs.createReadStream(file);
    },
  };
}

async function opened(at: string): Promise<ZipFile> {
  try {
    return await openPromise(at, { lazyEntries: true, autoClose: false, strictFileNames: true });
  } catch (error) {
    throw noZip(at, error);
  }
}

async function zipSource(zip: ZipFile, at: string): Promise<PackageSource> {
  const entries = new Map<string, Entry>();
  let bytes = 0;
  try {
    for await (const entry of zip.eachEntry()) {
      bytes += entry.uncompressedSize;
      if (entries.size >= MOST_FILES || bytes > MOST_BYTES)
        throw new Refusal({
          code: 'file.too-large',
          file: at,
          detail: `${shown(at)} would unpack to more than ${MOST_FILES} files or ${MOST_BYTES / 1024 ** 3} GiB.`,
        });
      if (entries.has(entry.fileName)) throw new DoesNotFit(entry.fileName, 'it stands in the zip twice');
      entries.set(entry.fileName, entry);
    }
  } catch (error) {
    if (error instanceof Refusal || error instanceof DoesNotFit) throw error;
    throw noZip(at, error);
  }
  return {
    paths: [...entries.keys()],
    async *read(name) {
      const entry = entries.get(name);
      if (!entry) throw new DoesNotFit(name, 'it is missing');
      try {
        // Ends in an error where more or less comes out than the zip says.
        for await (const piece of await zip.openReadStreamPromise(entry)) yield piece as Uint8Array;
      } catch (error) {
        throw new DoesNotFit(name, `it cannot be unpacked: ${(error as Error).message}`);
      }
    },
  };
}

function noZip(at: string, error: unknown): Refusal {
  return new Refusal({
    code: 'file.type-mismatch',
    file: at,
    detail: `${shown(at)} cannot be read as a zip: ${(error as Error).message}.`,
    expected: 'a package as it was handed out, or the folder it was unpacked to',
  });
}
