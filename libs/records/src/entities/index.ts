import { Attachment } from './attachment.js';
import { AttachmentVersion } from './attachment-version.js';
import { BatchDocument } from './batch-document.js';
import { Calibration } from './calibration.js';
import { CalibrationVersion } from './calibration-version.js';
import { Certificate } from './certificate.js';
import { CertificateSending } from './certificate-sending.js';
import { CertificateVersion } from './certificate-version.js';
import { CodeList } from './code-list.js';
import { Comparison } from './comparison.js';
import { ComparisonConclusion } from './comparison-conclusion.js';
import { ComparisonConsent } from './comparison-consent.js';
import { ComparisonDecision } from './comparison-decision.js';
import { ComparisonDocument } from './comparison-document.js';
import { ComparisonItem } from './comparison-item.js';
import { ComparisonLot } from './comparison-lot.js';
import { ComparisonResult } from './comparison-result.js';
import { ComparisonRevision } from './comparison-revision.js';
import { ComparisonSetAside } from './comparison-set-aside.js';
import { ComparisonWithdrawal } from './comparison-withdrawal.js';
import { Competence } from './competence.js';
import { Concession } from './concession.js';
import { ConcessionVersion } from './concession-version.js';
import { CredentialChange } from './credential-change.js';
import { CustodyEvent } from './custody-event.js';
import { Destruction } from './destruction.js';
import { Disposal } from './disposal.js';
import { DisposalSpecimen } from './disposal-specimen.js';
import { DisposalVersion } from './disposal-version.js';
import { Disposition } from './disposition.js';
import { DispositionSignature } from './disposition-signature.js';
import { Document } from './document.js';
import { DocumentBatch } from './document-batch.js';
import { DocumentContent } from './document-content.js';
import { DocumentSealing } from './document-sealing.js';
import { DocumentSubject } from './document-subject.js';
import { Evaluation } from './evaluation.js';
import { EvaluationInput } from './evaluation-input.js';
import { Examination } from './examination.js';
import { Lab } from './lab.js';
import { LabVersion } from './lab-version.js';
import { Layout } from './layout.js';
import { LayoutRevision } from './layout-revision.js';
import { LedgerCheckpoint } from './ledger-checkpoint.js';
import { LedgerEntry } from './ledger-entry.js';
import { LegalHold } from './legal-hold.js';
import { LegalHoldLifting } from './legal-hold-lifting.js';
import { LegalHoldLot } from './legal-hold-lot.js';
import { LegalHoldSpecimen } from './legal-hold-specimen.js';
import { Limit } from './limit.js';
import { LimitRevision } from './limit-revision.js';
import { Lot } from './lot.js';
import { LotClosing } from './lot-closing.js';
import { LotKeeping } from './lot-keeping.js';
import { LotPackage } from './lot-package.js';
import { LotVersion } from './lot-version.js';
import { Measurement } from './measurement.js';
import { Method } from './method.js';
import { MethodRevision } from './method-revision.js';
import { Nonconformity } from './nonconformity.js';
import { NonconformityLot } from './nonconformity-lot.js';
import { NonconformityVersion } from './nonconformity-version.js';
import { Observation } from './observation.js';
import { ObservationVersion } from './observation-version.js';
import { OldResult } from './old-result.js';
import { OldTable } from './old-table.js';
import { OldTableWithdrawal } from './old-table-withdrawal.js';
import { Opinion } from './opinion.js';
import { OpinionVersion } from './opinion-version.js';
import { OutsideIdentity } from './outside-identity.js';
import { Passage } from './passage.js';
import { Person } from './person.js';
import { PersonVersion } from './person-version.js';
import { Plan } from './plan.js';
import { PlanLine } from './plan-line.js';
import { PlanLineLimit } from './plan-line-limit.js';
import { PlanRevision } from './plan-revision.js';
import { Product } from './product.js';
import { ProductVersion } from './product-version.js';
import { Proposal } from './proposal.js';
import { ProposalDecision } from './proposal-decision.js';
import { ProtectedNote } from './protected-note.js';
import { RawBytes } from './raw-bytes.js';
import { Reading } from './reading.js';
import { Recomputation } from './recomputation.js';
import { Reference } from './reference.js';
import { ReferenceRevision } from './reference-revision.js';
import { ReferenceUnit } from './reference-unit.js';
import { Retest } from './retest.js';
import { RetestUse } from './retest-use.js';
import { Rig } from './rig.js';
import { RigToken } from './rig-token.js';
import { RigTokenRevocation } from './rig-token-revocation.js';
import { RigVersion } from './rig-version.js';
import { Run } from './run.js';
import { RunChannel } from './run-channel.js';
import { RunFile } from './run-file.js';
import { RunReview } from './run-review.js';
import { RunVersion } from './run-version.js';
import { SafetyFlag } from './safety-flag.js';
import { SafetyFlagLot } from './safety-flag-lot.js';
import { SafetyFlagPackage } from './safety-flag-package.js';
import { SafetyFlagVersion } from './safety-flag-version.js';
import { SamplingRecord } from './sampling-record.js';
import { Sensor } from './sensor.js';
import { SensorPlacement } from './sensor-placement.js';
import { SensorVersion } from './sensor-version.js';
import { SigningKey } from './signing-key.js';
import { SigningKeyEnding } from './signing-key-ending.js';
import { Specimen } from './specimen.js';
import { SpecimenKeeping } from './specimen-keeping.js';
import { SpecimenState } from './specimen-state.js';
import { SpecimenUse } from './specimen-use.js';
import { SpecimenVersion } from './specimen-version.js';
import { UnreadClosing } from './unread-closing.js';
import { UnreadFile } from './unread-file.js';
import { UnreadPart } from './unread-part.js';
import { ValidityDecision } from './validity-decision.js';
import { VerdictSet } from './verdict-set.js';

/** Every table whose rows are evidence. Each row is named in the ledger, and `verifyRecords` holds them to it. */
export const EVIDENCE = [
  CertificateVersion,
  CertificateSending,
  Certificate,
  SigningKeyEnding,
  SigningKey,
  BatchDocument,
  DocumentBatch,
  DocumentSubject,
  DocumentSealing,
  DocumentContent,
  Lab,
  LabVersion,
  Person,
  PersonVersion,
  CredentialChange,
  OutsideIdentity,
  Product,
  ProductVersion,
  Method,
  MethodRevision,
  Limit,
  LimitRevision,
  Plan,
  PlanRevision,
  PlanLine,
  PlanLineLimit,
  Proposal,
  ProposalDecision,
  Rig,
  RigVersion,
  RigToken,
  RigTokenRevocation,
  Sensor,
  SensorVersion,
  SensorPlacement,
  Calibration,
  CalibrationVersion,
  Layout,
  LayoutRevision,
  Lot,
  LotVersion,
  LotClosing,
  LotPackage,
  SamplingRecord,
  Specimen,
  SpecimenVersion,
  SpecimenState,
  SpecimenUse,
  RawBytes,
  Run,
  RunVersion,
  RunChannel,
  Passage,
  RunFile,
  Measurement,
  Examination,
  ValidityDecision,
  Destruction,
  Reading,
  VerdictSet,
  Evaluation,
  EvaluationInput,
  Document,
  Recomputation,
  UnreadFile,
  UnreadPart,
  UnreadClosing,
  Attachment,
  AttachmentVersion,
  Nonconformity,
  NonconformityVersion,
  NonconformityLot,
  Concession,
  ConcessionVersion,
  RunReview,
  Retest,
  RetestUse,
  Disposition,
  DispositionSignature,
  Competence,
  Opinion,
  OpinionVersion,
  OldTable,
  OldResult,
  OldTableWithdrawal,
  LotKeeping,
  SpecimenKeeping,
  LegalHold,
  LegalHoldLot,
  LegalHoldSpecimen,
  LegalHoldLifting,
  Disposal,
  DisposalSpecimen,
  DisposalVersion,
  SafetyFlag,
  SafetyFlagVersion,
  SafetyFlagLot,
  SafetyFlagPackage,
  Reference,
  ReferenceRevision,
  ReferenceUnit,
  Comparison,
  ComparisonRevision,
  ComparisonItem,
  ComparisonLot,
  ComparisonDecision,
  ComparisonWithdrawal,
  ComparisonSetAside,
  ComparisonConsent,
  CustodyEvent,
  Observation,
  ObservationVersion,
  ProtectedNote,
  CodeList,
  ComparisonResult,
  ComparisonConclusion,
  ComparisonDocument,
] as const;

export const ENTITIES = [...EVIDENCE, LedgerEntry, LedgerCheckpoint];

export * from './attachment.js';
export * from './attachment-version.js';
export * from './batch-document.js';
export * from './calibration.js';
export * from './calibration-version.js';
export * from './certificate.js';
export * from './certificate-sending.js';
export * from './certificate-version.js';
export * from './code-list.js';
export * from './comparison.js';
export * from './comparison-conclusion.js';
export * from './comparison-consent.js';
export * from './comparison-decision.js';
export * from './comparison-document.js';
export * from './comparison-item.js';
export * from './comparison-lot.js';
export * from './comparison-result.js';
export * from './comparison-revision.js';
export * from './comparison-set-aside.js';
export * from './comparison-withdrawal.js';
export * from './competence.js';
export * from './concession.js';
export * from './concession-version.js';
export * from './credential-change.js';
export * from './custody-event.js';
export * from './destruction.js';
export * from './disposal.js';
export * from './disposal-specimen.js';
export * from './disposal-version.js';
export * from './disposition.js';
export * from './disposition-signature.js';
export * from './document.js';
export * from './document-batch.js';
export * from './document-content.js';
export * from './document-sealing.js';
export * from './document-subject.js';
export * from './evaluation.js';
export * from './evaluation-input.js';
export * from './examination.js';
export * from './lab.js';
export * from './lab-version.js';
export * from './layout.js';
export * from './layout-revision.js';
export * from './ledger-checkpoint.js';
export * from './ledger-entry.js';
export * from './legal-hold.js';
export * from './legal-hold-lifting.js';
export * from './legal-hold-lot.js';
export * from './legal-hold-specimen.js';
export * from './limit.js';
export * from './limit-revision.js';
export * from './lot.js';
export * from './lot-closing.js';
export * from './lot-keeping.js';
export * from './lot-package.js';
export * from './lot-version.js';
export * from './measurement.js';
export * from './method.js';
export * from './method-revision.js';
export * from './nonconformity.js';
export * from './nonconformity-lot.js';
export * from './nonconformity-version.js';
export * from './observation.js';
export * from './observation-version.js';
export * from './old-result.js';
export * from './old-table.js';
export * from './old-table-withdrawal.js';
export * from './opinion.js';
export * from './opinion-version.js';
export * from './outside-identity.js';
export * from './passage.js';
export * from './person.js';
export * from './person-version.js';
export * from './plan.js';
export * from './plan-line.js';
export * from './plan-line-limit.js';
export * from './plan-revision.js';
export * from './product.js';
export * from './product-version.js';
export * from './proposal.js';
export * from './proposal-decision.js';
export * from './protected-note.js';
export * from './raw-bytes.js';
export * from './reading.js';
export * from './recomputation.js';
export * from './reference.js';
export * from './reference-revision.js';
export * from './reference-unit.js';
export * from './retest.js';
export * from './retest-use.js';
export * from './rig.js';
export * from './rig-token.js';
export * from './rig-token-revocation.js';
export * from './rig-version.js';
export * from './row.js';
export * from './run.js';
export * from './run-channel.js';
export * from './run-file.js';
export * from './run-review.js';
export * from './run-version.js';
export * from './safety-flag.js';
export * from './safety-flag-lot.js';
export * from './safety-flag-package.js';
export * from './safety-flag-version.js';
export * from './sampling-record.js';
export * from './sensor.js';
export * from './sensor-placement.js';
export * from './sensor-version.js';
export * from './signing-key.js';
export * from './signing-key-ending.js';
export * from './specimen.js';
export * from './specimen-keeping.js';
export * from './specimen-state.js';
export * from './specimen-use.js';
export * from './specimen-version.js';
export * from './unread-closing.js';
export * from './unread-file.js';
export * from './unread-part.js';
export * from './validity-decision.js';
export * from './verdict-set.js';
