import { Module } from '@nestjs/common';
import { OldResultsController } from './old-results.controller.js';
import { OldResultsService } from './old-results.service.js';

/** Results of earlier days from tables. */
@Module({ controllers: [OldResultsController], providers: [OldResultsService] })
export class OldResultsModule {}
