import { Duty as DutyName, Key, Line, Refusal } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Inject, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { deviceOf } from './device.js';
import { BeforeSecondFactor, Duty, WithGivenPassphrase } from './duty.decorator.js';
import { LONGEST } from './passphrase-length.js';
import { PUBLIC_ADDRESS } from './public-address.token.js';
import { clearSessionCookie, type PublicAddress, secretIn, setSessionCookie } from './session-cookie.js';
import { type Myself, SignInService } from './sign-in.service.js';
import { SignedIn, type SignedInActor } from './signed-in.decorator.js';

/** A passphrase to be compared with the kept one: what it may be was asked when it was chosen. */
const Passphrase = z.string().max(4 * LONGEST);

const SignIn = z.strictObject({
  /** Needed where there are several labs in the installation. */
  lab: Key.optional(),
  person: Key,
  passphrase: Passphrase,
});
const OwnPassphrase = z.strictObject({ current: Passphrase, passphrase: Passphrase });
const PassphraseAgain = z.strictObject({ passphrase: Passphrase });

export const MyselfAnswer = z.strictObject({
  lab: z.strictObject({ lab: Key, name: Line }),
  person: Key,
  name: Line,
  role: Line,
  duties: z.array(DutyName),
  /** The passphrase was given by somebody else; until an own one is chosen nothing else is open. */
  givenPassphrase: z.boolean(),
  /** Whether there is something beside the passphrase, and whether it was given in this session. */
  secondFactor: z.enum(['none', 'owed', 'given']),
  /** For what duties or lab ask for it. */
  secondFactorNeeded: z.enum(['nothing', 'signing', 'everything']),
});

@Controller('api')
export class SignInController {
  constructor(
    private readonly service: SignInService,
    @Inject(PUBLIC_ADDRESS) private readonly address: PublicAddress,
  ) {}

  @Post('sign-in')
  @Duty('anybody')
  @Answers('Begins a session: the answer sets its cookie.', MyselfAnswer)
  @HttpCode(200)
  async signIn(
    @Body(parsedBy(SignIn)) given: z.infer<typeof SignIn>,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<Myself> {
    const { secret, me } = await this.service
      .signIn(given, { before: secretIn(request, this.address), device: deviceOf(request) })
      .catch((error: unknown) => {
        // Without the name that was typed: now and then it is a passphrase.
        if (error instanceof Refusal) request.log.info({ code: error.code, from: request.ip }, 'a sign-in was refused');
        throw error;
      });
    request.log.info({ person: me.person, lab: me.lab.lab, from: request.ip }, 'signed in');
    setSessionCookie(reply, this.address, secret);
    return me;
  }

  @Post('sign-out')
  @Duty('anybody')
  @Answers('Ends the session.')
  @HttpCode(204)
  async signOut(@Req() request: FastifyRequest, @Res({ passthrough: true }) reply: FastifyReply): Promise<void> {
    await this.service.signOut(secretIn(request, this.address));
    clearSessionCookie(reply, this.address);
  }

  @Get('me')
  @Duty('signed in')
  @WithGivenPassphrase()
  @BeforeSecondFactor('giving')
  @Answers('Who is signed in.', MyselfAnswer)
  me(@SignedIn() by: SignedInActor): Promise<Myself> {
    return this.service.me(by);
  }

  @Post('me/again')
  @Duty('signed in')
  @BeforeSecondFactor('adding')
  @HttpCode(204)
  @Answers('Gives the passphrase again, for what needs it fresh. The session goes on under a new secret.')
  async again(
    @Body(parsedBy(PassphraseAgain)) { passphrase }: z.infer<typeof PassphraseAgain>,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    const { sessionId } = by;
    if (sessionId === undefined) throw new Error('A person came in without a session.');
    setSessionCookie(reply, this.address, await this.service.again({ ...by, sessionId }, passphrase));
  }

  @Post('me/passphrase')
  @Duty('signed in')
  @WithGivenPassphrase()
  @HttpCode(204)
  @Answers('Takes an own passphrase in place of the one before. Every other session ends.')
  async choosePassphrase(
    @Body(parsedBy(OwnPassphrase)) { current, passphrase }: z.infer<typeof OwnPassphrase>,
    @SignedIn() by: SignedInActor,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    const secret = await this.service.choosePassphrase(by, current, passphrase, deviceOf(request));
    setSessionCookie(reply, this.address, secret);
  }
}
