import { z } from 'zod';
import { Instant, Key, Line, Paragraph } from './text.js';

/** What is said of a photo, a video or another file that is attached to a thing. */
export const Photo = z.strictObject({
  /** What it shows, as it is printed under it. */
  caption: Paragraph,
  /** Which of the photos that a failure mode asks for it is; left out for any other. */
  shows: Line.optional(),
  takenBy: Key,
  /** The camera or telephone. */
  device: Line,
  takenAt: Instant,
  /** Of a video: what the clock of the run's record shows as it begins, in seconds. */
  triggerOffset: z.number().min(-86_400).max(86_400).optional(),
});
export type Photo = z.infer<typeof Photo>;

/** Photos that an examination must have where it names a failure mode: of what, and how many at least. */
export const AskedPhotos = z.strictObject({ of: Line, least: z.number().int().min(1).max(20) });
export type AskedPhotos = z.infer<typeof AskedPhotos>;

/** Photos of one thing that are asked for, and how many of it there are. */
export interface PhotosOfThing extends AskedPhotos {
  present: number;
}

/** What is looked at to count the photos of a run. */
interface Photographed {
  examination?: { modes: readonly { code: string }[] } | undefined;
  photos?: readonly Pick<Photo, 'shows'>[] | undefined;
}

/**
 * Which photos do the failure modes of a run's examination ask for, and which are there? Where two modes ask for photos
 * of one thing, the larger number counts. A photo counts for what it is said to show, and for nothing else.
 */
export function photosAskedOf(
  modes: readonly { code: string; photos?: AskedPhotos[] | undefined }[],
  { examination, photos = [] }: Photographed,
): PhotosOfThing[] {
  const named = new Set((examination?.modes ?? []).map(({ code }) => code));
  const least = new Map<string, number>();
  for (const { code, photos: asked = [] } of modes)
    if (named.has(code)) for (const one of asked) least.set(one.of, Math.max(one.least, least.get(one.of) ?? 0));
  return [...least].map(([of, number]) => ({
    of,
    least: number,
    present: photos.filter(({ shows }) => shows === of).length,
  }));
}

/** Those of which there are too few. */
export function photosMissing(asked: readonly PhotosOfThing[]): PhotosOfThing[] {
  return asked.filter(({ least, present }) => present < least);
}

/** How many are asked for in all, and how many of those are there: more of one thing do not make up for another. */
export function photosInWords(asked: readonly PhotosOfThing[]): string {
  const sum = (of: (one: PhotosOfThing) => number) => asked.reduce((total, one) => total + of(one), 0);
  return `photos asked for: ${sum(({ least }) => least)}, present: ${sum(({ least, present }) => Math.min(least, present))}`;
}
