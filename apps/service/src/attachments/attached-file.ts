import { Refusal } from '@breakbook/lab';
import type { tables } from '@breakbook/records';
import { movieIn } from './movie.js';
import { pictureIn } from './picture.js';
import { quietPdfIn } from './quiet-pdf.js';
import { recordedInPhoto } from './recorded-in-file.js';

/** What an attached file is, told from its own bytes. */
export type AttachedFile = Pick<tables.Attachment, 'mediaType' | 'width' | 'height' | 'recorded'>;

/** A telephone's photo is a third of it; a strike filmed at a thousand pictures a second is half of that. */
export const LARGEST = { photo: 16 * 1024 * 1024, other: 64 * 1024 * 1024 };

/** Reads what the bytes are, whatever the sender calls them. Everything that is none of these, or that could act, is refused. */
export function attachedFileIn(bytes: Buffer): AttachedFile {
  const movie = movieIn(bytes);
  if (movie) return { mediaType: movie.mediaType, width: null, height: null, recorded: movie.recorded ?? null };
  if (quietPdfIn(bytes)) return { mediaType: 'application/pdf', width: null, height: null, recorded: null };
  if (bytes.length > LARGEST.photo)
    throw new Refusal({
      code: 'body.too-large',
      detail: `The photo has ${bytes.length} bytes; ${LARGEST.photo / 1024 ** 2} MiB are taken.`,
      action: 'Send it at a smaller size.',
    });
  return { ...pictureIn(bytes), recorded: recordedInPhoto(bytes) ?? null };
}

/** By which name a file is handed out. */
export function fileName({ number, mediaType }: Pick<tables.Attachment, 'number' | 'mediaType'>): string {
  const [word, ending] = NAMES[mediaType];
  return `${word}-${number}.${ending}`;
}

const NAMES: Record<AttachedFile['mediaType'], [word: string, ending: string]> = {
  'image/png': ['photo', 'png'],
  'image/jpeg': ['photo', 'jpg'],
  'video/mp4': ['video', 'mp4'],
  'video/quicktime': ['video', 'mov'],
  'application/pdf': ['file', 'pdf'],
};
