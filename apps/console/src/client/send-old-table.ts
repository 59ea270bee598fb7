import { type OldTable, type OldTableTrial } from './answers.js';
import { problemIn, serviceAway } from './problem-answer.js';

/** Has a table of old results looked through: what would be stored. Nothing is. */
export function tryOldTable(file: File): Promise<OldTableTrial> {
  return sent<OldTableTrial>('/api/old-results/trials', { name: file.name }, file);
}

/** Takes a table of old results over, whole or not at all. */
export function takeOldTable(file: File, note: string): Promise<OldTable> {
  return sent<OldTable>('/api/old-results', { name: file.name, note }, file);
}

async function sent<T>(path: string, said: Record<string, string>, file: File): Promise<T> {
  const answer = await fetch(`${path}?${new URLSearchParams(said)}`, {
    method: 'POST',
    headers: { accept: 'application/json', 'content-type': 'text/csv' },
    body: file,
  }).catch((): never => {
    throw serviceAway();
  });
  if (!answer.ok) throw await problemIn(answer);
  return (await answer.json()) as T;
}
