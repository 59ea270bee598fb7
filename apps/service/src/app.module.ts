import { type RawStore, Records } from '@breakbook/records';
import { type DynamicModule, Module } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { HealthController } from './health/health.controller.js';
import { LotsController } from './lots/lots.controller.js';
import { LotsService } from './lots/lots.service.js';
import { RAW_STORE } from './records/raw-store.token.js';

/** The service, wired to one database. */
@Module({})
export class AppModule {
  static on(dataSource: DataSource, store: RawStore): DynamicModule {
    return {
      module: AppModule,
      controllers: [HealthController, LotsController],
      providers: [
        { provide: DataSource, useValue: dataSource },
        { provide: Records, useValue: new Records(dataSource) },
        { provide: RAW_STORE, useValue: store },
        LotsService,
      ],
    };
  }
}
