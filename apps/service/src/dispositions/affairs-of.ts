import { type Reader, tables } from '@breakbook/records';
import type { ReportAffairs } from '@breakbook/reports';
import { concessionsOf } from '../concessions/concession-answers.js';
import { nonconformitiesOf } from '../nonconformities/of-lot.js';
import { oldResultsBeside } from '../old-results/old-result-answers.js';
import { opinionsOf } from '../opinions/opinions-of.js';
import { dayInLab } from '../records/today.js';
import { retestsOf } from '../retests/retests-of.js';
import { flagsOf } from '../safety-flags/flags-of.js';
import { legalHoldsOf } from '../specimens/holds-on.js';

/** The same as a report prints it, with what old tables tell of the lot. */
export async function reportAffairsOf(reader: Reader, lotId: string, at: Date): Promise<ReportAffairs> {
  const oldResults = await oldResultsBeside(reader, { lotId });
  return {
    ...(await affairsOf(reader, lotId, at)),
    ...(oldResults.length === 0 ? {} : { oldResults: oldResults.map(({ lotKnown: _, ...one }) => one) }),
  };
}

/** What is on record about a lot beside its judgement, as its disposition sheet and its report say it. */
export async function affairsOf(reader: Reader, lotId: string, at: Date): Promise<ReportAffairs> {
  const concessions = await concessionsOf(reader, lotId, await dayInLab(reader, at));
  const keeping = (await reader.latestOf(tables.LotKeeping, [lotId])).get(lotId);
  return {
    nonconformities: (await nonconformitiesOf(reader, lotId)).map(({ noun, version }) => ({
      number: noun.number,
      title: version.content.title,
      source: noun.source,
      state: version.state,
      ...(version.content.due === undefined ? {} : { due: version.content.due }),
    })),
    concessions: concessions.map(({ number, state, expired, requestedBy, by, content }) => {
      const { kind, limit, departure, bounds, until, risk } = content;
      return {
        number,
        kind,
        state,
        expired,
        ...(limit ? { limit } : {}),
        departure,
        bounds,
        until,
        risk,
        requestedBy,
        by,
      };
    }),
    retests: (await retestsOf(reader, lotId)).map(({ number, line, runs, used, reason, by }) => ({
      number,
      line,
      runs,
      used,
      reason,
      by,
    })),
    safetyFlags: await flagsOf(reader, lotId),
    ...(keeping ? { keeping: { recordsUntil: keeping.recordsUntil, remnantsUntil: keeping.remnantsUntil } } : {}),
    legalHolds: await legalHoldsOf(reader, lotId),
    opinions: await opinionsOf(reader, lotId),
  };
}
