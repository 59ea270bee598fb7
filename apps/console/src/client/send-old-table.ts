import type { OldTable, OldTableTrial } from './answers.js';
import { sendBytes } from './send-bytes.js';

/** Has a table of old results looked through: what would be stored. Nothing is. */
export function tryOldTable(file: File): Promise<OldTableTrial> {
  return sent<OldTableTrial>('/api/old-results/trials', { name: file.name }, file);
}

/** Takes a table of old results over, whole or not at all. */
export function takeOldTable(file: File, note: string): Promise<OldTable> {
  return sent<OldTable>('/api/old-results', { name: file.name, note }, file);
}

async function sent<T>(path: string, said: Record<string, string>, file: File): Promise<T> {
  return (await (await sendBytes(path, file, { type: 'text/csv', said })).json()) as T;
}
