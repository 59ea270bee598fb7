import { type LabelCode, type LabelGridName, type PrintChoice, SOFTWARE, type Specimen } from '@breakbook/lab';
import type { DocumentIdentity } from '../../content/identity.js';
import { LABEL_GRIDS, type LabelGrid } from './grids.js';

/** What stands on one label. */
export interface SpecimenLabel {
  /** What the code says, such as the address of the specimen or its number. */
  code: string;
  /** Short number of the specimen. */
  specimen: string;
  serial?: string;
  lot: string;
  product: string;
}

/** Labels for specimens, as data. */
export interface LabelSheetContent {
  document: 'label sheet';
  form: 1;
  identity: DocumentIdentity;
  software: string;
  /** Name of the lab, as it stands on each label. */
  lab: string;
  grid: LabelGrid;
  codeForm: LabelCode;
  /** Places at the start of the first sheet whose labels are used up. */
  used: number;
  labels: SpecimenLabel[];
  /** How it is printed; in English and in the units kept where nothing is said. */
  print?: PrintChoice;
}

/** The content of a label sheet: one label for each specimen, in the order given. */
export function labelSheetContent({
  lab,
  lot,
  product,
  specimens,
  codeOf = (specimen) => specimen,
  code = 'data matrix',
  grid,
  used = 0,
  document,
  print,
}: {
  lab: { name: string };
  lot: { lot: string };
  product: { name: string };
  specimens: readonly Pick<Specimen, 'specimen' | 'serial'>[];
  /** What the code of a specimen says; its short number where left out. */
  codeOf?: (specimen: string) => string;
  code?: LabelCode;
  grid: LabelGridName | LabelGrid;
  used?: number;
  document: DocumentIdentity;
  print?: PrintChoice | undefined;
}): LabelSheetContent {
  const laid = typeof grid === 'string' ? LABEL_GRIDS[grid] : grid;
  const places = laid.columns * laid.rows;
  if (!Number.isInteger(used) || used < 0 || used >= places)
    throw new Error(`A sheet of ${places} labels has from 0 to ${places - 1} used up; got ${used}.`);
  if (specimens.length === 0) throw new Error('A label sheet has a label for at least one specimen; got none.');
  return {
    document: 'label sheet',
    form: 1,
    identity: document,
    software: SOFTWARE,
    lab: lab.name,
    grid: laid,
    codeForm: code,
    used,
    labels: specimens.map(({ specimen, serial }) => ({
      code: codeOf(specimen),
      specimen,
      ...(serial === undefined ? {} : { serial }),
      lot: lot.lot,
      product: product.name,
    })),
    ...(print ? { print } : {}),
  };
}
