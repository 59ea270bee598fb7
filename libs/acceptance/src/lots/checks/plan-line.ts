import {
  type AttributeLimit,
  type Limit,
  type LimitRef,
  limitName,
  type Method,
  type Plan,
  type PlanLine,
  type Problem,
  shown,
} from '@breakbook/lab';
import { sameDimension } from '@breakbook/units';
import { criterionProblems } from './plan-criterion.js';
import { problemAt } from './records.js';

/** What a plan line may name, and where the limits stand. */
export interface PlanRecords {
  /** Every revision of the limits named, so that the one in force can be told. */
  limits: readonly Limit[];
  methodOf: (ref: { method: string; methodRevision: number }) => Method | undefined;
  limitOf: (ref: LimitRef) => Limit | undefined;
  /** Where what is wrong with a limit itself is pointed at; `named` is where the line names it. */
  placeOf: (limit: Limit, named: string) => string;
}

/**
 * Does this line of a plan fit the method and the limits it names? The method gives what the line and its limits are
 * about, the limits were in force when the plan was approved, and a bound stands against a limit it can clear.
 */
export function planLineProblems(plan: Plan, line: PlanLine, at: string, records: PlanRecords): Problem[] {
  const method = records.methodOf(line);
  if (!method)
    return [
      problemAt(
        'body.not-found',
        `${at}/methodRevision`,
        `there is no method ${line.method} rev. ${line.methodRevision}. Add this revision of the method, or correct the plan line.`,
        `${line.method} rev. ${line.methodRevision}`,
      ),
    ];
  return [
    ...(gives(method, line.characteristic)
      ? []
      : [notGiven(`${at}/characteristic`, method, line.characteristic, `line ${line.line}`)]),
    ...line.limits.flatMap((ref, index) => limitProblems(plan, method, ref, `${at}/limits/${index}`, records)),
    ...line.criteria.flatMap((criterion, index) =>
      criterionProblems(plan, line, criterion, method, records.limitOf(criterion.limit), `${at}/criteria/${index}`),
    ),
  ];
}

function limitProblems(
  plan: Plan,
  method: Method,
  ref: LimitRef,
  at: string,
  { limits, limitOf, placeOf }: PlanRecords,
): Problem[] {
  const limit = limitOf(ref);
  if (!limit)
    return [
      problemAt(
        'body.not-found',
        at,
        `there is no limit ${limitName(ref)}. Add this revision of the limit, or correct the plan line.`,
        limitName(ref),
      ),
    ];
  const place = placeOf(limit, at);
  if (limit.bound === 'absent')
    return [...signProblems(limit, method, place), ...inForce(limit, limits, plan.approvedOn, at)];
  const characteristic = method.characteristics.find((one) => one.characteristic === limit.characteristic);
  if (!characteristic) return [notGiven(`${place}/characteristic`, method, limit.characteristic, limitName(limit))];
  return [
    ...(sameDimension(limit.unit, characteristic.unit)
      ? []
      : [
          {
            ...problemAt(
              'unit.wrong-dimension',
              `${place}/unit`,
              `${limitName(limit)} is in ${limit.unit}, and ${limit.characteristic} is given in ${characteristic.unit}. Write the limit in a unit of ${characteristic.kind}.`,
              limit.unit,
            ),
            expected: characteristic.unit,
          },
        ]),
    ...inForce(limit, limits, plan.approvedOn, at),
  ];
}

/** Was this revision the one in force on the day the plan was approved? */
function inForce(limit: Limit, limits: readonly Limit[], day: string, at: string): Problem[] {
  if (limit.inForceFrom > day)
    return [
      problemAt(
        'state.conflict',
        at,
        `${limitName(limit)} is in force from ${limit.inForceFrom}, and the plan was approved on ${day}. Name the revision in force on that day, or have the plan revised.`,
        limitName(limit),
      ),
    ];
  const later = limits.find(
    (one) => one.limit === limit.limit && one.revision > limit.revision && one.inForceFrom <= day,
  );
  if (!later) return [];
  return [
    problemAt(
      'state.conflict',
      at,
      `${limitName(limit)} was no longer in force when the plan was approved on ${day}: rev. ${later.revision} had taken its place on ${later.inForceFrom}. Name that revision.`,
      limitName(limit),
    ),
  ];
}

/** Signs that must be absent are failure modes of the method, or nobody would record them. */
function signProblems({ signs }: AttributeLimit, method: Method, place: string): Problem[] {
  const known = method.failureModes.map(({ code }) => code);
  return signs.flatMap((sign, index) =>
    known.includes(sign)
      ? []
      : [
          {
            ...problemAt(
              'meta.unknown',
              `${place}/signs/${index}`,
              `${shown(sign)} is no failure mode of method ${method.method} rev. ${method.revision}. It knows ${known.join(', ')}.`,
              sign,
            ),
            expected: known.join(', '),
          },
        ],
  );
}

function gives(method: Method, characteristic: string): boolean {
  return method.characteristics.some((one) => one.characteristic === characteristic);
}

function notGiven(pointer: string, method: Method, characteristic: string, what: string): Problem {
  const given = method.characteristics.map((one) => one.characteristic).join(', ');
  return {
    ...problemAt(
      'meta.unknown',
      pointer,
      `${what} is about ${shown(characteristic)}, which method ${method.method} rev. ${method.revision} does not give. It gives ${given}.`,
      characteristic,
    ),
    expected: given,
  };
}
