import {
  type ComparedRun,
  type ComparisonCase,
  ComparisonDocument,
  type ComparisonResult,
  type Customer,
  itemsOf,
  type Lab,
  type MeasuredLimit,
  type Method,
  type Person,
  type PrintChoice,
  type Product,
  type Specimen,
} from '@breakbook/lab';
import type { DocumentIdentity } from '../../content/identity.js';

/** How a run of the comparison was made; the lot test report and its run sheet tell the rest. */
export interface ConductOfRun {
  run: string;
  /** Names of persons. */
  operator: string;
  decidedBy?: string;
  /** Why it is invalid or void, where it is. */
  reason?: string;
  deviations: string[];
  files: { name: string; sha256?: string }[];
}

/** A method that a declared characteristic comes from, and what its codes of failure modes mean. */
export type MethodOfComparison = Pick<Method, 'method' | 'revision' | 'title' | 'basis'> & {
  failureModes?: { code: string; meaning: string }[];
};

/** What a report says of a method. */
export function methodOfComparison({ method, revision, title, basis, failureModes }: Method): MethodOfComparison {
  return {
    method,
    revision,
    title,
    basis,
    failureModes: failureModes.map(({ code, meaning }) => ({ code, meaning })),
  };
}

/** A photo that an observation rests on, by what is said of it; its bytes are kept elsewhere. */
export interface PhotoOfComparison {
  sha256: string;
  name: string;
  caption: string;
  takenBy: string;
  takenAt: string;
}

/** What a comparison report says, as data. The result is worked out again from the case alone. */
export interface ComparisonReportContent {
  document: 'comparison report';
  form: 1;
  identity: DocumentIdentity;
  software: string;
  lab: Lab;
  /** Who asked. */
  customer: Customer;
  product: Product;
  /** Whom the case names by key. */
  people: Pick<Person, 'person' | 'name' | 'role'>[];
  case: ComparisonCase;
  result: ComparisonResult;
  /** Items as they were received. */
  items: Specimen[];
  methods: MethodOfComparison[];
  conduct: ConductOfRun[];
  /** Drawn beside the values of a declared characteristic; no item is held to them here. */
  limits: { characteristic: string; limit: MeasuredLimit }[];
  photos: PhotoOfComparison[];
  /** When conclusions were locked, and by whom, by name; whoever was blinded knew no item before. */
  locked?: { at: string; by: string };
  /** The codes under which blinded persons knew the specimens. */
  codes: { specimen: string; code: string }[];
  /** Open and closed ones that name an item. */
  nonconformities: { number: number; title: string; state: 'open' | 'closed' }[];
  /** How it is printed; in English and in the units kept where nothing is said. */
  print?: PrintChoice;
}

type Given = Pick<
  ComparisonReportContent,
  'case' | 'result' | 'lab' | 'customer' | 'product' | 'people' | 'items' | 'methods' | 'conduct'
> &
  Partial<Pick<ComparisonReportContent, 'limits' | 'photos' | 'codes' | 'nonconformities'>> & {
    document: DocumentIdentity;
    /** Needed where persons were blinded: before that no report is made. */
    locked?: ComparisonReportContent['locked'] | undefined;
    print?: PrintChoice | undefined;
  };

/**
 * The content of a comparison report. Of the case it takes the parts that a case has and nothing else, so that a note which
 * only some may read cannot come into a document with it.
 */
export function comparisonReportContent({
  case: given,
  result,
  people,
  document,
  limits = [],
  photos = [],
  codes = [],
  nonconformities = [],
  locked,
  conduct,
  print,
  ...rest
}: Given): ComparisonReportContent {
  const { comparison } = given;
  const name = `${comparison.comparison} rev. ${comparison.revision}`;
  if (result.comparison.comparison !== comparison.comparison || result.comparison.revision !== comparison.revision)
    throw new Error(
      `The result is of comparison ${result.comparison.comparison} rev. ${result.comparison.revision}, the case of ${name}.`,
    );
  if (comparison.blind && !locked)
    throw new Error(
      `The conclusions of comparison ${name} are not locked: whoever is blinded would read which item is which.`,
    );
  return {
    document: 'comparison report',
    form: 1,
    identity: document,
    software: result.software,
    ...rest,
    people: people.map(({ person, name: printed, role }) => ({ person, name: printed, role })),
    case: caseAlone(given),
    result,
    // Of the runs that the comparison rests on, and no others of their lots.
    conduct: conduct.filter(({ run }) => given.runs.some((one) => one.run === run)),
    limits,
    photos,
    ...(locked ? { locked } : {}),
    codes,
    nonconformities,
    ...(print ? { print } : {}),
  };
}

/** A case with what its schemas name; anything else in it is refused, whatever it is. */
function caseAlone({ specimens, runs, ...document }: ComparisonCase): ComparisonCase {
  return {
    ...ComparisonDocument.parse(document),
    specimens: specimens.map(({ specimen, lot, serial, origin }) => ({
      specimen,
      lot,
      ...(serial === undefined ? {} : { serial }),
      origin,
    })),
    runs: runs.map(
      ({ run, specimen, lot, rig, method, methodRevision, startedAt, validity, results }): ComparedRun => ({
        run,
        specimen,
        lot,
        ...(rig === undefined ? {} : { rig }),
        method,
        methodRevision,
        startedAt,
        validity,
        results,
      }),
    ),
  };
}

/** Name of a person, or what stands in the record where it is no key of one. */
export function nameIn({ people }: Pick<ComparisonReportContent, 'people'>, key: string): string {
  return people.find(({ person }) => person === key)?.name ?? key;
}

/** When the first run of an item began: what was declared after it could have been chosen with its result in view. */
export function firstRunOfItems(content: Pick<ComparisonReportContent, 'case'>): string | undefined {
  const items = new Set(itemsOf(content.case));
  return content.case.runs
    .filter(({ specimen }) => items.has(specimen))
    .map(({ startedAt }) => startedAt)
    .sort((a, b) => Date.parse(a) - Date.parse(b))[0];
}
