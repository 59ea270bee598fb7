import fs from 'node:fs';
import path from 'node:path';

/** A folder or file of keys that others could read or change. */
export class KeysUnsafe extends Error {}

/**
 * The text of a key file in a folder outside the database, which its owner alone may enter. Made when first asked for;
 * a key of the lab's own is put there beforehand.
 */
export function keptKey(folder: string, name: string, make: () => string): { text: string; file: string } {
  fs.mkdirSync(folder, { recursive: true, mode: 0o700 });
  requireOwn(folder);
  const file = path.join(folder, name);
  if (!fs.existsSync(file)) makeFile(file, make());
  requireOwn(file);
  return { text: fs.readFileSync(file, 'utf8'), file };
}

/** Written beside its place first, so that a process killed half way leaves no half key. */
function makeFile(file: string, text: string): void {
  const beside = `${file}.${process.pid}`;
  const handle = fs.openSync(beside, 'wx', 0o600);
  try {
    fs.writeSync(handle, text);
    fs.fsyncSync(handle);
  } finally {
    fs.closeSync(handle);
  }
  try {
    fs.linkSync(beside, file);
  } catch (error) {
    // Another process made it in the same moment; that one holds.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  } finally {
    fs.rmSync(beside);
  }
}

function requireOwn(place: string): void {
  const { mode, uid } = fs.statSync(place);
  if ((mode & 0o077) !== 0 || (process.getuid && uid !== process.getuid()))
    throw new KeysUnsafe(
      `${place} holds keys and is not its owner's alone (owner ${uid}, mode ${(mode & 0o777).toString(8)}). ` +
        'Take every right on it from group and others, and give it to the user who runs Breakbook.',
    );
}
