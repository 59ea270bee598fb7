import { type Problem, Refusal } from '@breakbook/lab';
import { Injectable, Logger, type OnApplicationBootstrap, type OnModuleDestroy } from '@nestjs/common';
import type { TaskOptions } from '../workers/workers.js';
import type { Job, JobKind } from './job.js';
import { JobBell, type Ring } from './job-bell.js';
import { JobQueue, type Queued } from './job-queue.js';
import { JobEnded, JobsService } from './jobs.service.js';

/** What a job is done with. */
export interface JobOptions extends Required<TaskOptions> {
  /** Has whatever else was asked for done first: between its parts a long job calls it, so that nobody waits for all of them. */
  giveWay: () => Promise<void>;
}

/** Does one kind of job: reads and reckons, then keeps its effect and the job's end in one change. */
export type JobHandler<Kind extends JobKind> = (job: Job<Kind>, options: JobOptions) => Promise<void>;

/** Looked at without being called, in ms: the bell may have been away. */
const LOOK_EVERY = 2000;
/** Why a job's work was broken off. */
const CANCELLED = new Error('The job was cancelled.');
const STOPPING = new Error('The service is stopping.');

/**
 * Does jobs, one at a time: two would only make each other slow, and a thread is left for uploads. Whatever happens to
 * this process or to the database, a job is begun again until its end is written, and its end is written once.
 */
@Injectable()
export class JobRunner implements OnApplicationBootstrap, OnModuleDestroy {
  readonly #log = new Logger('jobs');
  readonly #handlers = new Map<JobKind, JobHandler<never>>();
  readonly #running = new Map<string, AbortController>();
  #timer: NodeJS.Timeout | undefined;
  #working: Promise<void> | undefined;
  #calledAgain = false;
  #stopped = false;

  constructor(
    private readonly queue: JobQueue,
    private readonly bell: JobBell,
    private readonly jobs: JobsService,
  ) {}

  /** Says who does a kind of job. */
  handle<Kind extends JobKind>(kind: Kind, handler: JobHandler<Kind>): void {
    this.#handlers.set(kind, handler as JobHandler<never>);
  }

  async onApplicationBootstrap(): Promise<void> {
    await this.queue.start();
    await this.bell.start();
    this.bell.on('ring', (ring) => this.#hear(ring));
    this.bell.on('back', () => this.#work());
    this.#timer = setInterval(() => this.#work(), LOOK_EVERY);
    this.#timer.unref();
    this.#work();
  }

  /** Are jobs heard of and begun? */
  get atWork(): boolean {
    return this.#timer !== undefined && !this.#stopped && this.bell.hears;
  }

  async onModuleDestroy(): Promise<void> {
    this.#stopped = true;
    clearInterval(this.#timer);
    for (const controller of this.#running.values()) controller.abort(STOPPING);
    await this.#working;
    await this.bell.stop();
    await this.queue.stop();
  }

  #hear({ job, said }: Ring): void {
    if (said === 'asked') this.#work();
    // Ended by somebody else: what is still computed for it here is for nothing.
    if (said === 'ended') this.#running.get(job)?.abort(CANCELLED);
  }

  #work(): void {
    if (this.#stopped) return;
    if (this.#working) {
      this.#calledAgain = true;
      return;
    }
    this.#working = this.#workOff()
      // The database is away; the next look finds it back or not.
      .catch((error: unknown) => this.#log.warn(`jobs wait: ${(error as Error).message}`))
      .finally(() => {
        this.#working = undefined;
        if (this.#calledAgain) this.#work();
        this.#calledAgain = false;
      });
  }

  async #workOff(): Promise<void> {
    await this.#lookAfter();
    await this.#doAll();
  }

  async #doAll(): Promise<void> {
    for (;;) {
      const next = this.#stopped ? undefined : await this.queue.next();
      if (!next) return;
      await this.#do(next);
    }
  }

  /** Jobs whose process died while at them are begun again. */
  async #lookAfter(): Promise<void> {
    for (const left of await this.queue.taken()) {
      if (this.#running.has(left.id) || !(await this.bell.hold(left.id))) continue;
      await this.bell.letGo(left.id);
      await this.#again(left, 'its process ended while at it');
    }
  }

  async #do(queued: Queued): Promise<void> {
    const { id } = queued;
    // The queue takes what goes on for very long to be lost, and hands it out again.
    if (this.#running.has(id)) return;
    const controller = new AbortController();
    this.#running.set(id, controller);
    try {
      await this.bell.hold(id);
      if (!(await this.jobs.hasEnded(queued))) await this.#perform(queued, controller.signal);
      await this.queue.done(id);
    } catch (error) {
      await this.#broken(queued, error);
    } finally {
      this.#running.delete(id);
      await this.bell.letGo(id);
    }
  }

  async #perform({ labId, id }: Queued, signal: AbortSignal): Promise<void> {
    const job = await this.jobs.asked(labId, id);
    const handler = this.#handlers.get(job.kind);
    if (!handler) throw new Error(`Nobody does a ${job.kind}.`);
    const onProgress = ({ share, at }: { share: number; at: string }) =>
      void this.bell.ring({ lab: labId, job: id, said: 'progress', share, at });
    onProgress({ share: 0, at: 'reading the records' });
    await handler(job as never, { signal, onProgress, giveWay: () => this.#doAll() });
  }

  async #broken(queued: Queued, error: unknown): Promise<void> {
    if (error === CANCELLED || error instanceof JobEnded) return this.queue.done(queued.id);
    if (error === STOPPING || this.#stopped) return void (await this.queue.again(queued.id, STOPPING.message));
    if (error instanceof Refusal && !isPassing(error)) {
      await this.jobs.end(queued, { outcome: 'failed', problems: error.problems });
      return this.queue.done(queued.id);
    }
    this.#log.error(`job ${queued.id}: ${(error as Error).stack ?? String(error)}`);
    await this.#again(queued, (error as Error).message);
  }

  async #again(queued: Queued, because: string): Promise<void> {
    if (await this.queue.again(queued.id, because)) return;
    await this.jobs.end(queued, { outcome: 'failed', problems: [gaveUp(queued.id)] });
  }
}

/** A refusal that another attempt may not meet. */
function isPassing({ code }: Refusal): boolean {
  return code === 'service.busy' || code === 'service.unavailable';
}

function gaveUp(id: string): Problem {
  return {
    code: 'internal',
    detail: `This was our fault, not your input: the work was begun several times and not finished. Ask for it again; if it stays, tell the lab's administrator the id ${id}.`,
  };
}
