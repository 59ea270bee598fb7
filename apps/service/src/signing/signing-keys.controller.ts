import { KeyList, SigningKeys } from '@breakbook/evidence';
import { Refusal } from '@breakbook/lab';
import { Records } from '@breakbook/records';
import { Body, Controller, Get, HttpCode, Param, Post } from '@nestjs/common';
import { parsedBy } from '../http/parsed-by.js';
import { shortNumber } from '../http/short-number.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Because } from '../records/kept.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { SigningKeysService } from './signing-keys.service.js';

/** Keys that documents are signed with: published to whoever verifies, replaced and revoked by whoever administers. */
@Controller('api')
export class SigningKeysController {
  constructor(
    private readonly keys: SigningKeysService,
    private readonly records: Records,
  ) {}

  /** By the id that a ledger is named by, not by the name that people sign in with: which labs there are is told to nobody. */
  @Get('keys/:lab')
  @Duty('anybody')
  @Answers('The public keys of a lab: those of its documents, from when to when, and those of its ledger', KeyList)
  async published(@Param('lab') lab: string): Promise<KeyList> {
    if (!(await this.records.labs()).some(({ id }) => id === lab))
      throw new Refusal({ code: 'request.not-found', detail: 'There is no such lab in this installation.' });
    return this.keys.listed(lab);
  }

  @Get('signing-keys')
  @Duty('signed in')
  @Answers("The public keys of one's own lab, as they are published", KeyList)
  own(@SignedIn() by: SignedInActor): Promise<KeyList> {
    return this.keys.listed(by.labId);
  }

  @Post('signing-keys')
  @Duty('administer')
  @Again()
  @Answers('Sign from now on with a new pair of keys, and retire the one in use', SigningKeys)
  replace(@Body(parsedBy(Because)) { reason }: Because, @SignedIn() by: SignedInActor): Promise<SigningKeys> {
    return this.keys.replace(by, reason);
  }

  @Post('signing-keys/:n/revocation')
  @Duty('administer')
  @Again()
  @HttpCode(200)
  @Answers('Say that nothing a pair of keys signed is to be trusted', SigningKeys)
  revoke(
    @Param('n', shortNumber('pair of signing keys')) n: number,
    @Body(parsedBy(Because)) { reason }: Because,
    @SignedIn() by: SignedInActor,
  ): Promise<SigningKeys> {
    return this.keys.revoke(by, n, reason);
  }
}
