import { WhatIfAsked } from '@breakbook/lab';
import { Body, Controller, HttpCode, Param, Post } from '@nestjs/common';
import { parsedBy } from '../http/parsed-by.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import { WhatIfAnswer, WhatIfsService } from './what-ifs.service.js';

@Controller('api/lots')
export class WhatIfsController {
  constructor(private readonly whatIfs: WhatIfsService) {}

  @Post(':lot/what-ifs')
  @HttpCode(200)
  @Duty('signed in')
  @Answers('What a lot would come to under another plan revision or limit: worked out, and kept nowhere', WhatIfAnswer)
  ask(
    @Param('lot') lot: string,
    @Body(parsedBy(WhatIfAsked)) asked: WhatIfAsked,
    @SignedIn() by: SignedInActor,
  ): Promise<WhatIfAnswer> {
    return this.whatIfs.ask(by.labId, lot, asked);
  }
}
