import { type ProblemAnswer, problemIn, serviceAway } from './problem-answer.js';

/** Reads one address of the service; throws a `ProblemAnswer` that says what went wrong and what to do. */
export async function read<T>(path: string, signal?: AbortSignal): Promise<T> {
  const answer = await fetch(path, {
    ...(signal ? { signal } : {}),
    headers: { accept: 'application/json' },
  }).catch((reason: unknown) => {
    if (signal?.aborted) throw reason;
    throw serviceAway();
  });
  if (!answer.ok) throw await problemIn(answer);
  return (await answer.json()) as T;
}

/**
 * Sends something to the service; what comes back is undefined where there is nothing to say. `follows` is the version
 * that a change follows, so that nobody overwrites what another has written meanwhile.
 */
export async function send<T>(path: string, body?: unknown, follows?: number): Promise<T> {
  const headers: Record<string, string> = { accept: 'application/json' };
  if (body !== undefined) headers['content-type'] = 'application/json';
  if (follows !== undefined) headers['if-match'] = `"${follows}"`;
  const answer = await fetch(path, {
    method: 'POST',
    headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  }).catch((): never => {
    throw serviceAway();
  });
  if (!answer.ok) throw await problemIn(answer);
  return (answer.status === 204 ? undefined : await answer.json()) as T;
}

/** Did the service refuse because nobody is signed in? */
export function isSignedOut(error: unknown): boolean {
  return (error as Partial<ProblemAnswer> | null)?.status === 401;
}
