import { setTimeout as after } from 'node:timers/promises';
import { Refusal } from '@breakbook/lab';
import { Controller, Get } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { z } from 'zod';
import { JobRunner } from '../jobs/job-runner.js';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';

/** A database that says nothing for so long, in ms, serves nobody. */
const LONGEST_SILENCE = 3000;

/** Is the process alive, and can it do its work? */
@Controller('health')
export class HealthController {
  constructor(
    private readonly dataSource: DataSource,
    private readonly jobs: JobRunner,
  ) {}

  @Get('live')
  @Duty('anybody')
  @Answers('Is the process alive?', z.strictObject({ live: z.literal(true) }))
  live(): { live: true } {
    return { live: true };
  }

  @Get('ready')
  @Duty('anybody')
  @Answers('Can it do its work?', z.strictObject({ ready: z.literal(true) }))
  async ready(): Promise<{ ready: true }> {
    if (!(await this.#databaseAnswers()))
      throw new Refusal({
        code: 'service.unavailable',
        detail: 'The database does not answer. Try again in a few seconds.',
      });
    if (!this.jobs.atWork)
      throw new Refusal({
        code: 'service.unavailable',
        detail: 'Jobs are not begun, since the connection they are heard on is away. Try again in a second.',
      });
    return { ready: true };
  }

  async #databaseAnswers(): Promise<boolean> {
    const enough = new AbortController();
    const answers = this.dataSource.query('select 1').then(
      () => true,
      () => false,
    );
    const silent = after(LONGEST_SILENCE, false, { signal: enough.signal }).catch(() => false);
    try {
      return await Promise.race([answers, silent]);
    } finally {
      enough.abort();
    }
  }
}
