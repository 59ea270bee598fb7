import { attachedFiles, documentFiles, sha256, withoutSignature } from '@breakbook/evidence';
import {
  isRecomputable,
  type RecomputableContent,
  type RecomputedDocument,
  recomputeDocument,
  runsIn,
} from './recompute-document.js';

/** A signed file that is recomputed, or which kind it is where it does not hold what its numbers come from. */
export type RecomputedFile = { content: RecomputableContent; found: RecomputedDocument } | { notRecomputed: string };

/**
 * The numbers of a signed file worked out again: from its own data, from raw files attached to it, and from those that
 * `bytesWith` has of a digest. Whether the file is as it was signed is asked before.
 */
export async function recomputeSignedFile(
  file: Uint8Array,
  bytesWith: (sha256: string) => Uint8Array | undefined,
): Promise<RecomputedFile> {
  const { json, jws, record, raw } = documentFiles(await attachedFiles(file));
  const content = JSON.parse(json) as { document?: unknown };
  if (!isRecomputable(content)) return { notRecomputed: String(content.document) };
  const inside = new Map([...raw.values()].map((bytes) => [sha256(bytes), bytes]));
  const attached = [...raw].map(([name, bytes]) => ({ name, bytes }));
  const found = await recomputeDocument({
    content,
    file: { unsigned: withoutSignature(file), sealing: { jws, record, raw: attached } },
    filesOf: (run) => {
      const files = runsIn(content).find((one) => one.run === run)?.files ?? [];
      const there = files.flatMap(({ name, sha256: digest = '' }) => {
        const bytes = inside.get(digest) ?? bytesWith(digest);
        return bytes ? [{ name, bytes }] : [];
      });
      return there.length === files.length ? there : undefined;
    },
  });
  return { content, found };
}
