import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import type { JobAnswer } from './job.js';
import { JobBell, type Ring } from './job-bell.js';
import { JobsService } from './jobs.service.js';

/** A line that says nothing, so often in ms that nothing between here and the browser takes the silence for an end. */
const STILL_HERE = 20_000;

/** What happens to a job, as a stream of server-sent events. */
@Injectable()
export class JobEvents implements OnModuleDestroy {
  readonly #watching = new Set<() => void>();
  #stopped = false;

  constructor(
    private readonly jobs: JobsService,
    private readonly bell: JobBell,
  ) {}

  /** Ends every stream, or the service would wait for the browsers to go. */
  onModuleDestroy(): void {
    this.#stopped = true;
    for (const wake of this.#watching) wake();
  }

  /** Events called `job`, each with the whole answer as it stands then; several changes at once may be one event. */
  async *of(labId: string, first: JobAnswer): AsyncGenerator<string> {
    let changed = false;
    let wake = () => {};
    const change = () => {
      changed = true;
      wake();
    };
    const hear = ({ job }: Ring) => {
      if (job === first.id) change();
    };
    this.bell.on('ring', hear).on('back', change);
    this.#watching.add(change);
    try {
      yield event(first);
      // Looked at once more, for what happened between the first answer and the listening.
      changed = true;
      for (let job = first; !hasEnded(job) && !this.#stopped; ) {
        if (!changed) {
          const heard = await new Promise<boolean>((resolve) => {
            const silence = setTimeout(() => resolve(false), STILL_HERE);
            wake = () => {
              clearTimeout(silence);
              resolve(true);
            };
          });
          if (!heard) yield ': still here\n\n';
          continue;
        }
        changed = false;
        const before = JSON.stringify(job);
        job = await this.jobs.one(labId, first.id);
        if (JSON.stringify(job) !== before) yield event(job);
      }
    } finally {
      this.bell.off('ring', hear).off('back', change);
      this.#watching.delete(change);
    }
  }
}

function event(job: JobAnswer): string {
  return `event: job\ndata: ${JSON.stringify(job)}\n\n`;
}

function hasEnded({ state }: JobAnswer): boolean {
  return state === 'done' || state === 'failed' || state === 'cancelled';
}
