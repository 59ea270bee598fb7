import {
  COMPARISON_STATES,
  type ComparisonCase,
  PLAIN_PRINT,
  printKept,
  Refusal,
  requireAllowed,
  SOFTWARE,
} from '@breakbook/lab';
import { prepareRaw, type RawStore, Reader, Records, rawFromBytes, readWhole, tables } from '@breakbook/records';
import { Inject, Injectable, type OnModuleInit } from '@nestjs/common';
import { acceptance, reports } from '../arithmetic.js';
import type { Job, JobAnswer } from '../jobs/job.js';
import { JobRunner } from '../jobs/job-runner.js';
import { JobsService } from '../jobs/jobs.service.js';
import { RAW_STORE } from '../records/raw-store.token.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import { type TaskOptions, Workers } from '../workers/workers.js';
import { reportRecords } from './comparison-report-records.js';
import { type ComparisonStanding, standingOf } from './comparison-standing.js';
import type { NewComparisonDocument } from './new-comparison-document.js';
import { storedCase } from './stored-case.js';

/** Reports of what was concluded: made as drafts, and signed as other documents are. */
@Injectable()
export class ComparisonReportsService implements OnModuleInit {
  constructor(
    private readonly records: Records,
    @Inject(RAW_STORE) private readonly store: RawStore,
    private readonly workers: Workers,
    private readonly jobs: JobsService,
    private readonly runner: JobRunner,
  ) {}

  onModuleInit(): void {
    this.runner.handle('comparison report', (job, options) => this.#compose(job, options));
  }

  async ask(by: SignedInActor, key: string, { kind, ...print }: NewComparisonDocument): Promise<JobAnswer> {
    const reader = this.records.read(by.labId);
    const conclusion = concluded(await standingOf(reader, await reader.named(tables.Comparison, key)));
    await refuseSecond(reader, key, conclusion);
    return this.jobs.ask(by, kind, { comparison: key, conclusion: conclusion.position, ...print });
  }

  async #compose(job: Job<'comparison report'>, options: Required<TaskOptions>): Promise<void> {
    const { comparison: key, conclusion: position, paper, language, units } = job.subject;
    const { conclusion, ...given } = await this.records
      .read(job.labId)
      .manager.transaction('REPEATABLE READ', (manager) => this.#given(new Reader(manager, job.labId), key, position));
    const { comparisonReportContent } = await reports();
    const content = comparisonReportContent({
      ...given,
      // The instant it was asked for, so that a job begun again lays out the same bytes.
      document: {
        number: `CR-${key}-${position}`,
        revision: 1,
        issuedAt: job.at.toISOString(),
        signatures: [],
      },
      print: printKept({ ...PLAIN_PRINT, paper, language, units }),
    });
    const raw = await prepareRaw(rawFromBytes(await this.workers.run('compose document', { content }, options)));
    await this.records.change(job, 'report composed', async (rows) => {
      await rows.lock(tables.ComparisonConclusion, conclusion.id);
      await refuseSecond(rows, key, conclusion);
      const { id: rawId } = await this.store.keep(rows, raw);
      const { id: documentId } = await rows.add(tables.Document, {
        kind: job.kind,
        evaluationId: null,
        rawId,
        software: SOFTWARE,
        content,
      });
      await rows.add(tables.ComparisonDocument, { documentId, conclusionId: conclusion.id });
      await this.jobs.endWithin(rows, job, { outcome: 'done', documentId });
    });
  }

  async #given(reader: Reader, key: string, position: number) {
    const standing = await standingOf(reader, await reader.named(tables.Comparison, key));
    const conclusion = standing.conclusions.find((one) => one.position === position);
    if (!conclusion) throw new Error(`Comparison ${key} has no conclusion ${position}.`);
    const { content: result, recordsId } = await reader.one(tables.ComparisonResult, conclusion.resultId);
    const kept = (await readWhole(this.store, reader, recordsId)).toString('utf8');
    const given = JSON.parse(kept) as ComparisonCase;
    const { limitsBeside } = await acceptance();
    const { runs } = await storedCase(reader, standing);
    return {
      conclusion,
      case: given,
      result,
      ...(await reportRecords(reader, given)),
      limits: limitsBeside(
        given.comparison,
        runs.flatMap(({ judge }) => judge.limits),
      ),
      locked: { at: conclusion.at.toISOString(), by: conclusion.name },
    };
  }
}

/** The conclusion that holds. */
function concluded({ noun, state, conclusions }: ComparisonStanding): tables.ComparisonConclusion {
  requireAllowed(COMPARISON_STATES, 'report its conclusions', state, {
    thing: `comparison ${noun.key}`,
    action: 'Have its conclusions locked first: before that a report would tell the blinded which item is which.',
  });
  const last = conclusions.at(-1);
  if (!last) throw new Error(`Comparison ${noun.key} is concluded by no conclusion.`);
  return last;
}

/** One conclusion has one report; what replaces it rests on a later conclusion. */
async function refuseSecond(reader: Reader, key: string, { id, position }: tables.ComparisonConclusion): Promise<void> {
  const [made] = await reader.find(tables.ComparisonDocument, { conclusionId: id });
  if (!made) return;
  const { number } = await reader.one(tables.Document, made.documentId);
  throw new Refusal({
    code: 'state.conflict',
    detail: `Conclusion ${position} of comparison ${key} has its report already: document ${number}.`,
    action: 'Look at that one. Where something is otherwise by now, conclude anew.',
  });
}
