import type { Method, Photo } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In, Like } from 'typeorm';

/** Does any failure mode of this method ask for photos? Only then do those of its runs count. */
export function asksForPhotos({ failureModes }: Method): boolean {
  return failureModes.some(({ photos }) => photos !== undefined);
}

/** What is said of the photos of each of these runs, in the order in which they came. */
export async function photosOfRuns(reader: Reader, runIds: readonly string[]): Promise<Map<string, Photo[]>> {
  const rows = await reader.find(
    tables.Attachment,
    { runId: In([...runIds]), mediaType: Like('image/%') as never },
    { number: 'asc' },
  );
  const versions = await reader.latestOf(
    tables.AttachmentVersion,
    rows.map(({ id }) => id),
  );
  const photos = new Map<string, Photo[]>();
  for (const { id, runId } of rows) {
    const photo = versions.get(id)?.content;
    if (photo && runId !== null) photos.set(runId, [...(photos.get(runId) ?? []), photo]);
  }
  return photos;
}
