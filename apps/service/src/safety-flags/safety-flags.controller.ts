import { Key, Paragraph, SafetyFlag } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post, Put, Query, Res, UseInterceptors } from '@nestjs/common';
import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import { IfMatch } from '../http/if-match.decorator.js';
import { parsedBy } from '../http/parsed-by.js';
import { queriedBy } from '../http/queried-by.js';
import { shortNumber } from '../http/short-number.js';
import { VersionTag } from '../http/version-tag.interceptor.js';
import { JobAnswer } from '../jobs/job.js';
import { located } from '../jobs/located.js';
import { Answers } from '../openapi/answers.decorator.js';
import { type PageOf, pageOf } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { SafetyFlagAnswer } from './flags-of.js';
import { SafetyFlagsAsked, SafetyFlagsService } from './safety-flags.service.js';
import { TouchedLot } from './touched-lots.js';

const ChangedFlag = z.strictObject({ reason: Paragraph, content: SafetyFlag });
type ChangedFlag = z.infer<typeof ChangedFlag>;
/** What people came to decide, and on what ground. */
const Decision = z.strictObject({ decision: Paragraph });
type Decision = z.infer<typeof Decision>;
const OfLot = z.strictObject({ lot: Key });
type OfLot = z.infer<typeof OfLot>;

const number = () => shortNumber('safety flag');

@Controller('api/safety-flags')
@UseInterceptors(VersionTag)
export class SafetyFlagsController {
  constructor(private readonly flags: SafetyFlagsService) {}

  @Get()
  @Duty('signed in')
  @Answers('Product-safety flags, the open ones where nothing else is asked', pageOf(SafetyFlagAnswer))
  list(
    @Query(queriedBy(SafetyFlagsAsked)) asked: SafetyFlagsAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<PageOf<SafetyFlagAnswer>> {
    return this.flags.list(by.labId, asked);
  }

  @Get(':n')
  @Duty('signed in')
  @Answers('One safety flag', SafetyFlagAnswer)
  one(@Param('n', number()) n: number, @SignedIn() by: SignedInActor): Promise<SafetyFlagAnswer> {
    return this.flags.one(by.labId, n);
  }

  @Get(':n/history')
  @Duty('signed in')
  @Answers('A safety flag as it was said, each time', z.strictObject({ items: z.array(SafetyFlagAnswer) }))
  history(@Param('n', number()) n: number, @SignedIn() by: SignedInActor) {
    return this.flags.history(by.labId, n);
  }

  @Get(':n/touched')
  @Duty('signed in')
  @Answers(
    'Lots that what was seen may touch, as far as they can be named today',
    z.strictObject({ items: z.array(TouchedLot) }),
  )
  touched(@Param('n', number()) n: number, @SignedIn() by: SignedInActor) {
    return this.flags.touched(by.labId, n);
  }

  @Post()
  @Duty('record', 'review', 'decide', 'draw', 'calibrate', 'define', 'issue', 'trace', 'compare', 'audit')
  @Answers('Raise a product-safety flag', SafetyFlagAnswer)
  raise(@Body(parsedBy(SafetyFlag)) body: SafetyFlag, @SignedIn() by: SignedInActor): Promise<SafetyFlagAnswer> {
    return this.flags.raise(by, body);
  }

  @Put(':n')
  @Duty('record', 'review', 'decide', 'draw', 'calibrate', 'define')
  @Answers('Say more of an open safety flag', SafetyFlagAnswer)
  writeIn(
    @Param('n', number()) n: number,
    @Body(parsedBy(ChangedFlag)) { content, reason }: ChangedFlag,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<SafetyFlagAnswer> {
    return this.flags.writeIn(by, n, { seen, content, reason });
  }

  @Post(':n/closing')
  @HttpCode(200)
  @Duty('decide')
  @Again()
  @Answers('Close a safety flag that others wrote, with what was decided', SafetyFlagAnswer)
  close(
    @Param('n', number()) n: number,
    @Body(parsedBy(Decision)) { decision }: Decision,
    @IfMatch() seen: number,
    @SignedIn() by: SignedInActor,
  ): Promise<SafetyFlagAnswer> {
    return this.flags.close(by, n, seen, decision);
  }

  @Post(':n/packages')
  @HttpCode(202)
  @Duty('audit', 'review', 'decide', 'issue')
  @Answers('Have a lot packed as evidence for a safety flag: a job is begun', JobAnswer)
  async pack(
    @Param('n', number()) n: number,
    @Body(parsedBy(OfLot)) { lot }: OfLot,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<JobAnswer> {
    return located(reply, await this.flags.pack(by, n, lot));
  }
}
