import { Disposition } from '@breakbook/lab';
import { Body, Controller, Get, Param, Post } from '@nestjs/common';
import { z } from 'zod';
import { parsedBy } from '../http/parsed-by.js';
import { shortNumber } from '../http/short-number.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Again, Duty } from '../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../sign-in/signed-in.decorator.js';
import {
  DispositionAnswer,
  DispositionsService,
  NewDisposition,
  SecondSignature,
  SheetAnswer,
} from './dispositions.service.js';

@Controller('api')
export class DispositionsController {
  constructor(private readonly dispositions: DispositionsService) {}

  @Get('lots/:lot/disposition')
  @Duty('signed in')
  @Answers('What whoever decides about a lot is shown, with the digest that a signature names', SheetAnswer)
  sheet(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<SheetAnswer> {
    return this.dispositions.sheet(by.labId, lot);
  }

  @Get('lots/:lot/dispositions')
  @Duty('signed in')
  @Answers('What was decided about a lot', z.strictObject({ items: z.array(Disposition) }))
  ofLot(@Param('lot') lot: string, @SignedIn() by: SignedInActor): Promise<{ items: Disposition[] }> {
    return this.dispositions.ofLot(by.labId, lot);
  }

  @Post('lots/:lot/dispositions')
  @Duty('decide')
  @Again()
  @Answers('Decide about a lot and sign it', DispositionAnswer)
  decide(
    @Param('lot') lot: string,
    @Body(parsedBy(NewDisposition)) body: NewDisposition,
    @SignedIn() by: SignedInActor,
  ): Promise<DispositionAnswer> {
    return this.dispositions.decide(by, lot, body);
  }

  @Get('dispositions/:n')
  @Duty('signed in')
  @Answers('One disposition, with what each signer was shown', DispositionAnswer)
  one(@Param('n', shortNumber('disposition')) n: number, @SignedIn() by: SignedInActor): Promise<DispositionAnswer> {
    return this.dispositions.one(by.labId, n);
  }

  @Post('dispositions/:n/signatures')
  @Duty('decide')
  @Again()
  @Answers('Sign as second decider what another has decided', DispositionAnswer)
  countersign(
    @Param('n', shortNumber('disposition')) n: number,
    @Body(parsedBy(SecondSignature)) body: SecondSignature,
    @SignedIn() by: SignedInActor,
  ): Promise<DispositionAnswer> {
    return this.dispositions.countersign(by, n, body);
  }
}
