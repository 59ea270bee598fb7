import { Refusal } from '@breakbook/lab';
import { Controller, Get } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Duty } from '../sign-in/duty.decorator.js';

/** Is the process alive, and can it do its work? */
@Controller('health')
export class HealthController {
  constructor(private readonly dataSource: DataSource) {}

  @Get('live')
  @Duty('anybody')
  live(): { live: true } {
    return { live: true };
  }

  @Get('ready')
  @Duty('anybody')
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
