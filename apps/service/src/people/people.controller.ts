import { Duty as DutyName, Line, Paragraph, Person } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because, keptOf, type PageOf, pageOf } from '../records/kept.js';
import { Paging } from '../records/paging.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { type KeptPerson, PeopleService } from './people.service.js';

/** Only a rig's token sends. */
const Duties = z.array(DutyName.exclude(['send'])).max(DutyName.options.length);

const NewPerson = Person.extend({ duties: Duties });
const NameAndRole = z.strictObject({ name: Line, role: Line, reason: Paragraph });
const NewDuties = z.strictObject({ duties: Duties, reason: Paragraph });

const KeptPersonAnswer = keptOf(Person).extend({ signsIn: z.boolean() });
const AddedPerson = KeptPersonAnswer.extend({ passphrase: z.string() });
const GivenPassphrase = z.strictObject({ person: z.string(), passphrase: z.string() });

@Controller('api/people')
@UseInterceptors(VersionTag)
export class PeopleController {
  constructor(private readonly people: PeopleService) {}

  @Get()
  @Duty('signed in')
  @Answers('The people of the lab with their duties.', pageOf(KeptPersonAnswer))
  list(@Query(queriedBy(Paging)) paging: Paging, @SignedIn() by: SignedInActor): Promise<PageOf<KeptPerson>> {
    return this.people.list(by.labId, paging);
  }

  @Get(':person')
  @Duty('signed in')
  @Answers('A person of the lab.', KeptPersonAnswer)
  one(@Param('person') person: string, @SignedIn() by: SignedInActor): Promise<KeptPerson> {
    return this.people.one(by.labId, person);
  }

  @Post()
  @Duty('administer')
  @Again()
  @Answers('Adds a person. The answer shows their first passphrase, this once.', AddedPerson)
  add(
    @Body(parsedBy(NewPerson)) person: z.infer<typeof NewPerson>,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptPerson & { passphrase: string }> {
    return this.people.add(by, person);
  }

  @Put(':person')
  @Duty('administer')
  @Again()
  @Answers('Changes the name and role of a person.', KeptPersonAnswer)
  rename(
    @Param('person') person: string,
    @Body(parsedBy(NameAndRole)) { reason, ...changed }: z.infer<typeof NameAndRole>,
    @IfMatch() follows: number,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptPerson> {
    return this.people.change(by, person, changed, reason, follows);
  }

  @Put(':person/duties')
  @Duty('administer')
  @Again()
  @Answers('Changes what a person may do. Their sessions end.', KeptPersonAnswer)
  changeDuties(
    @Param('person') person: string,
    @Body(parsedBy(NewDuties)) { reason, duties }: z.infer<typeof NewDuties>,
    @IfMatch() follows: number,
    @SignedIn() by: SignedInActor,
  ): Promise<KeptPerson> {
    return this.people.change(by, person, { duties: [...new Set(duties)] }, reason, follows);
  }

  @Post(':person/passphrase')
  @Duty('administer')
  @Again()
  @HttpCode(200)
  @Answers('Gives a person a new passphrase. The answer shows it, this once.', GivenPassphrase)
  newPassphrase(
    @Param('person') person: string,
    @SignedIn() by: SignedInActor,
  ): Promise<z.infer<typeof GivenPassphrase>> {
    return this.people.newPassphrase(by, person);
  }

  @Post(':person/second-factor/removal')
  @Duty('administer')
  @Again()
  @HttpCode(204)
  @Answers('Takes away what a person has beside the passphrase and has lost. Their sessions end; they add another.')
  takeSecondFactors(
    @Param('person') person: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<void> {
    return this.people.takeSecondFactors(by, person, reason);
  }

  @Post(':person/closing')
  @Duty('administer')
  @Again()
  @HttpCode(204)
  @Answers('Lets a person sign in no more. What they did stays under their name.')
  close(
    @Param('person') person: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<void> {
    return this.people.close(by, person, reason);
  }
}
