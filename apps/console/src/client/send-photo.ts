import type { Photo } from '@breakbook/lab';
import { sendBytes } from './send-bytes.js';

/** Attaches a photo, video or document to a run or specimen: its bytes as they are, and what it shows in the address. */
export async function sendPhoto(
  of: { run: string } | { specimen: string },
  file: File,
  { triggerOffset, ...photo }: Photo,
): Promise<void> {
  const said = { ...of, ...photo, ...(triggerOffset === undefined ? {} : { triggerOffset: String(triggerOffset) }) };
  await sendBytes('/api/attachments', file, { said });
}
