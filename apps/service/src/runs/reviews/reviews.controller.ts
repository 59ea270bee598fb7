import { Instant, isAllowed, Key, Paragraph, Refusal, RUN_STATES } from '@breakbook/lab';
import { type Reader, Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { outsideCompetence } from '../../competence/competence-of.js';
import { IfMatch } from '../../http/if-match.decorator.js';
import { parsedBy } from '../../http/parsed-by.js';
import { Answers } from '../../openapi/answers.decorator.js';
import { peopleBehind } from '../../records/read-kind.js';
import { Again, Duty } from '../../sign-in/duty.decorator.js';
import { requireOther } from '../../sign-in/forbidden-pairs.js';
import { SignedIn, type SignedInActor } from '../../sign-in/signed-in.decorator.js';
import { doneToRun } from '../run-acts.js';
import { type RunRecord, runRecord, stateOf } from '../run-record.js';

/** A review of a run. */
export const ReviewAnswer = z.strictObject({
  by: Key,
  at: Instant,
  note: Paragraph.optional(),
  /** Is it a review of the run as it stands now? */
  current: z.boolean(),
});
export type ReviewAnswer = z.infer<typeof ReviewAnswer>;

const Reviews = z.strictObject({
  items: z.array(ReviewAnswer),
  /** Why the operator was not authorised for the method on the day of the run; left out where they were. */
  outsideCompetence: z.string().optional(),
});
type Reviews = z.infer<typeof Reviews>;

/** How what was flagged was dealt with, and whatever else the reviewer has to say. */
export const NewReview = z.strictObject({ note: Paragraph.optional() });
export type NewReview = z.infer<typeof NewReview>;

/** Review: a second person goes through a run once its validity is decided, results and verdicts before them. */
@Controller('api/runs/:run/reviews')
export class ReviewsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Reviews of a run', Reviews)
  async ofRun(@Param('run') run: string, @SignedIn() by: SignedInActor): Promise<Reviews> {
    const reader = this.records.read(by.labId);
    return reviewsOf(reader, await runRecord(reader, run));
  }

  @Post()
  @Duty('review')
  @Again()
  @Answers('Review a run whose validity is decided', Reviews)
  review(
    @Param('run') runKey: string,
    @Body(parsedBy(NewReview)) { note }: NewReview,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<Reviews> {
    return this.records.change(by, 'run reviewed', note, async (rows) => {
      const { id } = await rows.named(tables.Run, runKey);
      await rows.lock(tables.Run, id);
      const record = await runRecord(rows, runKey);
      if (record.version !== seen)
        throw new Refusal({
          code: 'version.stale',
          detail: `Version ${seen} of run ${runKey} was seen here, but version ${record.version} is in force by now.`,
          action: 'Look at the run as it is, and review that.',
        });
      requireOther(by, 'review', `run ${runKey}`, await doneToRun(rows, record));
      const { items } = await reviewsOf(rows, record);
      const decision = requireReviewable(record, items, note);
      await rows.addVersion(tables.RunReview, id, {
        validityDecisionId: decision.id,
        runVersion: record.version,
        note: note ?? null,
      });
      return reviewsOf(rows, record);
    });
  }
}

function requireReviewable(record: RunRecord, items: readonly ReviewAnswer[], note: string | undefined) {
  const { decision, reading } = record;
  const { run } = record.run;
  if (!decision || !isAllowed(RUN_STATES, 'be reviewed', stateOf(record)))
    throw new Refusal({
      code: 'state.conflict',
      detail: `Run ${run} is ${decision ? `${decision.validity}; there is nothing to review` : 'not decided: its validity comes first, and blind'}.`,
      action: decision ? 'Nothing is to be done.' : 'Have its validity decided, then review it.',
    });
  if (items.some(({ current }) => current))
    throw new Refusal({
      code: 'state.conflict',
      detail: `Run ${run} is reviewed as it stands. Nothing was changed.`,
      action: 'Nothing is to be done.',
    });
  const flags = reading.content.flags.length;
  const why =
    flags > 0
      ? `its files were taken with ${flags} ${flags === 1 ? 'flag' : 'flags'}; a note says how ${flags === 1 ? 'it was' : 'they were'} dealt with`
      : items.length > 0
        ? 'it was reviewed before; a note says what came of what was said since'
        : undefined;
  if (why !== undefined && note === undefined)
    throw new Refusal({ code: 'body.missing-field', pointer: '/note', detail: `/note: run ${run}: ${why}.` });
  return decision;
}

async function reviewsOf(reader: Reader, { noun, version, decision, body }: RunRecord): Promise<Reviews> {
  const reviews = await reader.history(tables.RunReview, noun.id);
  const people = await peopleBehind(reader, reviews);
  const outside = await outsideCompetence(reader, body);
  return {
    items: reviews.map(({ personId, at, note, runVersion, validityDecisionId }) => ({
      by: people.get(personId) ?? '',
      at: at.toISOString(),
      ...(note === null ? {} : { note }),
      current: runVersion === version && validityDecisionId === decision?.id,
    })),
    ...(outside === undefined ? {} : { outsideCompetence: outside }),
  };
}
