import { DocumentKeys, LedgerKeys, type RawStore, Records } from '@breakbook/records';
import { type DynamicModule, Module } from '@nestjs/common';
import type pg from 'pg';
import { DataSource } from 'typeorm';
import { AttachmentsModule } from './attachments/attachments.module.js';
import { CalibrationsModule } from './calibrations/calibrations.module.js';
import { CertificatesModule } from './certificates/certificates.module.js';
import { ComparisonsModule } from './comparisons/comparisons.module.js';
import { CompetenceModule } from './competence/competence.module.js';
import { ComputeModule } from './compute/compute.module.js';
import { ConcessionsModule } from './concessions/concessions.module.js';
import { CustodyModule } from './custody/custody.module.js';
import { DispositionsModule } from './dispositions/dispositions.module.js';
import { DocumentChecksModule } from './document-checks/document-checks.module.js';
import { DocumentsModule } from './documents/documents.module.js';
import { EvaluationsModule } from './evaluations/evaluations.module.js';
import { HealthController } from './health/health.controller.js';
import { DATABASE } from './jobs/job-bell.js';
import { JobsModule } from './jobs/jobs.module.js';
import { KeepingModule } from './keeping/keeping.module.js';
import { LabsModule } from './labs/labs.module.js';
import { LayoutsModule } from './layouts/layouts.module.js';
import { CHECKPOINT_COPIES } from './ledger/checkpoint-keeper.js';
import { LedgerModule } from './ledger/ledger.module.js';
import { LimitsModule } from './limits/limits.module.js';
import { LotsModule } from './lots/lots.module.js';
import { MethodsModule } from './methods/methods.module.js';
import { NonconformitiesModule } from './nonconformities/nonconformities.module.js';
import { ObservationsModule } from './observations/observations.module.js';
import { OldResultsModule } from './old-results/old-results.module.js';
import { OpenApiModule } from './openapi/openapi.module.js';
import { OpinionsModule } from './opinions/opinions.module.js';
import { PackagesModule } from './packages/packages.module.js';
import { PeopleModule } from './people/people.module.js';
import { PlanningModule } from './planning/planning.module.js';
import { PlansModule } from './plans/plans.module.js';
import { ProductsModule } from './products/products.module.js';
import { ProposalsModule } from './proposals/proposals.module.js';
import { type CallerQuotas, QUOTAS } from './quotas/quotas.js';
import { QuotasModule } from './quotas/quotas.module.js';
import { RecomputationsModule } from './recomputations/recomputations.module.js';
import { RAW_STORE } from './records/raw-store.token.js';
import { ReferencesModule } from './references/references.module.js';
import { RetestsModule } from './retests/retests.module.js';
import { RigsModule } from './rigs/rigs.module.js';
import { RunsModule } from './runs/runs.module.js';
import { SafetyFlagsModule } from './safety-flags/safety-flags.module.js';
import { SensorsModule } from './sensors/sensors.module.js';
import { Provider, type ProviderSettings } from './sign-in/outside/provider.js';
import { PROVIDER } from './sign-in/outside/provider.token.js';
import { PUBLIC_ADDRESS } from './sign-in/public-address.token.js';
import { SealedSecrets } from './sign-in/second-factor/sealed-secrets.js';
import type { PublicAddress } from './sign-in/session-cookie.js';
import { SignInModule } from './sign-in/sign-in.module.js';
import { SigningModule } from './signing/signing.module.js';
import { SpecimensModule } from './specimens/specimens.module.js';
import { UnreadModule } from './unread/unread.module.js';
import { WhatIfsModule } from './what-ifs/what-ifs.module.js';
import { WorkersModule } from './workers/workers.module.js';

/** Outside the database: the lab's own keys, and copies of what they signed. */
export interface KeyPlaces {
  /** A folder that its owner alone may enter. */
  folder: string;
  /** A folder that the lab does not control, such as one of another machine: every checkpoint of the ledger is written there too. */
  checkpointCopies?: string;
}

/** What every noun's module may ask for: the records and the raw store of one database. */
@Module({})
class RecordsModule {}

/** The service: one module a noun. */
@Module({
  imports: [
    SignInModule,
    PeopleModule,
    WorkersModule,
    QuotasModule,
    JobsModule,
    LotsModule,
    RunsModule,
    UnreadModule,
    DocumentChecksModule,
    DocumentsModule,
    EvaluationsModule,
    AttachmentsModule,
    CalibrationsModule,
    CertificatesModule,
    ComparisonsModule,
    CompetenceModule,
    ComputeModule,
    ConcessionsModule,
    CustodyModule,
    DispositionsModule,
    KeepingModule,
    LabsModule,
    LayoutsModule,
    LedgerModule,
    LimitsModule,
    MethodsModule,
    NonconformitiesModule,
    ObservationsModule,
    OldResultsModule,
    OpenApiModule,
    OpinionsModule,
    PackagesModule,
    PlanningModule,
    PlansModule,
    ProductsModule,
    ProposalsModule,
    RecomputationsModule,
    ReferencesModule,
    WhatIfsModule,
    RetestsModule,
    RigsModule,
    SafetyFlagsModule,
    SensorsModule,
    SigningModule,
    SpecimensModule,
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
  keys: KeyPlaces,
  quotas: CallerQuotas,
  provider?: ProviderSettings,
): DynamicModule {
  const shared = [
    { provide: DataSource, useValue: dataSource },
    { provide: Records, useValue: new Records(dataSource) },
    { provide: RAW_STORE, useValue: store },
    { provide: PUBLIC_ADDRESS, useValue: address },
    { provide: DATABASE, useValue: database },
    { provide: LedgerKeys, useValue: new LedgerKeys(keys.folder) },
    { provide: DocumentKeys, useValue: new DocumentKeys(keys.folder) },
    { provide: PROVIDER, useValue: provider && new Provider(provider, address) },
    { provide: SealedSecrets, useValue: new SealedSecrets(keys.folder) },
    { provide: QUOTAS, useValue: quotas },
    { provide: CHECKPOINT_COPIES, useValue: keys.checkpointCopies },
  ];
  return {
    module: AppModule,
    imports: [
      { module: RecordsModule, global: true, providers: shared, exports: shared.map(({ provide }) => provide) },
    ],
  };
}
