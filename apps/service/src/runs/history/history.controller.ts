import { Records } from '@breakbook/records';
import { Controller, Get, Param } from '@nestjs/common';
import { z } from 'zod';
import { Answers } from '../../openapi/answers.decorator.js';
import { Duty } from '../../sign-in/duty.decorator.js';
import { SignedIn, type SignedInActor } from '../../sign-in/signed-in.decorator.js';
import { runHistory, SaidOfRun } from './run-history.js';

/** What was said of a run and corrected since, each word beside the one before. */
@Controller('api/runs/:run/history')
export class RunHistoryController {
  constructor(private readonly records: Records) {}

  @Get()
  @Duty('signed in')
  @Answers(
    'Everything that was said of a run, with what each correction changed and when it was entered',
    z.strictObject({ items: z.array(SaidOfRun) }),
  )
  async ofRun(@Param('run') run: string, @SignedIn() by: SignedInActor): Promise<{ items: SaidOfRun[] }> {
    return { items: await runHistory(this.records.read(by.labId), run) };
  }
}
