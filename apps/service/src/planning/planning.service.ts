import {
  type Designs,
  type DesignsAsked,
  type PlanRisks,
  Refusal,
  type RisksAsked,
  type Showable,
  type ShowableAsked,
} from '@breakbook/lab';
import { Records } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { namedByPlan } from '../plans/plan-kind.js';
import { Names } from '../records/names.js';
import type { TaskName, Tasks } from '../workers/tasks.js';
import { Workers } from '../workers/workers.js';

/** A question in a thread of its own may take this long, in ms; a longer one is for the command line. */
const LONGEST = 60_000;

/** Answers what is asked before anything is broken, in a thread beside the requests; nothing is kept. */
@Injectable()
export class PlanningService {
  constructor(
    private readonly records: Records,
    private readonly workers: Workers,
  ) {}

  designs(asked: DesignsAsked): Promise<Designs> {
    return this.#reckon('plan designs', asked);
  }

  showable(asked: ShowableAsked): Promise<Showable> {
    return this.#reckon('show what n can', asked);
  }

  /** The plan need not be on record; the methods and limits it names must be, proposed or approved. */
  async risks(labId: string, { plan, lotSize }: RisksAsked): Promise<PlanRisks> {
    const reader = this.records.read(labId);
    const names = new Names(reader, '/plan');
    const { methods, limits } = await namedByPlan(reader, plan);
    for (const [index, line] of plan.lines.entries()) {
      if (!methods.some((one) => one.method === line.method && one.revision === line.methodRevision))
        names.note(
          'body.not-found',
          `/lines/${index}/methodRevision`,
          `there is no method ${line.method} rev. ${line.methodRevision}. Add it first, or correct the plan line.`,
        );
      for (const [n, ref] of line.limits.entries())
        if (!limits.some(({ content }) => content.limit === ref.limit && content.revision === ref.revision))
          names.note(
            'body.not-found',
            `/lines/${index}/limits/${n}`,
            `there is no limit ${ref.limit} rev. ${ref.revision}. Add it first, or correct the plan line.`,
          );
    }
    names.refuse();
    return this.#reckon('weigh plan', {
      plan,
      methods: methods.map(({ method, revision, minimumSpecimens }) => ({ method, revision, minimumSpecimens })),
      limits: limits.map(({ content }) => content),
      lotSize,
    });
  }

  async #reckon<Name extends TaskName>(task: Name, input: Tasks[Name]['input']): Promise<Tasks[Name]['output']> {
    try {
      return await this.workers.run(task, input, { signal: AbortSignal.timeout(LONGEST) });
    } catch (error) {
      if (!(error instanceof DOMException && error.name === 'TimeoutError')) throw error;
      throw new Refusal({
        code: 'service.busy',
        detail: `This question takes longer than ${LONGEST / 1000} s here, and was given up.`,
        action: 'Ask it with the command "breakbook plan", or with fewer stages or specimens.',
      });
    }
  }
}
