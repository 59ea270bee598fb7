import { Module } from '@nestjs/common';
import { RigTokensModule } from '../rigs/tokens/rig-tokens.module.js';
import { Credentials } from './credentials.js';
import { Sessions } from './sessions.js';
import { SignInController } from './sign-in.controller.js';
import { SignInService } from './sign-in.service.js';
import { WrongTries } from './wrong-tries.js';

/** Signing in: who calls, by a session or by a rig's token. */
@Module({
  imports: [RigTokensModule],
  controllers: [SignInController],
  providers: [SignInService, Credentials, Sessions, WrongTries],
  exports: [Credentials, Sessions],
})
export class SignInModule {}
