import { Module } from '@nestjs/common';
import { RigTokens } from '../rigs/tokens/rig-tokens.js';
import { Credentials } from './credentials.js';
import { Sessions } from './sessions.js';
import { SignInController } from './sign-in.controller.js';
import { SignInService } from './sign-in.service.js';
import { WrongTries } from './wrong-tries.js';

/** Signing in: who calls, by a session or by a rig's token. */
@Module({
  controllers: [SignInController],
  providers: [SignInService, Credentials, Sessions, WrongTries, RigTokens],
  exports: [Credentials, Sessions],
})
export class SignInModule {}
