import { problemIn, serviceAway } from './problem-answer.js';

/** Sends a file as the body of a request, its bytes as they are; what is said of it stands in the address. */
export async function sendBytes(
  path: string,
  file: Blob,
  { type = file.type, said = {} }: { type?: string; said?: Record<string, string> } = {},
): Promise<Response> {
  const search = new URLSearchParams(said);
  const answer = await fetch(search.size === 0 ? path : `${path}?${search}`, {
    method: 'POST',
    headers: { accept: 'application/json', 'content-type': type },
    body: file,
  }).catch((): never => {
    throw serviceAway();
  });
  if (!answer.ok) throw await problemIn(answer);
  return answer;
}
