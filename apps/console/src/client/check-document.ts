import type { DocumentCheck } from './answers.js';
import { ProblemAnswer } from './problem-answer.js';
import { sendBytes } from './send-bytes.js';

/** The service takes no larger one (docs/openapi.json), in bytes. */
const LARGEST = 32 * 1024 * 1024;

/** Has a document laid beside what the lab signed. Nothing of it is kept. */
export async function checkDocument(file: File): Promise<DocumentCheck> {
  if (file.size > LARGEST) throw tooLarge(file);
  const answer = await sendBytes('/api/documents/check', file, { type: 'application/pdf' });
  return (await answer.json()) as DocumentCheck;
}

/** Said before it is sent: a service that refuses a body halfway may be heard as a line that broke. */
function tooLarge({ name, size }: File): ProblemAnswer {
  return new ProblemAnswer(
    413,
    'Too large',
    `${name} has ${(size / 2 ** 20).toFixed(0)} MiB; on this page at most ${LARGEST / 2 ** 20} MiB are checked.`,
    'Check it with the commands "breakbook verify" and "breakbook recompute".',
  );
}
