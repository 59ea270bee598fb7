import { parentPort } from 'node:worker_threads';
import { type FromWorker, type ToWorker, toMessage } from './messages.js';
import { TASKS, type TaskName, type TaskProgress, type Tasks } from './tasks.js';

/** One thread of the pool: does one task after another. */
if (!parentPort) throw new Error('This file is a thread of the pool; it is not run by itself.');
const port = parentPort;
const say = (message: FromWorker) => port.postMessage(message);

/** Told at most this often, in ms: each is a message to every browser that looks on. */
const PROGRESS_EVERY = 100;

port.on('message', ({ task, input }: ToWorker) => {
  perform(task, input).then(
    (output) => say({ said: 'done', output }),
    (error: unknown) => say(toMessage(error)),
  );
});

async function perform<Name extends TaskName>(task: Name, input: Tasks[Name]['input']): Promise<Tasks[Name]['output']> {
  let last = 0;
  const onProgress = (progress: TaskProgress) => {
    const now = performance.now();
    if (now - last < PROGRESS_EVERY) return;
    last = now;
    say({ said: 'progress', progress });
  };
  return TASKS[task](input, onProgress);
}
