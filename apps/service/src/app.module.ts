import { type RawStore, Records } from '@breakbook/records';
import { type DynamicModule, Module } from '@nestjs/common';
import type pg from 'pg';
import { DataSource } from 'typeorm';
import { DocumentsModule } from './documents/documents.module.js';
import { EvaluationsModule } from './evaluations/evaluations.module.js';
import { HealthController } from './health/health.controller.js';
import { DATABASE } from './jobs/job-bell.js';
import { JobsModule } from './jobs/jobs.module.js';
import { LotsModule } from './lots/lots.module.js';
import { PeopleModule } from './people/people.module.js';
import { RAW_STORE } from './records/raw-store.token.js';
import { RunsModule } from './runs/runs.module.js';
import { PUBLIC_ADDRESS } from './sign-in/public-address.token.js';
import { type PublicAddress } from './sign-in/session-cookie.js';
import { SignInModule } from './sign-in/sign-in.module.js';
import { UnreadModule } from './unread/unread.module.js';
import { WorkersModule } from './workers/workers.module.js';

/** What every noun's module may ask for: the records and the raw store of one database. */
@Module({})
class RecordsModule {}

/** The service: one module a noun. */
@Module({
  imports: [
    SignInModule,
    PeopleModule,
    WorkersModule,
    JobsModule,
    LotsModule,
    RunsModule,
    UnreadModule,
    DocumentsModule,
    EvaluationsModule,
  ],
  controllers: [HealthController],
})
class AppModule {}

/** The service, wired to one database. */
export function serviceOn(
  dataSource: DataSource,
  store: RawStore,
  address: PublicAddress,
  database: pg.ClientConfig,
): DynamicModule {
  const shared = [
    { provide: DataSource, useValue: dataSource },
    { provide: Records, useValue: new Records(dataSource) },
    { provide: RAW_STORE, useValue: store },
    { provide: PUBLIC_ADDRESS, useValue: address },
    { provide: DATABASE, useValue: database },
  ];
  return {
    module: AppModule,
    imports: [
      { module: RecordsModule, global: true, providers: shared, exports: shared.map(({ provide }) => provide) },
    ],
  };
}
