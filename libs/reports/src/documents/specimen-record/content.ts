import {
  type Customer,
  type DisposalDone,
  type DisposalState,
  type Examination,
  type Lab,
  type Lot,
  type LotBundle,
  type Measurement,
  type Photo,
  type PrintChoice,
  type Product,
  type Reading,
  type Result,
  type Run,
  type RunJudgement,
  SOFTWARE,
  type Specimen,
  type SpecimenKeeping,
  type SpecimenState,
} from '@breakbook/lab';
import type { EvaluatedRuns } from '../../content/evaluated-runs.js';
import { giverOf } from '../../content/given-by.js';
import type { DocumentIdentity } from '../../content/identity.js';
import { personOf } from '../../content/judged-lot.js';
import { recordsOfRuns } from '../../content/records-of-runs.js';

/** One of the states a specimen was in: since when, by whom, and what was said of it. */
export interface StateOfSpecimen {
  state: SpecimenState;
  at: string;
  /** Name of the person. */
  by: string;
  note?: string;
  /** The run that brought it there. */
  run?: string;
}

/** A result, and who gave it where the lab did not measure it. */
export interface ResultOfSpecimen
  extends Pick<Result, 'title' | 'unit' | 'reference' | 'value' | 'uncertainty' | 'because' | 'mode'> {
  givenBy?: NonNullable<Measurement['givenBy']>;
}

/** A run of the specimen as its record tells it; the lot test report tells the rest. */
export interface RunOfSpecimen {
  run: string;
  line: string;
  method: { method: string; revision: number; title: string };
  rig?: string;
  startedAt: string;
  operator: string;
  examination?: Omit<Examination, 'person'> & { by: string };
  validity: RunJudgement['validity'];
  validityReason?: string;
  decidedBy?: string;
  /** Of valid runs only. */
  results: ResultOfSpecimen[];
  files: { name: string; sha256?: string }[];
}

/** A photo by what is said of it; its bytes are kept elsewhere and are named by their digest. */
export interface PhotoOfSpecimen extends Omit<Photo, 'takenBy'> {
  name: string;
  sha256?: string;
  takenBy: string;
  /** The run after which it was taken. */
  run?: string;
}

/** What becomes of its remnants. */
export interface DisposalOfSpecimen {
  number: number;
  state: DisposalState;
  reason: string;
  how: string;
  exception?: string;
  askedBy: string;
  authorisedBy?: string;
  done?: DisposalDone;
}

/** What a specimen record says, as data: from receipt to what became of it. Every person is named. */
export interface SpecimenRecordContent {
  document: 'specimen record';
  form: 1;
  identity: DocumentIdentity;
  software: string;
  lab: Lab;
  customer: Customer;
  product: Product;
  lot: Lot;
  /** Who drew the lot's specimens, by name. */
  drawnBy?: string;
  specimen: Specimen;
  state: SpecimenState;
  states: StateOfSpecimen[];
  runs: RunOfSpecimen[];
  photos: PhotoOfSpecimen[];
  keeping?: SpecimenKeeping;
  legalHolds: { number: number; reference: string }[];
  disposal?: DisposalOfSpecimen;
  /** Open and closed ones that name it. */
  nonconformities: { number: number; title: string; state: 'open' | 'closed' }[];
  report?: { number: string; revision: number };
  /** What its results are worked out again from: its runs with their records, and what each was read as. */
  records?: { bundle: LotBundle; readings: Reading[] };
  /** How it is printed; in English and in the units kept where nothing is said. */
  print?: PrintChoice;
}

/** The content of a specimen record, from the lot it belongs to and what is on record of it beside its runs. */
export function specimenRecordContent({
  bundle,
  evaluation,
  specimen: key,
  document,
  ...given
}: {
  bundle: LotBundle;
  /** Left out where no run of it was judged. */
  evaluation?: EvaluatedRuns | undefined;
  specimen: string;
  document: DocumentIdentity;
} & Pick<
  SpecimenRecordContent,
  'state' | 'states' | 'photos' | 'keeping' | 'legalHolds' | 'disposal' | 'nonconformities' | 'report' | 'print'
>): SpecimenRecordContent {
  const specimen = bundle.specimens.find((one) => one.specimen === key);
  if (!specimen) throw new Error(`Lot ${bundle.lot.lot} has no specimen ${key}.`);
  const keys = bundle.runs.filter((run) => run.specimen === key).map(({ run }) => run);
  const readings = (evaluation?.runs ?? []).filter(({ run }) => keys.includes(run.run)).map(({ reading }) => reading);
  return {
    document: 'specimen record',
    form: 1,
    identity: document,
    software: evaluation?.result.software ?? SOFTWARE,
    lab: bundle.lab,
    customer: bundle.customer,
    product: bundle.product,
    lot: bundle.lot,
    ...(bundle.lot.sampling ? { drawnBy: personOf(bundle, bundle.lot.sampling.drawnBy) } : {}),
    specimen,
    runs: runsOfSpecimen(bundle, key, evaluation),
    records: { bundle: recordsOfRuns(bundle, keys, readings), readings },
    ...given,
  };
}

/** Its runs as the record tells them; also how they are told again from the records attached. */
export function runsOfSpecimen(
  bundle: LotBundle,
  key: string,
  evaluation: Pick<EvaluatedRuns, 'runs'> | undefined,
): RunOfSpecimen[] {
  return bundle.runs.filter((run) => run.specimen === key).map((run) => runOfSpecimen(bundle, evaluation, run));
}

function runOfSpecimen(
  bundle: LotBundle,
  evaluation: Pick<EvaluatedRuns, 'runs'> | undefined,
  run: LotBundle['runs'][number],
): RunOfSpecimen {
  const evaluated = evaluation?.runs.find((one) => one.run.run === run.run);
  const method = bundle.methods.find((one) => one.method === run.method && one.revision === run.methodRevision);
  const validity = run.validity?.validity ?? 'not decided';
  const why = [run.validity?.reason, run.validity?.note].filter((one) => one !== undefined).join(': ');
  const counts = validity === 'valid' || validity === 'valid with deviation';
  return {
    run: run.run,
    line: run.planLine,
    method: { method: run.method, revision: run.methodRevision, title: method?.title ?? '' },
    ...(run.rig === undefined ? {} : { rig: run.rig }),
    startedAt: run.startedAt,
    operator: personOf(bundle, run.operator),
    ...(run.examination ? { examination: examinationOf(bundle, run.examination) } : {}),
    validity,
    ...(why === '' ? {} : { validityReason: why }),
    ...(run.validity ? { decidedBy: personOf(bundle, run.validity.person) } : {}),
    results: counts ? (evaluated?.judgement.results ?? []).map((result) => resultOf(run, result)) : [],
    files: evaluated
      ? evaluated.reading.files.map(({ name, sha256 }) => ({ name, sha256 }))
      : run.files.map(({ name, sha256 }) => ({ name, ...(sha256 === undefined ? {} : { sha256 }) })),
  };
}

function examinationOf(bundle: LotBundle, { person, ...found }: Examination): RunOfSpecimen['examination'] {
  return { ...found, by: personOf(bundle, person) };
}

function resultOf(
  run: Run,
  { characteristic, title, unit, reference, value, uncertainty, because, mode }: Result,
): ResultOfSpecimen {
  const givenBy = giverOf(run, characteristic);
  return {
    title,
    unit,
    value,
    because,
    ...(reference ? { reference } : {}),
    ...(uncertainty ? { uncertainty } : {}),
    ...(mode === undefined ? {} : { mode }),
    ...(givenBy ? { givenBy } : {}),
  };
}
