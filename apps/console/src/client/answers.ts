import type { Operations } from './generated.js';

/** What the service answers, by the names its pages use. The forms are those of its own description. */
type Answer<Route extends keyof Operations> = Operations[Route] extends { answer: infer Given } ? Given : never;
type Listed<Route extends keyof Operations> = Answer<Route> extends { items: (infer Item)[] } ? Item : never;

/** Who is signed in. */
export type Myself = Answer<'GET /api/me'>;

export type WaysOfSigningIn = Answer<'GET /api/sign-in/ways'>;
export type OwnSecondFactors = Answer<'GET /api/me/second-factor'>;
export type OwnSession = Listed<'GET /api/me/sessions'>;

/** A piece of a list, and where the next begins. */
export interface PageOf<T> {
  items: T[];
  next: string | null;
}

/** A thing of the lab as it is kept: its name and number, the version in force, who said it, when and why. */
export interface Kept<C> extends KeptVersion<C> {
  key: string;
  number: number;
}

export interface KeptVersion<C> {
  version: number;
  at: string;
  by: string;
  reason?: string;
  content: C;
}

export type LotInList = Listed<'GET /api/lots'>;
/** What the last evaluation of a lot came to. */
export type LotStanding = Extract<LotInList['evaluation'], { outcome: unknown }>;
export type LotAnswer = Answer<'GET /api/lots/{lot}/sheet'>;
/** A lot as it is on record, evaluated or not. */
export type LotRecord = Answer<'GET /api/lots/{lot}'>;
/** A specimen, and the run that destroyed it. */
export type SpecimenRecord = Answer<'GET /api/specimens/{specimen}'>;
/** In which state a specimen is, how it came there, and what can be done with it. */
export type SpecimenStates = Answer<'GET /api/specimens/{specimen}/states'>;
export type RigRecord = Answer<'GET /api/rigs/{rig}'>;
export type PlacementRecord = Listed<'GET /api/rigs/{rig}/placements'>;
export type CalibrationRecord = Answer<'GET /api/calibrations/{calibration}'>;

export type RunInList = Listed<'GET /api/runs'>;
export type RunAnswer = Answer<'GET /api/lots/{lot}/runs/{run}'>;
/** A run with the version that a decision about it follows. */
export type LayoutProposal = Answer<'POST /api/layouts/proposals'>;
export type LayoutTrial = Answer<'POST /api/layouts/trials'>;
export type RunRecord = Answer<'GET /api/runs/{run}'>;
/** A channel of a run as it is judged, and part of one as it is drawn. */
export type ChannelOfRun = Listed<'GET /api/runs/{run}/channels'>;
export type WindowOfChannel = Answer<'GET /api/runs/{run}/channels/{channel}'>;
/** A run as it is sent: its files come beside it, its validity is decided by somebody else. */
export type NewRun = Operations['POST /api/unread/{id}/read']['body'];
/** What whoever sent a run hears. */
export type RecordedAnswer = Answer<'POST /api/runs'>;
/** The bytes of a refused run, and what became of them. */
export type UnreadAnswer = Answer<'GET /api/unread/{id}'>;
/** A photo of a run, and what is said of it. */
export type PhotoRecord = Listed<'GET /api/attachments'>;

/** A revision that one person put before another. */
export type ProposalInList = Listed<'GET /api/proposals'>;
export type ProposalAnswer = Answer<'GET /api/proposals/{n}'>;

export type JobAnswer = Answer<'GET /api/jobs/{id}'>;
/** A lot under another plan revision or limit: nothing is decided by it. */
export type WhatIfAnswer = Answer<'POST /api/lots/{lot}/what-ifs'>;
export type EvaluationInList = Listed<'GET /api/lots/{lot}/evaluations'>;
export type LotPackage = Listed<'GET /api/lots/{lot}/packages'>;
export type DocumentInList = Listed<'GET /api/documents'>;
/** All sheets of one kind of a lot, as far as they are made. */
export type DocumentBatch = Listed<'GET /api/lots/{lot}/document-batches'>;
/** With the data it was laid out from. */
export type DocumentRecord = Answer<'GET /api/documents/{n}'>;
export type CertificateRecord = Answer<'GET /api/certificates/{n}'>;
/** The public keys of the lab. */
export type KeyList = Answer<'GET /api/signing-keys'>;
export type SigningKeys = KeyList['keys'][number];
/** A file that somebody holds, laid beside what the lab signed. */
export type DocumentCheck = Answer<'POST /api/documents/check'>;
/** What does not meet a requirement, and what is done about it. */
export type NonconformityRecord = Answer<'GET /api/nonconformities/{n}'>;
export type NonconformityVersion = Listed<'GET /api/nonconformities/{n}/history'>;
/** Leave to depart from a requirement, asked for or given. */
export type ConcessionRecord = Answer<'GET /api/concessions/{n}'>;
/** What an authorised person makes of results; it is none. */
export type OpinionRecord = Listed<'GET /api/opinions'>;
/** What somebody saw that may endanger riders. */
export type SafetyFlagRecord = Answer<'GET /api/safety-flags/{n}'>;
export type TouchedLot = Listed<'GET /api/safety-flags/{n}/touched'>;
/** How long records and remnants are kept, and what may be disposed of. */
export type LotKeepingRecord = Answer<'GET /api/lots/{lot}/keeping'>;
export type SpecimenKeepingRecord = Answer<'GET /api/specimens/{specimen}/keeping'>;
export type KeptSpecimen = Listed<'GET /api/keeping'>;
export type LegalHoldRecord = Listed<'GET /api/legal-holds'>;
export type DisposalRecord = Listed<'GET /api/disposals'>;
/** What whoever decides about a lot is shown, with its digest. */
export type SheetToSign = Answer<'GET /api/lots/{lot}/disposition'>;
export type ReviewsOfRun = Answer<'GET /api/runs/{run}/reviews'>;
/** One thing said of a run, beside what was said before. */
export type SaidOfRun = Listed<'GET /api/runs/{run}/history'>;
/** Results of earlier days, as a table tells them. */
export type OldTableInList = Listed<'GET /api/old-results'>;
export type OldTable = Answer<'GET /api/old-results/{table}'>;
export type OldTableTrial = Answer<'POST /api/old-results/trials'>;
export type OldResultBeside = Listed<'GET /api/lots/{lot}/old-results'>;
export type LotsOverTime = Answer<'GET /api/products/{product}/lots-over-time'>;
export type ProductRecord = Answer<'GET /api/products/{product}'>;
/** Runs beyond a plan line, as somebody authorised them. */
export type RetestRecord = Listed<'GET /api/lots/{lot}/retests'>;
export type PersonRecord = Answer<'GET /api/people/{person}'>;
/** What somebody is trained or authorised for. */
export type CompetenceRecord = Listed<'GET /api/people/{person}/competences'>;
export type OutsideIdentity = Answer<'GET /api/people/{person}/outside-identity'>['identity'];
export type LedgerEntry = Listed<'GET /api/ledger'>;
/** A run that came out otherwise than it was kept. */
export type Checkpoint = Listed<'GET /api/ledger/checkpoints'>;
export type RecomputedRun = Answer<'GET /api/recomputations/{n}'>['different'][number];
export type RecomputationInList = Listed<'GET /api/recomputations'>;
export type RecomputationAnswer = Answer<'GET /api/recomputations/{n}'>;
/** Whether everything is as it was written, or the first thing that is not. */
export type Verification = Answer<'POST /api/ledger/verification'>;
/** Specimens of known making, chosen before anything is known of what is compared with them. */
export type ReferenceRecord = Answer<'GET /api/references/{reference}'>;
export type ReferenceVersion = Listed<'GET /api/references/{reference}/revisions'>;
/** A reference as it is chosen. */
export type NewReference = Operations['POST /api/references']['body'];
/** What is compared with what, and what was said around it. */
export type ComparisonInList = Listed<'GET /api/comparisons'>;
export type ComparisonRecord = Answer<'GET /api/comparisons/{comparison}'>;
export type ComparisonRevision = ComparisonRecord['revisions'][number];
/** What a comparison came to, and what that rests on. */
export type ComparisonResultRecord = Answer<'GET /api/comparisons/{comparison}/result'>;
/** What was locked by a signature. */
export type Conclusion = ComparisonRecord['conclusions'][number];
/** As it is declared. */
export type NewComparison = Operations['POST /api/comparisons']['body'];
/** What was seen of a declared feature on a specimen. */
export type ObservationRecord = Listed<'GET /api/comparisons/{comparison}/observations'>;
/** Who had a specimen from whom, when, where and in what condition. */
export type CustodyRecord = Answer<'GET /api/specimens/{specimen}/custody'>;
/** Notes that name whoever reads them. */
export type ProtectedNotes = Answer<'GET /api/specimens/{specimen}/protected-notes'>;
/** Which code stands for which item. */
export type CodeLists = Answer<'GET /api/comparisons/{comparison}/codes'>;
