import { Refusal } from '@breakbook/lab';
import { type Reader, type SentPart, tables } from '@breakbook/records';

/** One record cannot be that of two runs: refused where a part is kept as a file of a run already. */
export async function refuseKnownBytes(reader: Reader, parts: SentPart[]): Promise<void> {
  for (const { bytes } of parts) {
    const raw = await reader.maybe(tables.RawBytes, { sha256: bytes.sha256 });
    const file = raw && (await reader.find(tables.RunFile, { rawId: raw.id }))[0];
    if (!file) continue;
    const run = await reader.one(tables.Run, file.runId);
    throw new Refusal({
      code: 'run.duplicate',
      file: file.name,
      detail: `These bytes are kept already as ${file.name} of run ${run.key}. Nothing was added; check which file belongs to this run.`,
    });
  }
}
