import { Refusal } from '@breakbook/lab';
import { Controller, Get } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { z } from 'zod';
import { Answers } from '../openapi/answers.decorator.js';
import { Duty } from '../sign-in/duty.decorator.js';

/** Is the process alive, and can it do its work? */
@Controller('health')
export class HealthController {
  constructor(private readonly dataSource: DataSource) {}

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
    try {
      await this.dataSource.query('select 1');
    } catch {
      throw new Refusal({
        code: 'service.unavailable',
        detail: 'The database does not answer. Try again in a few seconds.',
      });
    }
    return { ready: true };
  }
}
