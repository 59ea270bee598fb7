import {
  attachedFiles,
  documentFiles,
  type Finding,
  type KeyList,
  sha256,
  verifyDocument,
  withoutSignature,
} from '@breakbook/evidence';
import type { DocumentContents, LotReportContent, RecomputedDocument } from '@breakbook/reports';
import { bytesOf, type RunFileSource } from './run-to-read.js';

/** What a file was found to be. */
export interface VerifiedFile {
  findings: Finding[];
  /** Where all of it holds: what it says of itself. */
  document?: { kind: string; number: string; revision: number; issuedAt: string };
  /** Where it is a lot test report: the files of each run, by their digests. */
  runs?: { run: string; files: { name: string; sha256: string }[] }[];
}

/** Is this file what the lab signed? Only a lab's own document, each answer of which holds, is told anything of. */
export async function verifiedFile({ file, keys }: { file: Uint8Array; keys: KeyList }): Promise<VerifiedFile> {
  const { findings, content } = await verifyDocument(file, { keys });
  if (content === undefined) return { findings };
  const { document: kind, identity, ...rest } = content as DocumentContents[keyof DocumentContents];
  const { number, revision, issuedAt } = identity;
  const document = { kind, number, revision, issuedAt };
  if (kind !== 'lot test report') return { findings, document };
  const { bundle } = rest as unknown as LotReportContent;
  const runs = bundle.runs.map(({ run, files }) => ({
    run,
    files: files.map(({ name, sha256: digest = '' }) => ({ name, sha256: digest })),
  }));
  return { findings, document, runs };
}

/** A verified lot test report worked out again, from the files of its runs where these are kept here or attached to it. */
export async function recomputedFile({
  file,
  kept,
}: {
  file: Uint8Array;
  kept: (RunFileSource & { sha256: string })[];
}): Promise<RecomputedDocument> {
  const { recomputeDocument } = await import('@breakbook/reports');
  const attached = documentFiles(await attachedFiles(file));
  const content = JSON.parse(attached.json) as LotReportContent;
  const inside = new Map([...attached.raw.values()].map((bytes) => [sha256(bytes), bytes]));
  const here = new Map(kept.map((one) => [one.sha256, one]));
  const bytesWith = (digest: string) => {
    const one = here.get(digest);
    return one ? bytesOf(one) : inside.get(digest);
  };
  const raw = [...attached.raw].map(([name, bytes]) => ({ name, bytes }));
  return recomputeDocument({
    content,
    file: { unsigned: withoutSignature(file), sealing: { jws: attached.jws, record: attached.record, raw } },
    filesOf: (run) => {
      const files = content.bundle.runs.find((one) => one.run === run)?.files ?? [];
      const found = files.flatMap(({ name, sha256: digest = '' }) => {
        const bytes = bytesWith(digest);
        return bytes ? [{ name, bytes }] : [];
      });
      return found.length === files.length ? found : undefined;
    },
  });
}
