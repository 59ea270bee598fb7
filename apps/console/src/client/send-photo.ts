import { type Photo } from '@breakbook/lab';
import { problemIn, serviceAway } from './problem-answer.js';

/** Attaches a photo, video or document to a run: its bytes as they are, and what it shows in the address. */
export async function sendPhoto(run: string, file: File, { triggerOffset, ...photo }: Photo): Promise<void> {
  const said = { run, ...photo, ...(triggerOffset === undefined ? {} : { triggerOffset: String(triggerOffset) }) };
  const answer = await fetch(`/api/attachments?${new URLSearchParams(said)}`, {
    method: 'POST',
    headers: { accept: 'application/json', 'content-type': file.type },
    body: file,
  }).catch((): never => {
    throw serviceAway();
  });
  if (!answer.ok) throw await problemIn(answer);
}
