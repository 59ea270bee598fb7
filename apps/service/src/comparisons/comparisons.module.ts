import { Module } from '@nestjs/common';
import { CodesController } from './codes.controller.js';
import { ComparisonReportsService } from './comparison-reports.service.js';
import { ComparisonsController } from './comparisons.controller.js';
import { ComparisonsService } from './comparisons.service.js';
import { ComparisonResultsController } from './results.controller.js';
import { ComparisonResultsService } from './results.service.js';

/** Comparisons: items of unknown making, lots or suppliers, compared with what is known. */
@Module({
  controllers: [ComparisonsController, CodesController, ComparisonResultsController],
  providers: [ComparisonsService, ComparisonResultsService, ComparisonReportsService],
})
export class ComparisonsModule {}
