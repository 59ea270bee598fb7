import {
  type CharacteristicValue,
  type ComparedValue,
  type ComparisonCase,
  type DeclaredCharacteristic,
  isNotEvaluated,
  type LeftOut,
} from '@breakbook/lab';
import { converter, sameDimension } from '@breakbook/units';

/** The values that specimens give for a characteristic, and what gave none. */
export interface Gathered {
  values: ComparedValue[];
  leftOut: LeftOut[];
}

/** A specimen as it enters a comparison: which one, and of which lot. */
export interface Member {
  specimen: string;
  lot: string;
}

/**
 * Which value does each specimen give for this characteristic? Of valid runs under the declared method revision, or of what
 * was written down of a feature, the first in time: whoever looks again after seeing the first could choose. All others
 * stand with the reason why they are left out.
 */
export function gatheredValues(
  given: ComparisonCase,
  declared: Pick<DeclaredCharacteristic, 'source' | 'unit' | 'tool'>,
  members: readonly Member[],
): Gathered {
  const gathered: Gathered = { values: [], leftOut: [] };
  for (const member of members) {
    const away = (given.setAside ?? []).find(({ specimen }) => specimen === member.specimen);
    if (away) {
      gathered.leftOut.push({ specimen: member.specimen, because: `set aside: ${away.because}` });
      continue;
    }
    const one =
      declared.source.from === 'runs' ? ofRuns(given, declared, member) : ofExamination(given, declared, member);
    gathered.values.push(...one.values);
    gathered.leftOut.push(...one.leftOut);
  }
  return gathered;
}

function ofRuns(
  given: ComparisonCase,
  { source, unit, tool }: Pick<DeclaredCharacteristic, 'source' | 'unit' | 'tool'>,
  { specimen, lot }: Member,
): Gathered {
  if (source.from !== 'runs') return { values: [], leftOut: [] };
  const { method, methodRevision, characteristic } = source;
  const found: Gathered = { values: [], leftOut: [] };
  const out = (because: string, run?: string) =>
    found.leftOut.push({ specimen, ...(run === undefined ? {} : { run }), because });
  const runs = given.runs
    .filter((run) => run.specimen === specimen && run.method === method)
    .toSorted((a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt));
  if (runs.length === 0) out(`it was not tested under ${method} revision ${methodRevision}`);
  for (const run of runs) {
    if (run.methodRevision !== methodRevision) {
      out(`made under revision ${run.methodRevision} of ${method}; revision ${methodRevision} is declared`, run.run);
      continue;
    }
    if (run.validity !== 'valid' && run.validity !== 'valid with deviation') {
      out(run.validity === 'not decided' ? 'its validity is not decided' : `the run is ${run.validity}`, run.run);
      continue;
    }
    const result = run.results.find((one) => one.characteristic === characteristic);
    if (!result) {
      out(`the run gives no ${characteristic}`, run.run);
      continue;
    }
    if (found.values.length > 0) {
      out('an earlier valid run of this specimen gives the value; the first in time counts', run.run);
      continue;
    }
    const mode = result.mode === undefined ? {} : { mode: result.mode };
    if (isNotEvaluated(result.value)) {
      if (tool.kind === 'failure modes' && result.mode !== undefined)
        found.values.push({ specimen, lot, run: run.run, value: { kind: 'atLeast', value: 0 }, ...mode });
      else out(`not evaluated: ${result.value.notEvaluated.because}`, run.run);
      continue;
    }
    const to = unit ?? result.unit;
    const unlike = whyNotIn(result.unit, to);
    if (unlike !== undefined) {
      out(unlike, run.run);
      continue;
    }
    const { uncertainty } = result;
    const asDifference = converter(result.unit, to, { difference: true });
    found.values.push({
      specimen,
      lot,
      run: run.run,
      value: valueWith(result.value, converter(result.unit, to)),
      ...(uncertainty ? { uncertainty: { expanded: asDifference(uncertainty.expanded), k: uncertainty.k } } : {}),
      ...mode,
    });
  }
  return found;
}

/** A temperature and a difference of two share their units, and which of them a number is stands in no unit. */
function whyNotIn(from: string, to: string): string | undefined {
  if (!sameDimension(from, to)) return `it is in ${from}, which does not convert into ${to}`;
  if (converter(from, to)(0) !== 0) return `it is in ${from} and compared in ${to}, whose zero lies elsewhere`;
  return undefined;
}

function valueWith(value: CharacteristicValue, convert: (value: number) => number): CharacteristicValue {
  return value.kind === 'between'
    ? { kind: 'between', lower: convert(value.lower), upper: convert(value.upper) }
    : { kind: value.kind, value: convert(value.value) };
}

function ofExamination(
  given: ComparisonCase,
  { source, unit }: Pick<DeclaredCharacteristic, 'source' | 'unit'>,
  { specimen, lot }: Member,
): Gathered {
  if (source.from !== 'examination') return { values: [], leftOut: [] };
  const found: Gathered = { values: [], leftOut: [] };
  const seen = given.observations
    .filter((one) => one.specimen === specimen && one.feature === source.feature)
    .toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at));
  if (seen.length === 0) found.leftOut.push({ specimen, because: `${source.feature} was not measured on it` });
  for (const { quantity, by } of seen) {
    const to = unit ?? quantity?.unit ?? '1';
    const because =
      quantity === undefined
        ? `${by} wrote down words, not a quantity`
        : found.values.length > 0
          ? `measured again by ${by}; the first in time counts`
          : whyNotIn(quantity.unit, to);
    if (because !== undefined || quantity === undefined) {
      found.leftOut.push({ specimen, because: because ?? 'no quantity' });
      continue;
    }
    const value = converter(quantity.unit, to)(quantity.value);
    found.values.push({ specimen, lot, value: { kind: 'exact', value } });
  }
  return found;
}
