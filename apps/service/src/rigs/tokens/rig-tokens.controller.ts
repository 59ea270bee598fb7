import { Instant, Key, Line, Paragraph, Refusal } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../../http/parsed-by.js';
import { Answers } from '../../openapi/answers.decorator.js';
import { Because } from '../../records/kept.js';
import { Again, Duty } from '../../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../../sign-in/signed-in.decorator.js';
import { type ListedToken, RigTokenRecords } from './rig-token-records.js';

const LONGEST_DAYS = 365;

const NewToken = z.strictObject({
  /** Where it will be used. */
  note: Line,
  days: z.number().int().min(1).max(LONGEST_DAYS),
});

const TokenAnswer = z.strictObject({
  number: z.number().int().min(1),
  note: Line,
  at: Instant,
  by: Key,
  expiresAt: Instant,
  state: z.enum(['in force', 'revoked', 'expired']),
  revoked: z.strictObject({ at: Instant, by: Key, reason: Paragraph }).optional(),
});

@Controller('api/rigs/:rig/tokens')
export class RigTokensController {
  constructor(private readonly tokens: RigTokenRecords) {}

  @Get()
  @Duty('administer', 'audit')
  @Answers("The tokens of a rig's computer, without what they are.", z.strictObject({ items: z.array(TokenAnswer) }))
  async list(@Param('rig') rig: string, @SignedIn() by: SignedInActor): Promise<{ items: ListedToken[] }> {
    return { items: await this.tokens.list(by.labId, rig) };
  }

  @Post()
  @Duty('administer')
  @Again()
  @Answers(
    "Makes a token for a rig's computer. The answer shows it, this once.",
    TokenAnswer.extend({ token: z.string() }),
  )
  make(
    @Param('rig') rig: string,
    @Body(parsedBy(NewToken)) token: z.infer<typeof NewToken>,
    @SignedIn() by: SignedInActor,
  ): Promise<ListedToken & { token: string }> {
    return this.tokens.make(by, rig, token);
  }

  @Post(':number/revocation')
  @Duty('administer')
  @Again()
  @HttpCode(200)
  @Answers('Ends a token before its time.', TokenAnswer)
  revoke(
    @Param('rig') rig: string,
    @Param('number') number: string,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<ListedToken> {
    if (!/^[1-9]\d{0,8}$/.test(number))
      throw new Refusal({ code: 'request.not-found', detail: `Rig ${rig} has no such token.` });
    return this.tokens.revoke(by, rig, Number(number), reason);
  }
}
