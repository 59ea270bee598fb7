import { Instant, Line } from '@breakbook/lab';
import { Body, Controller, Get, HttpCode, Inject, Param, Post, Req, Res } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { parsedBy } from '../../http/parsed-by.js';
import { Answers } from '../../openapi/answers.decorator.js';
import { Again, BeforeSecondFactor, Duty } from '../duty.decorator.js';
import { PUBLIC_ADDRESS } from '../public-address.token.js';
import { type PublicAddress, setSessionCookie } from '../session-cookie.js';
import { Sessions } from '../sessions.js';
import { SignInService } from '../sign-in.service.js';
import { SignedIn, type SignedInActor } from '../signed-in.decorator.js';
import { NewPasskey, PasskeyAnswer, PasskeyOptions } from './passkey-forms.js';
import { Passkeys } from './passkeys.js';
import { relyingParty } from './relying-party.js';
import { SecondFactors } from './second-factors.js';

/** Six digits of a generator, or a recovery code with its dashes. */
const Code = z.strictObject({ code: z.string().min(1).max(100) });

const OwnFactors = z.strictObject({
  codeGenerator: z.boolean(),
  /** So many are left. */
  recoveryCodes: z.number().int(),
  passkeys: z.array(z.strictObject({ id: z.string(), name: Line, addedAt: Instant, usedAt: Instant.nullable() })),
});
const DrawnSecret = z.strictObject({
  secret: z.string(),
  /** The same as an app reads it from a picture: `otpauth://totp/…`. */
  address: z.string(),
});
/** Shown this once; empty where there were some already. */
const RecoveryCodes = z.strictObject({ recoveryCodes: z.array(z.string()) });

/** What one has beside the passphrase, and giving it. */
@Controller('api/me')
export class SecondFactorController {
  constructor(
    private readonly factors: SecondFactors,
    private readonly passkeys: Passkeys,
    private readonly sessions: Sessions,
    private readonly signIn: SignInService,
    @Inject(PUBLIC_ADDRESS) private readonly address: PublicAddress,
  ) {}

  @Get('second-factor')
  @Duty('signed in')
  @BeforeSecondFactor('giving')
  @Answers('What you have beside the passphrase.', OwnFactors)
  async own(@SignedIn() by: SignedInActor): Promise<z.infer<typeof OwnFactors>> {
    const { passkeys, ...others } = await this.factors.of(by);
    return {
      ...others,
      passkeys: passkeys.map(({ addedAt, usedAt, ...key }) => ({
        ...key,
        addedAt: addedAt.toISOString(),
        usedAt: usedAt?.toISOString() ?? null,
      })),
    };
  }

  @Post('second-factor')
  @Duty('signed in')
  @BeforeSecondFactor('giving')
  @HttpCode(204)
  @Answers('Gives a code of the code generator, or a recovery code. The session goes on under a new secret.')
  async give(
    @Body(parsedBy(Code)) { code }: z.infer<typeof Code>,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    await this.factors.check(by, code);
    await this.#given(by, reply);
  }

  @Post('code-generator')
  @Duty('signed in')
  @BeforeSecondFactor('adding')
  @Again()
  @HttpCode(200)
  @Answers('Draws the secret of a code generator. It is in use once a code of it was given.', DrawnSecret)
  async draw(@SignedIn() by: SignedInActor): Promise<z.infer<typeof DrawnSecret>> {
    const { lab } = await this.signIn.me(by);
    return this.factors.draw(by, lab.name);
  }

  @Post('code-generator/confirmation')
  @Duty('signed in')
  @BeforeSecondFactor('adding')
  @Again()
  @HttpCode(200)
  @Answers('Takes the drawn secret into use, with a code of it. Shows recovery codes, this once.', RecoveryCodes)
  async takeIntoUse(
    @Body(parsedBy(Code)) { code }: z.infer<typeof Code>,
    @SignedIn() by: SignedInActor,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<z.infer<typeof RecoveryCodes>> {
    const recoveryCodes = await this.factors.takeIntoUse(by, code);
    await this.#given(by, reply);
    return { recoveryCodes };
  }

  @Post('code-generator/removal')
  @Duty('signed in')
  @Again()
  @HttpCode(204)
  @Answers('Takes the code generator out of use.')
  removeCodeGenerator(@SignedIn() by: SignedInActor): Promise<void> {
    return this.factors.removeCodeGenerator(by);
  }

  @Post('recovery-codes')
  @Duty('signed in')
  @Again()
  @HttpCode(200)
  @Answers('Draws new recovery codes in place of those before. They are shown this once.', RecoveryCodes)
  async newRecoveryCodes(@SignedIn() by: SignedInActor): Promise<z.infer<typeof RecoveryCodes>> {
    return { recoveryCodes: await this.factors.newRecoveryCodes(by) };
  }

  @Post('passkeys/offer')
  @Duty('signed in')
  @BeforeSecondFactor('adding')
  @Again()
  @HttpCode(200)
  @Answers('What a browser needs to have a passkey made (Web Authentication, creation options).', PasskeyOptions)
  async offer(@SignedIn() by: SignedInActor, @Req() request: FastifyRequest) {
    const { name } = await this.signIn.me(by);
    return { ...(await this.passkeys.offer(by, name, relyingParty(request, this.address))) };
  }

  @Post('passkeys')
  @Duty('signed in')
  @BeforeSecondFactor('adding')
  @Again()
  @HttpCode(200)
  @Answers('Adds the passkey that was made. Shows recovery codes, this once.', RecoveryCodes)
  async add(
    @Body(parsedBy(NewPasskey)) made: NewPasskey,
    @SignedIn() by: SignedInActor,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<z.infer<typeof RecoveryCodes>> {
    const recoveryCodes = await this.passkeys.add(by, made, relyingParty(request, this.address));
    await this.#given(by, reply);
    return { recoveryCodes };
  }

  @Post('passkeys/:passkey/removal')
  @Duty('signed in')
  @Again()
  @HttpCode(204)
  @Answers('Takes a passkey out of use.')
  remove(@Param('passkey') passkey: string, @SignedIn() by: SignedInActor): Promise<void> {
    return this.passkeys.remove(by, passkey);
  }

  @Post('second-factor/passkey/question')
  @Duty('signed in')
  @BeforeSecondFactor('giving')
  @HttpCode(200)
  @Answers('What a browser needs to have a passkey sign (Web Authentication, request options).', PasskeyOptions)
  async ask(@SignedIn() by: SignedInActor, @Req() request: FastifyRequest) {
    return { ...(await this.passkeys.ask(by, relyingParty(request, this.address))) };
  }

  @Post('second-factor/passkey')
  @Duty('signed in')
  @BeforeSecondFactor('giving')
  @HttpCode(204)
  @Answers('Gives what a passkey has signed. The session goes on under a new secret.')
  async answer(
    @Body(parsedBy(PasskeyAnswer)) answer: PasskeyAnswer,
    @SignedIn() by: SignedInActor,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    await this.passkeys.check(by, answer, relyingParty(request, this.address));
    await this.#given(by, reply);
  }

  async #given({ labId, sessionId }: SignedInActor, reply: FastifyReply): Promise<void> {
    if (sessionId === undefined) return;
    setSessionCookie(reply, this.address, await this.sessions.confirm({ labId, id: sessionId }, 'second factor'));
  }
}
