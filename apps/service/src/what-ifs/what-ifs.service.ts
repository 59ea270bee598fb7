import type { WhatIfChange } from '@breakbook/acceptance';
import { LotResult, Refusal, RunJudgement, type WhatIfAsked } from '@breakbook/lab';
import { Reader, Records, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { z } from 'zod';
import { earlierLots } from '../lots/earlier-lots.js';
import { keptReadings } from '../lots/kept-readings.js';
import { contentsById, limitsOf, methodIdsOf, type StoredLot, storedLot } from '../lots/lot-bundle.js';
import { PLAN } from '../plans/plan-kind.js';
import { revisionIn } from '../records/revisions.js';
import { isApproved, proposedRevisions } from '../records/standing.js';
import { Workers } from '../workers/workers.js';

/** What would follow. `result.whatIf` says what is different from the lot's own plan; nothing of it is kept. */
export const WhatIfAnswer = z.strictObject({
  result: LotResult.required({ whatIf: true }),
  judgements: z.array(RunJudgement),
});
export type WhatIfAnswer = z.infer<typeof WhatIfAnswer>;

/** A lot under another plan revision or limit, worked out from what is kept and forgotten once it is answered. */
@Injectable()
export class WhatIfsService {
  constructor(
    private readonly records: Records,
    private readonly workers: Workers,
  ) {}

  async ask(labId: string, lotKey: string, asked: WhatIfAsked): Promise<WhatIfAnswer> {
    const { bundle, change, readings } = await this.records
      .read(labId)
      .manager.transaction('REPEATABLE READ', async (manager) => {
        const reader = new Reader(manager, labId);
        const stored = await storedLot(reader, lotKey);
        return {
          bundle: stored.bundle,
          readings: await keptReadings(reader, stored),
          change: await changeOf(reader, stored, asked),
        };
      });
    const { result, judgements } = await this.workers.run('what if', { bundle, change, readings });
    return { result, judgements };
  }
}

async function changeOf(reader: Reader, stored: StoredLot, { plan, limits }: WhatIfAsked): Promise<WhatIfChange> {
  return {
    ...(plan ? { plan: await planNamed(reader, stored, plan) } : {}),
    ...(limits ? { limits } : {}),
  };
}

/** Another plan revision with what it names; one that is only proposed may be looked at, and is called so. */
async function planNamed(
  reader: Reader,
  { bundle, ids }: StoredLot,
  ref: NonNullable<WhatIfAsked['plan']>,
): Promise<NonNullable<WhatIfChange['plan']>> {
  const noun = await reader.maybe(tables.Plan, { key: ref.plan });
  const revisions = noun ? ((await proposedRevisions(reader, PLAN_REVISIONS, [noun.id])).get(noun.id) ?? []) : [];
  const found = revisions.find(({ content }) => revisionIn(content) === ref.revision);
  if (!found)
    throw new Refusal({
      code: 'body.not-found',
      pointer: '/plan',
      detail: `/plan: there is no plan ${ref.plan} rev. ${ref.revision}. Name a revision that is kept.`,
      found: `${ref.plan} rev. ${ref.revision}`,
    });
  const { version, decision } = found;
  const limits = await limitsOf(reader, version.id);
  const lot = await reader.one(tables.Lot, ids.lotId);
  const earlier = await earlierLots(reader, {
    productId: lot.productId,
    lot: bundle.lot,
    plan: version.content,
    limits,
  });
  return {
    plan: version.content,
    ...(isApproved(found) ? {} : { standing: decision ? 'declined' : 'only proposed' }),
    limits,
    methods: await contentsById(reader, tables.MethodRevision, await methodIdsOf(reader, version.id)),
    ...(earlier ? { earlier } : {}),
  };
}

const PLAN_REVISIONS = {
  versions: tables.PlanRevision,
  column: 'planRevisionId',
  contentOf: PLAN.contentOf,
} as const;
