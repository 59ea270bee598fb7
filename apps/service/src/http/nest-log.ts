import type { LoggerService } from '@nestjs/common';
import type { Logger } from 'pino';

/** The framework's messages in the service's one log; its chatter at start-up is for those who look for it. */
export class NestLog implements LoggerService {
  constructor(private readonly pino: Logger) {}

  log(message: unknown): void {
    this.pino.debug({ message });
  }

  warn(message: unknown): void {
    this.pino.warn({ message });
  }

  error(message: unknown): void {
    this.pino.error({ message });
  }
}
