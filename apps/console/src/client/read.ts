import { ProblemAnswer, problemIn, serviceAway } from './problem-answer.js';

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

/** Did the service refuse because nobody is signed in? */
export function isSignedOut(error: unknown): boolean {
  return error instanceof ProblemAnswer && error.status === 401 && !needsPassphrase(error);
}

/** Did it refuse for want of somebody signed in, or of what they give beside the passphrase? */
export function isAskedWho(error: unknown): boolean {
  return error instanceof ProblemAnswer && error.status === 401;
}

/** Did it refuse because whoever is signed in gave the passphrase too long ago for what was asked? */
export function needsPassphrase(error: unknown): boolean {
  return error instanceof ProblemAnswer && error.refused.problems.some(({ code }) => code === 'auth.again');
}
