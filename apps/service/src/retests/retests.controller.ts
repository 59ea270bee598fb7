import { NewRetest, Refusal } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { In } from 'typeorm';
import { z } from 'zod';
import { doneToRuns } from '../dispositions/done-to-lot.js';
import { parsedBy } from '../http/parsed-by.js';
import { storedLot } from '../lots/lot-bundle.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { requireOther } from '../sign-in/forbidden-pairs.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { RetestAnswer, retestsOf } from './retests-of.js';

/** Retests: so many runs of a plan line beyond those it asks for, authorised with their ground, and counted. */
@Controller('api/lots/:lot/retests')
export class RetestsController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('Retests authorised for a lot, with the runs made by them', z.strictObject({ items: z.array(RetestAnswer) }))
  async ofLot(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<{ items: RetestAnswer[] }> {
    const reader = this.records.read(by.labId);
    return { items: await retestsOf(reader, (await reader.named(tables.Lot, lot)).id) };
  }

  @Post()
  @Duty('review', 'decide')
  @Again()
  @Answers('Authorise runs beyond those that a plan line asks for', RetestAnswer)
  authorise(
    @Param('lot') lotKey: string,
    @Body(parsedBy(NewRetest)) body: NewRetest,
    @SignedIn() by: SignedInActor,
  ): Promise<RetestAnswer> {
    return this.records.change(by, 'retest authorised', body.reason, async (rows) => {
      const { ids, bundle } = await storedLot(rows, lotKey);
      const lines = await rows.find(tables.PlanLine, { planRevisionId: ids.planRevisionId });
      const line = lines.find(({ key }) => key === body.line);
      if (!line)
        throw new Refusal({
          code: 'body.not-found',
          pointer: '/line',
          found: body.line,
          detail: `/line: plan ${bundle.plan.plan} rev. ${bundle.plan.revision} has no line ${body.line}. Its lines are ${lines.map(({ key }) => key).join(', ')}.`,
        });
      const runs = await rows.find(tables.Run, { id: In([...ids.runs.values()].map(({ runId }) => runId)) });
      const done = await doneToRuns(rows, new Map(runs.map(({ id, key }) => [id, key])));
      requireOther(by, 'authorise a retest', `lot ${lotKey}`, done);
      const { line: _, ...rest } = body;
      const { number } = await rows.add(tables.Retest, { lotId: ids.lotId, planLineId: line.id, ...rest });
      const made = (await retestsOf(rows, ids.lotId)).find((one) => one.number === number);
      if (!made) throw new Error(`Retest ${number} was added and is not there.`);
      return made;
    });
  }
}
