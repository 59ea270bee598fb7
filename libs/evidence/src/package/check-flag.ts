import { readJson } from '@breakbook/lab';
import { digestOf } from '../digest.js';
import { SAFETY_FLAG } from './data-package.js';
import { contentsOf, keyOf } from './lot-rests-on-rows.js';
import type { NamedRow } from './package-ledger.js';
import { bytesOfFile, DoesNotFit, type PackageSource } from './package-source.js';

/** Where a package is evidence for a safety flag: is every word of the flag what a row of the ledger says? */
export async function checkFlag(source: PackageSource, rows: readonly NamedRow[]): Promise<void> {
  if (!source.paths.includes(SAFETY_FLAG.flag)) return;
  const said = readJson(await bytesOfFile(source, SAFETY_FLAG.flag), SAFETY_FLAG.flag);
  const contents = contentsOf(rows);
  if (!Array.isArray(said) || said.length === 0) throw new DoesNotFit(SAFETY_FLAG.flag, 'it says nothing');
  for (const [index, { content }] of (said as { content: unknown }[]).entries())
    if (!contents.has(keyOf('safety_flag_version', digestOf(content))))
      throw new DoesNotFit(SAFETY_FLAG.flag, `version ${index + 1} is not what any row of safety_flag_version says`);
}
