import {
  type Characteristic,
  isNotEvaluated,
  type Measurement,
  type MethodCharacteristic,
  type NotEvaluated,
  notEvaluated,
  Refusal,
  type Run,
} from '@breakbook/lab';
import { convert, isDifference, sameDimension } from '@breakbook/units';
import { budgetOf } from '../features/budget.js';
import type { Keyed } from '../features/impact-source.js';

/** The value a person keyed for a characteristic, in the method's unit; why there is none where there is not one. */
export function keyedValue(wanted: MethodCharacteristic, run: Run): number | NotEvaluated {
  const keyed = run.measurements.filter(({ of }) => of === wanted.characteristic);
  const [only] = keyed;
  if (!only)
    return notEvaluated(
      `no value of ${wanted.characteristic} was keyed for run ${run.run}`,
      `a measurement of ${wanted.characteristic} is keyed with its unit, instrument and person`,
    );
  if (keyed.length > 1)
    return notEvaluated(
      `${keyed.length} values of ${wanted.characteristic} were keyed for run ${run.run}, and none is preferred`,
      'one of them stands and the others are corrected away with a reason',
    );

  return inUnitOf(only, wanted, run);
}

function inUnitOf({ of, quantity: { value, unit } }: Measurement, wanted: KindAndUnit, run: Run): number {
  if (!sameDimension(unit, wanted.unit))
    throw new Refusal({
      code: 'unit.wrong-dimension',
      detail: `Run ${run.run}, measurement ${of}: "${unit}" does not measure ${wanted.kind}.`,
      found: unit,
      expected: `a unit of ${wanted.kind}, such as ${wanted.unit}`,
      action: 'Key the value again with its unit.',
    });
  return convert(value, unit, wanted.unit, { difference: isDifference(wanted.kind) });
}

type KindAndUnit = Pick<MethodCharacteristic, 'kind' | 'unit'>;

/** Every value keyed under one name, in this unit. */
export function keyedReadings(of: string, wanted: KindAndUnit, run: Run) {
  return run.measurements
    .filter((one) => one.of === of)
    .map((measurement) => ({
      value: inUnitOf(measurement, wanted, run),
      place: measurement.place,
      measurement,
    }));
}

/**
 * The value keyed under one name for one passage, undefined where there is none. A value without a passage belongs to a run
 * of one passage, or to each where `shared`, such as a height that was set once.
 */
export function keyedForPassage(
  of: string,
  wanted: KindAndUnit,
  run: Run,
  passage: number,
  { shared }: { shared: boolean },
): Keyed {
  const all = keyedReadings(of, wanted, run);
  const own = all.filter(({ measurement }) => measurement.passage === passage);
  const general = all.filter(({ measurement }) => measurement.passage === undefined);
  const meant = own.length > 0 || !(shared || (run.passages ?? []).length < 2) ? own : general;
  const [only] = meant;
  if (!only) return undefined;
  if (meant.length > 1)
    return notEvaluated(
      `${meant.length} values of ${of} were keyed for passage ${passage} of run ${run.run}, and none is preferred`,
      'one of them stands and the others are corrected away with a reason',
    );
  return only;
}

/** A characteristic that a person keyed from an instrument or a results table. */
export function keyedCharacteristic(wanted: MethodCharacteristic, run: Run): Characteristic {
  const value = keyedValue(wanted, run);
  const common = {
    characteristic: wanted.characteristic,
    title: wanted.title,
    unit: wanted.unit,
    ...(wanted.reference ? { reference: wanted.reference } : {}),
    source: 'keyed' as const,
  };
  if (isNotEvaluated(value)) return { ...common, value, steps: [] };

  const keyed = run.measurements.find(({ of }) => of === wanted.characteristic);
  const { uncertainty, step } = budgetOf(wanted, { value, calibrations: new Map(), sensitivity: () => undefined });
  return {
    ...common,
    value: { kind: 'exact', value },
    ...(uncertainty ? { uncertainty } : {}),
    steps: [
      {
        question: 'Who read it, and from what?',
        numbers: keyed
          ? {
              [`as keyed, ${keyed.quantity.unit}`]: keyed.quantity.value,
              instrument: keyed.instrument,
              person: keyed.person,
            }
          : {},
        answer: `Keyed${keyed?.place ? ` (${keyed.place})` : ''} and taken as it stands.`,
      },
      ...(step ? [step] : []),
    ],
  };
}
