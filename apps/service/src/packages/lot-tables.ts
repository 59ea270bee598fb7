import type { CellValue, DataTable, TableField } from '@breakbook/evidence';
import {
  type CharacteristicValue,
  isNotEvaluated,
  type LotBundle,
  type NotEvaluated,
  type Photo,
} from '@breakbook/lab';
import type { EvaluationOnly } from '../workers/tasks.js';
import type { LotInPackage } from './lot-in-package.js';

/** What a package tells in tables, beside the records themselves. */
export interface TablesOf {
  bundle: LotBundle;
  evaluation: EvaluationOnly;
  files: { run: string; position: number; path: string; sha256: string; bytes: number; sentAs: string }[];
  photos: ({ number: number; of: string; path: string; sha256: string } & Photo)[];
  oldResults: LotInPackage['oldResults'];
  entries: { sequence: number; at: string; by: string; action: string; reason?: string; hash: string }[];
}

type Form = 'string' | 'number' | 'integer' | 'boolean' | 'datetime' | 'date';
type Column<Row> = [name: string, form: Form | `${Form}!`, description: string, cell: (row: Row) => CellValue];

/** The tables of a package: what a person opens in a spreadsheet, and a program reads by their schemas. */
export function lotTables({ bundle, evaluation, files, photos, oldResults, entries }: TablesOf): DataTable[] {
  const results = evaluation.runs.flatMap(({ judgement }) =>
    judgement.results.map((result) => ({ ...result, run: judgement.run, specimen: judgement.specimen })),
  );
  const verdicts = evaluation.runs.flatMap(({ judgement }) =>
    judgement.verdicts.map((verdict) => ({ ...verdict, run: judgement.run, specimen: judgement.specimen })),
  );
  const measurements = bundle.runs.flatMap(({ run, measurements }) =>
    measurements.map((one, index) => ({ ...one, run, number: index + 1 })),
  );
  return [
    table('specimens', 'Specimens', ['specimen'], bundle.specimens, [
      ['specimen', 'string!', 'what the lab calls it', (one) => one.specimen],
      ['lot', 'string!', 'the lot it comes from', (one) => one.lot],
      ['serial', 'string', 'serial number', (one) => one.serial],
      ['noSerialReason', 'string', 'why it has none', (one) => one.noSerialReason],
      ['origin', 'string!', 'how it came to be tested', (one) => one.origin],
      ['receivedAt', 'datetime!', 'when the lab received it', (one) => one.receivedAt],
      ['condition', 'string!', 'its condition then', (one) => one.condition],
      ['mass', 'number', 'mass, in massUnit', (one) => one.mass?.value],
      ['massUnit', 'string', 'unit of the mass, a UCUM code', (one) => one.mass?.unit],
    ]),
    table('runs', 'Runs, each of one specimen on one rig, invalid ones too', ['run'], bundle.runs, [
      ['run', 'string!', 'what the lab calls it', (one) => one.run],
      ['specimen', 'string!', 'the specimen', (one) => one.specimen],
      ['planLine', 'string!', 'the line of the plan', (one) => one.planLine],
      ['method', 'string!', 'the method', (one) => one.method],
      ['methodRevision', 'integer!', 'its revision', (one) => one.methodRevision],
      ['rig', 'string', 'the rig; empty for values from a table', (one) => one.rig],
      ['operator', 'string!', 'who made it', (one) => one.operator],
      ['startedAt', 'datetime!', 'when it began', (one) => one.startedAt],
      [
        'rawFiles',
        'integer!',
        'how many files a rig wrote of it; 0 where there is no raw file',
        (one) => one.files.length,
      ],
      ['endReason', 'string', 'why it ended', (one) => one.examination?.endReason],
      ['modes', 'string', 'failure modes, the first first', (one) => codesOf(one.examination?.modes)],
      ['partSound', 'string', 'was the part under test found whole?', (one) => one.examination?.partSound],
      ['validity', 'string', 'as it was decided; empty where it is not yet', (one) => one.validity?.validity],
      ['invalidReason', 'string', 'why it is invalid', (one) => one.validity?.reason],
      ['decidedBy', 'string', 'who decided', (one) => one.validity?.person],
      ['deviations', 'string', 'departures from the method', (one) => one.deviations.join('; ') || undefined],
    ]),
    table('run-files', 'Raw files of the runs, byte for byte as they came', ['run', 'position'], files, [
      ['run', 'string!', 'the run', (one) => one.run],
      ['position', 'integer!', 'its place among the files of the run', (one) => one.position],
      ['path', 'string!', 'where it is in this package', (one) => one.path],
      ['sha256', 'string!', 'its SHA-256', (one) => one.sha256],
      ['bytes', 'integer!', 'how many bytes it has', (one) => one.bytes],
      ['sentAs', 'string!', 'what it was called by whoever sent it', (one) => one.sentAs],
    ]),
    table('measurements', 'Values that a person read from an instrument', ['run', 'number'], measurements, [
      ['run', 'string!', 'the run', (one) => one.run],
      ['number', 'integer!', 'its place among those of the run', (one) => one.number],
      ['of', 'string!', 'what was measured', (one) => one.of],
      ['value', 'number!', 'the value', (one) => one.quantity.value],
      ['unit', 'string!', 'its unit, a UCUM code', (one) => one.quantity.unit],
      ['place', 'string', 'where on the part', (one) => one.place],
      ['passage', 'integer', 'which of several loadings', (one) => one.passage],
      ['instrument', 'string!', 'with what', (one) => one.instrument],
      ['person', 'string!', 'by whom', (one) => one.person],
      ['at', 'datetime!', 'when', (one) => one.at],
    ]),
    table('results', 'What each run says of the part under test', ['run', 'characteristic'], results, [
      ['run', 'string!', 'the run', (one) => one.run],
      ['specimen', 'string!', 'the specimen', (one) => one.specimen],
      ['characteristic', 'string!', 'the quantity', (one) => one.characteristic],
      ['kind', 'string!', 'exact, atLeast, atMost, between, or not evaluated', (one) => kindOf(one.value)],
      ['value', 'number', 'the value, in unit', (one) => oneValueOf(one.value)],
      ['lower', 'number', 'the lower end, where it is between two', (one) => endOf(one.value, 'lower')],
      ['upper', 'number', 'the upper end, where it is between two', (one) => endOf(one.value, 'upper')],
      ['unit', 'string!', 'a UCUM code', (one) => one.unit],
      ['reference', 'string', 'gauge or absolute, of a pressure', (one) => one.reference],
      ['expandedUncertainty', 'number', 'U, in unit; empty where none is stated', (one) => one.uncertainty?.expanded],
      ['coverageFactor', 'number', 'k', (one) => one.uncertainty?.k],
      ['mode', 'string', 'the first failure mode', (one) => one.mode],
      ['because', 'string', 'why it is known so far and no farther', (one) => becauseOf(one)],
    ]),
    table('verdicts', 'Results against limits', ['run', 'characteristic', 'limit', 'revision'], verdicts, [
      ['run', 'string!', 'the run', (one) => one.run],
      ['specimen', 'string!', 'the specimen', (one) => one.specimen],
      ['characteristic', 'string!', 'the quantity', (one) => one.characteristic],
      ['limit', 'string!', 'the limit', (one) => one.limit.limit],
      ['revision', 'integer!', 'its revision', (one) => one.limit.revision],
      ['outcome', 'string!', 'the verdict', (one) => one.outcome],
      ['external', 'boolean!', 'is the limit somebody else’s than the maker’s?', (one) => one.external],
      ['lower', 'number', 'the lower limit, in unit', (one) => one.limitValue.lower],
      ['upper', 'number', 'the upper limit, in unit', (one) => one.limitValue.upper],
      ['guardBand', 'number!', 'by which the limit is moved, in unit', (one) => one.guardBand],
      ['margin', 'number', 'distance from the limit, positive on the safe side', (one) => one.margin],
      ['unit', 'string!', 'a UCUM code', (one) => one.unit],
      ['sentence', 'string!', 'the rule and the numbers in words', (one) => one.sentence],
    ]),
    table('limits', 'Limits', ['limit', 'revision'], bundle.limits, [
      ['limit', 'string!', 'the limit', (one) => one.limit],
      ['revision', 'integer!', 'its revision', (one) => one.revision],
      ['title', 'string!', 'in words', (one) => one.title],
      ['characteristic', 'string!', 'the quantity it is on', (one) => one.characteristic],
      ['bound', 'string!', 'at least, at most or between', (one) => one.bound],
      ['value', 'number', 'the limit, in unit', (one) => ('value' in one ? one.value : undefined)],
      ['lower', 'number', 'the lower end of a range', (one) => ('lower' in one ? one.lower : undefined)],
      ['upper', 'number', 'the upper end of a range', (one) => ('upper' in one ? one.upper : undefined)],
      ['unit', 'string!', 'a UCUM code', (one) => one.unit],
      ['basis', 'string!', 'whose it is', (one) => one.basis],
      ['appliesTo', 'string!', 'what it binds for', (one) => one.appliesTo],
      ['source', 'string!', 'where it stands', (one) => one.source],
      ['edition', 'string!', 'which edition of that', (one) => one.edition],
      ['inForceFrom', 'date!', 'from which day', (one) => one.inForceFrom],
      ['standing', 'string!', 'confirmed by the lab, or an example', (one) => one.standing],
      ['decisionRule', 'string!', 'how uncertainty enters the verdict', (one) => one.decisionRule.rule],
    ]),
    table('calibrations', 'Calibrations of the sensors', ['calibration'], bundle.calibrations, [
      ['calibration', 'string!', 'the calibration', (one) => one.calibration],
      ['sensor', 'string!', 'the sensor', (one) => one.sensor],
      ['date', 'date!', 'the day', (one) => one.date],
      ['due', 'date!', 'when the next is due', (one) => one.due],
      ['unit', 'string!', 'unit of the relation and of U', (one) => one.unit],
      ['asFoundGain', 'number!', 'true value = gain · indicated + offset, before', (one) => one.asFound.gain],
      ['asFoundOffset', 'number!', 'the offset of that', (one) => one.asFound.offset],
      ['asLeftGain', 'number!', 'the same after', (one) => one.asLeft.gain],
      ['asLeftOffset', 'number!', 'the offset of that', (one) => one.asLeft.offset],
      ['expandedUncertainty', 'number!', 'U', (one) => one.expandedUncertainty],
      ['coverageFactor', 'number!', 'k', (one) => one.k],
      ['certificate', 'string!', 'the certificate', (one) => one.certificate],
      ['traceableTo', 'string!', 'to what it is traceable', (one) => one.traceableTo],
    ]),
    table('people', 'People of the lab', ['person'], bundle.people, [
      ['person', 'string!', 'by what the records name them', (one) => one.person],
      ['name', 'string!', 'the name', (one) => one.name],
      ['role', 'string!', 'the role in the lab', (one) => one.role],
    ]),
    table('photos', 'Photos, videos and attached documents, byte for byte as they came', ['number'], photos, [
      ['number', 'integer!', 'its number in the lab', (one) => one.number],
      ['of', 'string!', 'what it belongs to', (one) => one.of],
      ['path', 'string!', 'where it is in this package', (one) => one.path],
      ['sha256', 'string!', 'its SHA-256', (one) => one.sha256],
      ['caption', 'string!', 'what it shows', (one) => one.caption],
      ['takenBy', 'string!', 'who took it', (one) => one.takenBy],
      ['device', 'string!', 'with what', (one) => one.device],
      ['takenAt', 'datetime!', 'when', (one) => one.takenAt],
      ['triggerOffset', 'number', 'of a video: the clock of the record as it begins, s', (one) => one.triggerOffset],
    ]),
    table(
      'old-results',
      'Results that old tables tell: no raw file, not recomputable, in no judgement',
      OLD_KEY,
      oldResults,
      [
        ['table', 'integer!', 'number of the table in the lab', (one) => one.table],
        ['line', 'integer!', 'its line in the table', (one) => one.line],
        ['specimen', 'string!', 'serial or name, as told', (one) => one.specimen],
        ['test', 'string!', 'the test, as told', (one) => one.test],
        ['characteristic', 'string!', 'the quantity, as told', (one) => one.characteristic],
        ['kind', 'string!', 'exact, atLeast, atMost or between', (one) => one.value.kind],
        ['value', 'number', 'the value, in unit', (one) => oneValueOf(one.value)],
        ['lower', 'number', 'the lower end, where it is between two', (one) => endOf(one.value, 'lower')],
        ['upper', 'number', 'the upper end, where it is between two', (one) => endOf(one.value, 'upper')],
        ['unit', 'string!', 'a UCUM code', (one) => one.unit],
        ['reference', 'string', 'gauge or absolute, of a pressure; empty where nobody told', (one) => one.reference],
        ['date', 'date', 'the day; empty where it is unknown', (one) => one.date],
        ['rig', 'string', 'the rig, as told; empty where it is unknown', (one) => one.rig],
        ['source', 'string!', 'who tested, or where it was taken from', (one) => one.source],
        ['validity', 'string!', 'as told; this lab decided nothing of it', (one) => one.validity],
        ['remark', 'string', 'what the table says beside', (one) => one.remark],
        ['rawFile', 'string!', 'always none', () => 'none'],
        ['tableSha256', 'string!', 'SHA-256 of the table, which the lab keeps', (one) => one.tableSha256],
      ],
    ),
    table('ledger', 'Who did what, when and why', ['sequence'], entries, [
      ['sequence', 'integer!', 'number of the entry', (one) => one.sequence],
      ['at', 'datetime!', 'when', (one) => one.at],
      ['by', 'string!', 'who', (one) => one.by],
      ['action', 'string!', 'what', (one) => one.action],
      ['reason', 'string', 'why', (one) => one.reason],
      ['hash', 'string!', 'the hash of the entry', (one) => one.hash],
    ]),
  ];
}

const OLD_KEY = ['table', 'line'];

function table<Row>(
  name: string,
  title: string,
  primaryKey: string[],
  rows: readonly Row[],
  columns: Column<Row>[],
): DataTable {
  const fields = columns.map(([name, form, description]): TableField => {
    const required = form.endsWith('!') ? { constraints: { required: true as const } } : {};
    return { name, type: form.replace('!', '') as Form, description, ...required };
  });
  return {
    name,
    title,
    schema: { fields, primaryKey, missingValues: [''] },
    rows: rows.map((row) => Object.fromEntries(columns.map(([name, , , cell]) => [name, cell(row)]))),
  };
}

function codesOf(modes: readonly { code: string }[] | undefined): string | undefined {
  return modes?.map(({ code }) => code).join('; ') || undefined;
}

type Value = CharacteristicValue | NotEvaluated;

function kindOf(value: Value): string {
  return isNotEvaluated(value) ? 'not evaluated' : value.kind;
}

function oneValueOf(value: Value): number | undefined {
  return 'value' in value ? value.value : undefined;
}

function endOf(value: Value, end: 'lower' | 'upper'): number | undefined {
  return end in value ? (value as { lower: number; upper: number })[end] : undefined;
}

function becauseOf({ value, because }: { value: Value; because: string }): string | undefined {
  return (isNotEvaluated(value) ? value.notEvaluated.because : because) || undefined;
}
