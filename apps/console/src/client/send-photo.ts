import { type Photo } from '@breakbook/lab';
import { sendBytes } from './send-bytes.js';

/** Attaches a photo, video or document to a run: its bytes as they are, and what it shows in the address. */
export async function sendPhoto(run: string, file: File, { triggerOffset, ...photo }: Photo): Promise<void> {
  const said = { run, ...photo, ...(triggerOffset === undefined ? {} : { triggerOffset: String(triggerOffset) }) };
  await sendBytes('/api/attachments', file, { said });
}
