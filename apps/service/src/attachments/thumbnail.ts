import { Refusal } from '@breakbook/lab';

/** Longest side of a small copy, in pixels. */
export const THUMBNAIL_SIDE = 480;
/** As many as a photo may have to be taken in at all (see `picture.ts`). */
const MOST_PIXELS = 100e6;

/** A small copy of a photo, and the program that made it. */
export interface Thumbnail {
  bytes: Uint8Array;
  madeBy: string;
}

/**
 * A small copy of a PNG or JPEG for lists: upright as its camera says, nothing else of the camera's notes in it. It is
 * derived and no evidence: it is made when it is asked for and kept nowhere.
 *
 * Only the two decoders that photos need are let in. A photo that they cannot read is refused with a reason: its bytes
 * are kept all the same, and can be taken away.
 */
export async function thumbnailOf(photo: Uint8Array): Promise<Thumbnail> {
  // Loaded here, in the thread that does the work, and nowhere else.
  const { default: sharp } = await import('sharp');
  sharp.block({ operation: ['VipsForeignLoad'] });
  sharp.unblock({ operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer'] });
  try {
    const bytes = await sharp(photo, { limitInputPixels: MOST_PIXELS, failOn: 'error', sequentialRead: true })
      .autoOrient()
      .resize(THUMBNAIL_SIDE, THUMBNAIL_SIDE, { fit: 'inside', withoutEnlargement: true })
      .flatten({ background: 'white' })
      .jpeg({ quality: 78 })
      .toBuffer();
    return { bytes, madeBy: `sharp ${sharp.versions.sharp}, libvips ${sharp.versions.vips}` };
  } catch (error) {
    throw new Refusal({
      code: 'file.type-mismatch',
      detail: `The photo could not be made smaller: ${error instanceof Error ? error.message.split('\n')[0] : 'it could not be read'}.`,
      action: 'Take the photo itself, which is kept as it was sent.',
    });
  }
}
