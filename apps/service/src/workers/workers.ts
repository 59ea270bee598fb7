import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { Refusal } from '@breakbook/lab';
import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import type { FromWorker, ToWorker } from './messages.js';
import type { TaskName, TaskProgress, Tasks } from './tasks.js';

export interface TaskOptions {
  onProgress?: (progress: TaskProgress) => void;
  /** Aborting ends the thread of a running task, and takes a waiting one off the list. */
  signal?: AbortSignal;
}

interface Waiting extends TaskOptions {
  message: ToWorker;
  /** Takes it off the list; of no use once a thread is at it. */
  withdraw: () => void;
  resolve: (output: never) => void;
  reject: (error: unknown) => void;
}

/** Two at least, so that a report being laid out never keeps an upload waiting. */
const THREADS = Math.max(2, Math.min(4, availableParallelism()));
/** More than this waiting is more than anybody waits for. */
const LONGEST_QUEUE = 64;
/** Threads are compiled code wherever the service itself runs from, for a thread reads no TypeScript. */
const THREAD = new URL('../../dist/workers/worker.js', import.meta.url);

/**
 * Idle threads that a service of this process left behind when it stopped. What a thread has loaded takes seconds to
 * load, and it keeps nothing of one task for the next, so a service begun after it in the same process takes them over.
 */
const LEFT: Worker[] = [];

/** Threads for reading, judging and laying out, so that no request waits for another's arithmetic. */
@Injectable()
export class Workers implements OnModuleDestroy {
  readonly #idle: Worker[] = [];
  readonly #all = new Set<Worker>();
  readonly #waiting: Waiting[] = [];
  #ended = false;

  /** Does a task in a thread. What it refuses is refused here; a thread that dies fails its task alone. */
  run<Name extends TaskName>(
    task: Name,
    input: Tasks[Name]['input'],
    options: TaskOptions = {},
  ): Promise<Tasks[Name]['output']> {
    if (this.#ended) return Promise.reject(new Error('The service is stopping.'));
    if (this.#waiting.length >= LONGEST_QUEUE) return Promise.reject(busy());
    return new Promise((resolve, reject) => {
      const withdraw = () => this.#withdraw(waiting);
      const waiting: Waiting = { message: { task, input }, withdraw, resolve, reject, ...options };
      this.#waiting.push(waiting);
      options.signal?.addEventListener('abort', withdraw, { once: true });
      this.#next();
    });
  }

  async onModuleDestroy(): Promise<void> {
    this.#ended = true;
    for (const { reject } of this.#waiting.splice(0)) reject(new Error('The service is stopping.'));
    for (const worker of this.#idle.splice(0)) {
      // Only what this service heard it by: a thread has listeners of its own that must stay.
      worker.removeAllListeners('exit');
      this.#all.delete(worker);
      worker.once('exit', () => takeFrom(LEFT, worker));
      LEFT.push(worker);
    }
    await Promise.all([...this.#all, ...LEFT.splice(THREADS)].map((worker) => worker.terminate()));
  }

  #withdraw(waiting: Waiting): void {
    const place = this.#waiting.indexOf(waiting);
    if (place < 0) return;
    this.#waiting.splice(place, 1);
    waiting.reject(waiting.signal?.reason);
  }

  #next(): void {
    if (this.#waiting.length === 0) return;
    const worker = this.#idle.pop() ?? this.#another();
    if (!worker) return;
    const task = this.#waiting.shift();
    if (task) this.#give(worker, task);
  }

  #another(): Worker | undefined {
    if (this.#all.size >= THREADS) return undefined;
    const left = LEFT.pop();
    left?.removeAllListeners('exit');
    const worker = left ?? new Worker(THREAD, { name: 'breakbook reading' });
    this.#all.add(worker);
    worker.unref();
    // At work or idle: a thread that has ended is given nothing more.
    worker.once('exit', () => {
      this.#all.delete(worker);
      takeFrom(this.#idle, worker);
      this.#next();
    });
    return worker;
  }

  #give(worker: Worker, { message, withdraw, resolve, reject, onProgress, signal }: Waiting): void {
    // A long job gives one signal to hundreds of tasks, and none leaves anything on it.
    signal?.removeEventListener('abort', withdraw);
    const hear = (from: FromWorker) => {
      if (from.said === 'progress') onProgress?.(from.progress);
      else if (from.said === 'done') end(() => resolve(from.output as never));
      else if (from.said === 'refused') end(() => reject(new Refusal(from.problems, from.count)));
      else end(() => reject(from.cause));
    };
    const fail = (error: Error) => quit(error);
    const leave = (code: number) => quit(new Error(`A thread ended with ${code} while at work.`));
    const abort = () => quit(signal?.reason);

    const letGo = () => {
      worker.off('message', hear).off('error', fail).off('exit', leave);
      signal?.removeEventListener('abort', abort);
    };
    const end = (settle: () => void) => {
      letGo();
      worker.unref();
      this.#idle.push(worker);
      settle();
      this.#next();
    };
    const quit = (reason: unknown) => {
      letGo();
      worker.on('error', () => {}); // Its task has been told already.
      void worker.terminate();
      reject(reason);
    };

    worker.ref();
    worker.on('message', hear).on('error', fail).on('exit', leave);
    if (signal?.aborted) {
      abort();
      return;
    }
    signal?.addEventListener('abort', abort, { once: true });
    worker.postMessage(message);
  }
}

function takeFrom(workers: Worker[], worker: Worker): void {
  const place = workers.indexOf(worker);
  if (place >= 0) workers.splice(place, 1);
}

function busy(): Refusal {
  return new Refusal({
    code: 'service.busy',
    detail: `${LONGEST_QUEUE} runs and reports are waiting to be read and made.`,
    action: 'Try again in a minute.',
  });
}
