import { type Problem, Refusal } from '@breakbook/lab';
import type { TaskName, TaskProgress, Tasks } from './tasks.js';

/** What is said to a thread. */
export interface ToWorker<Name extends TaskName = TaskName> {
  task: Name;
  input: Tasks[Name]['input'];
}

/** What a thread says. */
export type FromWorker =
  | { said: 'progress'; progress: TaskProgress }
  | { said: 'done'; output: Tasks[TaskName]['output'] }
  | { said: 'refused'; problems: Problem[]; count: number }
  | { said: 'failed'; cause: unknown };

/** An error keeps its class only within its own thread; a refusal is put together again on the other side. */
export function toMessage(error: unknown): FromWorker {
  return error instanceof Refusal
    ? { said: 'refused', problems: error.problems, count: error.problemCount }
    : { said: 'failed', cause: error };
}
