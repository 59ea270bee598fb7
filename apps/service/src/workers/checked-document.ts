import { type Finding, type KeyList, verifyDocument } from '@breakbook/evidence';
import type { DocumentContents, RecomputedDocument } from '@breakbook/reports';
import { bytesOf, type RunFileSource } from './run-to-read.js';

/** What a file was found to be. */
export interface VerifiedFile {
  findings: Finding[];
  /** Where all of it holds: what it says of itself. */
  document?: { kind: string; number: string; revision: number; issuedAt: string };
  /** Where its numbers can be worked out again: the files of each of its runs, by their digests. */
  runs?: { run: string; files: { name: string; sha256: string }[] }[];
}

/** Is this file what the lab signed? Only a lab's own document, each answer of which holds, is told anything of. */
export async function verifiedFile({ file, keys }: { file: Uint8Array; keys: KeyList }): Promise<VerifiedFile> {
  const { findings, content } = await verifyDocument(file, { keys });
  if (content === undefined) return { findings };
  const whole = content as DocumentContents[keyof DocumentContents];
  const { document: kind, identity } = whole;
  const { number, revision, issuedAt } = identity;
  const document = { kind, number, revision, issuedAt };
  const { isRecomputable, runsIn } = await import('@breakbook/reports');
  if (!isRecomputable(whole)) return { findings, document };
  const runs = runsIn(whole).map(({ run, files }) => ({
    run,
    files: files.map(({ name, sha256: digest = '' }) => ({ name, sha256: digest })),
  }));
  return { findings, document, runs };
}

/** A verified document worked out again, from the files of its runs where these are kept here or attached to it. */
export async function recomputedFile({
  file,
  kept,
}: {
  file: Uint8Array;
  kept: (RunFileSource & { sha256: string })[];
}): Promise<RecomputedDocument> {
  const { recomputeSignedFile } = await import('@breakbook/reports');
  const here = new Map(kept.map((one) => [one.sha256, one]));
  const again = await recomputeSignedFile(file, (digest) => {
    const one = here.get(digest);
    return one && bytesOf(one);
  });
  if ('notRecomputed' in again) throw new Error(`A ${again.notRecomputed} was to be recomputed.`);
  return again.found;
}
