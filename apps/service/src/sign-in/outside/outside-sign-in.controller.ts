import { Key, Line } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Inject, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { parsedBy } from '../../http/parsed-by.js';
import { Answers } from '../../openapi/answers.decorator.js';
import { deviceOf } from '../device.js';
import { Duty } from '../duty.decorator.js';
import { PUBLIC_ADDRESS } from '../public-address.token.js';
import {
  awaySecretIn,
  clearAwayCookie,
  type PublicAddress,
  secretIn,
  setAwayCookie,
  setSessionCookie,
} from '../session-cookie.js';
import { MyselfAnswer } from '../sign-in.controller.js';
import type { Myself } from '../sign-in.service.js';
import { OutsideSignIn } from './outside-sign-in.js';

const Ways = z.strictObject({
  /** The lab must be named, since there are several. */
  severalLabs: z.boolean(),
  /** A provider by whose word people may sign in, as people call it. */
  outside: z.strictObject({ name: Line }).nullable(),
});
const Begin = z.strictObject({ lab: Key.optional() });
const Begun = z.strictObject({
  /** Of the provider's page, where the browser goes next. */
  address: z.string(),
});
const Return = z.strictObject({
  /** What stands behind the "?" of the address by which the browser came back. */
  query: z.string().max(8000),
});

/** Signing in by the word of a provider, and what a sign-in page needs to know. */
@Controller('api/sign-in')
export class OutsideSignInController {
  constructor(
    private readonly outside: OutsideSignIn,
    @Inject(PUBLIC_ADDRESS) private readonly address: PublicAddress,
  ) {}

  @Get('ways')
  @Duty('anybody')
  @Answers('How people sign in here.', Ways)
  ways(): Promise<z.infer<typeof Ways>> {
    return this.outside.ways();
  }

  @Post('outside')
  @Duty('anybody')
  @HttpCode(200)
  @Answers('Begins a sign-in by the provider: the browser goes to the address that is answered.', Begun)
  async begin(
    @Body(parsedBy(Begin)) { lab }: z.infer<typeof Begin>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<z.infer<typeof Begun>> {
    const { address, secret } = await this.outside.begin(lab, request.headers.host ?? '');
    setAwayCookie(reply, this.address, secret);
    return { address };
  }

  @Post('outside/return')
  @Duty('anybody')
  @HttpCode(200)
  @Answers('Ends it, with what the provider sent back. Begins a session: the answer sets its cookie.', MyselfAnswer)
  async finish(
    @Body(parsedBy(Return)) { query }: z.infer<typeof Return>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Myself> {
    clearAwayCookie(reply, this.address);
    const { secret, me } = await this.outside.finish(
      awaySecretIn(request, this.address),
      { query, host: request.headers.host ?? '' },
      { before: secretIn(request, this.address), device: deviceOf(request) },
    );
    request.log.info({ person: me.person, lab: me.lab.lab, from: request.ip }, 'signed in by the provider');
    setSessionCookie(reply, this.address, secret);
    return me;
  }
}
