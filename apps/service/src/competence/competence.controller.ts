import { NewCompetence, Refusal } from '@breakbook/lab';
import { Records, tables } from '@breakbook/records';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Names } from '../records/names.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { CompetenceAnswer, competencesOf } from './competence-of.js';

const Competences = z.strictObject({ items: z.array(CompetenceAnswer) });
type Competences = z.infer<typeof Competences>;

/** Competence: who may make runs by which revision of a method, until when, and who says so. */
@Controller('api/people/:person/competences')
export class CompetenceController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers('What a person is trained and authorised for', Competences)
  async ofPerson(@Param('person') person: string, @SignedIn() by: SignedInActor): Promise<Competences> {
    const reader = this.records.read(by.labId);
    return { items: await competencesOf(reader, (await reader.named(tables.Person, person)).id) };
  }

  @Post()
  @Duty('review', 'define')
  @Again()
  @Answers('Say what another person is trained or authorised for', Competences)
  say(
    @Param('person') person: string,
    @Body(parsedBy(NewCompetence)) { method, revision, level, until, note }: NewCompetence,
    @SignedIn() by: SignedInActor,
  ): Promise<Competences> {
    return this.records.change(by, 'competence recorded', note, async (rows) => {
      const whose = await rows.named(tables.Person, person);
      if (whose.id === by.personId)
        throw new Refusal({
          code: 'duty.conflict',
          detail: 'Nobody says of themselves what they are competent for.',
          action: 'Have another person with the duty say it.',
        });
      const names = new Names(rows, '');
      const methodId = await names.idOf(tables.Method, method, '/method');
      names.refuse();
      const revisions = await rows.history(tables.MethodRevision, methodId);
      const found = revisions.find(({ content }) => content.revision === revision);
      if (!found) names.note('body.not-found', '/revision', `method ${method} has no such revision.`, revision);
      names.refuse();
      await rows.add(tables.Competence, {
        whoseId: whose.id,
        methodRevisionId: found?.id ?? '',
        level,
        until: until ?? null,
        note,
      });
      return { items: await competencesOf(rows, whose.id) };
    });
  }
}
