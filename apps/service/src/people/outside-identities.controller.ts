import { Line, Paragraph } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { OutsideIdentities } from './outside-identities.js';

/** What a provider calls somebody: both as it says them, letter by letter. */
const OutsideName = z.strictObject({ issuer: z.url({ protocol: /^https?$/ }).max(300), subject: Line });
const NewLink = OutsideName.extend({ reason: Paragraph });
const Link = z.strictObject({ identity: OutsideName.nullable() });

@Controller('api/people/:person/outside-identity')
export class OutsideIdentitiesController {
  constructor(private readonly identities: OutsideIdentities) {}

  @Get()
  @Duty('administer', 'audit')
  @Answers('By what name outside a person may sign in.', Link)
  async of(@Param('person') person: string, @SignedIn() by: SignedInActor): Promise<z.infer<typeof Link>> {
    return { identity: await this.identities.of(by.labId, person) };
  }

  @Post()
  @Duty('administer')
  @Again()
  @HttpCode(204)
  @Answers('Links a person to a name outside, by which they may sign in. Their sessions end.')
  link(
    @Param('person') person: string,
    @Body(parsedBy(NewLink)) { reason, ...name }: z.infer<typeof NewLink>,
    @SignedIn() by: SignedInActor,
  ): Promise<void> {
    return this.identities.link(by, person, name, reason);
  }

  @Post('ending')
  @Duty('administer')
  @Again()
  @HttpCode(204)
  @Answers('Ends the link of a person to a name outside. Their sessions end.')
  end(
    @Param('person') person: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<void> {
    return this.identities.end(by, person, reason);
  }
}
