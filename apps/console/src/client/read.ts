import { problemIn, serviceAway } from './problem-answer.js';

/** Reads one address of the service; throws a `ProblemAnswer` that says what went wrong and what to do. */
export async function read<T>(path: string, signal: AbortSignal): Promise<T> {
  const answer = await fetch(path, { signal, headers: { accept: 'application/json' } }).catch((reason: unknown) => {
    if (signal.aborted) throw reason;
    throw serviceAway();
  });
  if (!answer.ok) throw await problemIn(answer);
  return (await answer.json()) as T;
}
