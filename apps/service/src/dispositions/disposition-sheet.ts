import { canonicalJson, sha256 } from '@breakbook/evidence';
import {
  type DispositionSheet,
  isAllowed,
  type LotBundle,
  type LotResult,
  NONCONFORMITY_STATES,
  type RunJudgement,
  SAFETY_FLAG_STATES,
} from '@breakbook/lab';
import { type RawStore, type Reader, tables } from '@breakbook/records';
import { acceptance } from '../arithmetic.js';
import { lastEvaluations } from '../evaluations/last-evaluations.js';
import { judgedLot } from '../lots/judged-lot.js';
import { type StoredLot, storedLot } from '../lots/lot-bundle.js';
import { reviewersOf } from '../runs/reviews/reviewers-of.js';
import { affairsOf } from './affairs-of.js';
import { dispositionsOf } from './stored-dispositions.js';

export interface SheetShown {
  sheet: DispositionSheet;
  /** Of its canonical JSON: what a signature covers. */
  sha256: string;
  lotId: string;
  evaluationId: string | undefined;
  /** Names of the lot's runs by their ids. */
  runs: Map<string, string>;
}

/** What whoever decides about a lot is shown: every run, whatever became of it, every nonconformity, what is missing. */
export async function dispositionSheet(reader: Reader, store: RawStore, lotKey: string, at: Date): Promise<SheetShown> {
  const { outcomesOf } = await acceptance();
  const stored = await storedLot(reader, lotKey);
  const { bundle, ids } = stored;
  const evaluation = (await lastEvaluations(reader, [ids.lotId])).get(ids.lotId);
  const judged = evaluation && (await judgedLot(reader, store, lotKey, evaluation));
  const upToDate = evaluation?.recordsId != null && judged !== undefined && sameBasis(judged.bundle, bundle);
  const affairs = await affairsOf(reader, ids.lotId, at);
  const around = await aroundRuns(reader, stored, judged && { result: judged.lot, judgements: judged.judgements });
  const sheet: DispositionSheet = {
    sheet: 'disposition 1',
    lot: bundle.lot.lot,
    product: bundle.product.name,
    size: bundle.lot.size,
    plan: { plan: bundle.plan.plan, revision: bundle.plan.revision },
    use: bundle.plan.claim.use,
    ...(evaluation ? { evaluation: evaluationShown(evaluation) } : {}),
    ...around.shown,
    ...affairs,
    missing: await missingIn({
      evaluation,
      upToDate,
      around,
      retests: affairs.retests,
      flags: (affairs.safetyFlags ?? []).flatMap(({ state, number }) =>
        isAllowed(SAFETY_FLAG_STATES, 'dispose of its lot', state) ? [] : number,
      ),
      open: affairs.nonconformities.flatMap(({ state, number }) =>
        isAllowed(NONCONFORMITY_STATES, 'dispose of its lot', state) ? [] : number,
      ),
    }),
    outcomes: judged
      ? outcomesOf(
          judged.lot,
          judged.judgements,
          affairs.concessions.map(({ number, state, expired, limit }) => ({ number, state, expired, limit })),
        )
      : [],
    dispositions: await dispositionsOf(reader, ids.lotId),
  };
  return {
    sheet,
    sha256: sha256(canonicalJson(sheet)),
    lotId: ids.lotId,
    evaluationId: evaluation?.id,
    runs: new Map([...ids.runs].map(([key, { runId }]) => [runId, key])),
  };
}

function evaluationShown({ number, at, software, content }: tables.Evaluation): DispositionSheet['evaluation'] {
  return {
    number,
    outcome: content.outcome,
    sentence: content.sentence,
    at: at.toISOString(),
    software,
    notes: content.notes,
    criteria: content.lines.flatMap(({ line, criteria }) =>
      criteria.map(({ criterion, statement, outcome }) => ({ line, criterion, statement, outcome })),
    ),
  };
}

/** Does an evaluation rest on what is on record now? People and lab enter no judgement. */
function sameBasis(one: LotBundle, other: LotBundle): boolean {
  const basis = ({ lab: _lab, people: _people, customer: _customer, ...rest }: LotBundle) => canonicalJson(rest);
  return basis(one) === basis(other);
}

async function aroundRuns(
  reader: Reader,
  { bundle, ids }: StoredLot,
  judged: { result: LotResult; judgements: readonly RunJudgement[] } | undefined,
) {
  const { attemptsOf } = await acceptance();
  const reviewers = await reviewersOf(
    reader,
    [...ids.runs.values()].map(({ runId }) => runId),
  );
  const attempts = judged && attemptsOf(judged.result, bundle.runs, judged.judgements);
  const entries = new Map(
    (judged?.result.lines ?? []).flatMap((line) => line.entries.map((one) => [one.run, one] as const)),
  );
  const verdictsOf = new Map((judged?.judgements ?? []).map(({ run, verdicts }) => [run, verdicts]));
  const times = new Map<string, number>();
  const runs = bundle.runs.map(({ run, specimen, planLine, startedAt, operator, validity }) => {
    const attempt = (times.get(specimen) ?? 0) + 1;
    times.set(specimen, attempt);
    const reviewedBy = reviewers.get(ids.runs.get(run)?.runId ?? '');
    const entry = entries.get(run);
    const why = [validity?.reason, validity?.note].filter((one) => one !== undefined).join(': ');
    return {
      run,
      specimen,
      line: planLine,
      startedAt,
      operator,
      validity: validity?.validity ?? ('not decided' as const),
      ...(why === '' ? {} : { validityReason: why }),
      ...(validity ? { decidedBy: validity.person } : {}),
      ...(reviewedBy === undefined ? {} : { reviewedBy }),
      inClaim: entry?.inClaim ?? false,
      because: entry ? entry.because : 'no evaluation looked at it yet',
      // What was judged of a run whose validity is open again is shown to nobody.
      verdicts: validity
        ? (verdictsOf.get(run) ?? []).map(({ limit, outcome, external }) => ({ limit, outcome, external }))
        : [],
      attempt,
    };
  });
  const tested = new Set(bundle.runs.map(({ specimen }) => specimen));
  return {
    bundle,
    shown: {
      runs,
      untested: bundle.specimens.map(({ specimen }) => specimen).filter((one) => !tested.has(one)),
      ...(attempts ? { attempts } : {}),
    },
  };
}

async function missingIn(given: {
  evaluation: tables.Evaluation | undefined;
  upToDate: boolean;
  around: Awaited<ReturnType<typeof aroundRuns>>;
  open: number[];
  flags: number[];
  retests: DispositionSheet['retests'];
}): Promise<DispositionSheet['missing']> {
  const { blockersOf } = await acceptance();
  const { evaluation, upToDate, around, open } = given;
  const { runs, attempts } = around.shown;
  const random = new Set(
    around.bundle.specimens.flatMap(({ specimen, origin }) => (origin === 'drawn at random' ? specimen : [])),
  );
  const unplanned = new Set((attempts?.lines ?? []).flatMap((line) => line.unplanned));
  const authorised = new Set(given.retests.flatMap(({ used }) => used));
  return blockersOf({
    evaluation: evaluation && {
      number: evaluation.number,
      outcome: evaluation.content.outcome,
      sentence: evaluation.content.sentence,
    },
    upToDate,
    runs: runs.map(({ run, specimen, validity, reviewedBy }) => ({
      run,
      validity,
      reviewed: reviewedBy !== undefined,
      unplanned: unplanned.has(run) && random.has(specimen),
      authorised: authorised.has(run),
    })),
    openNonconformities: open,
    openSafetyFlags: given.flags,
  });
}
