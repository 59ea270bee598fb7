import { Module } from '@nestjs/common';
import { RigTokensModule } from '../rigs/tokens/rig-tokens.module.js';
import { Credentials } from './credentials.js';
import { LabsOfSignIn } from './labs-of-sign-in.js';
import { OutsideSignInController } from './outside/outside-sign-in.controller.js';
import { OutsideSignIn } from './outside/outside-sign-in.js';
import { OwnSessionsController } from './own-sessions.controller.js';
import { Passkeys } from './second-factor/passkeys.js';
import { SecondFactorController } from './second-factor/second-factor.controller.js';
import { SecondFactors } from './second-factor/second-factors.js';
import { Sessions } from './sessions.js';
import { SignInController } from './sign-in.controller.js';
import { SignInService } from './sign-in.service.js';
import { WrongTries } from './wrong-tries.js';

/** Signing in: who calls, by a session or by a rig's token. */
@Module({
  imports: [RigTokensModule],
  controllers: [SignInController, SecondFactorController, OwnSessionsController, OutsideSignInController],
  providers: [SignInService, LabsOfSignIn, Credentials, Sessions, WrongTries, SecondFactors, Passkeys, OutsideSignIn],
  exports: [Credentials, Sessions],
})
export class SignInModule {}
