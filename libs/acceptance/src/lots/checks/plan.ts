import { type Limit, type LimitRef, limitName, type Method, type PlanLine, type Problem, shown } from '@breakbook/lab';
import { sameDimension } from '@breakbook/units';
import { problemAt, type Records, unknownPerson } from './records.js';

/**
 * Do plan, lot, limits and methods belong together? The plan is for the product of the lot, its method and limit
 * revisions are there, the limits were in force when it was approved, and each is about something its method gives.
 */
export function planProblems(records: Records): Problem[] {
  const { bundle } = records;
  const { plan, lot, product, specimens } = bundle;
  return [
    ...(plan.product === product.product
      ? []
      : [wrongProduct('/plan/product', `plan ${plan.plan} is for product`, plan.product, product.product)]),
    ...(lot.product === product.product
      ? []
      : [wrongProduct('/lot/product', `lot ${lot.lot} is of product`, lot.product, product.product)]),
    ...unknownPerson(records, plan.approvedBy, '/plan/approvedBy'),
    ...(lot.sampling ? unknownPerson(records, lot.sampling.drawnBy, '/lot/sampling/drawnBy') : []),
    ...bundle.limits.flatMap((limit, index) => unknownPerson(records, limit.approvedBy, `/limits/${index}/approvedBy`)),
    ...bundle.methods.flatMap((one, index) => unknownPerson(records, one.approvedBy, `/methods/${index}/approvedBy`)),
    ...(specimens.length > lot.size
      ? [
          problemAt(
            'state.conflict',
            '/specimens',
            `${specimens.length} specimens cannot come from lot ${lot.lot} of ${lot.size}. Correct the lot size, or remove specimens of another lot.`,
            String(specimens.length),
          ),
        ]
      : []),
    ...specimens.flatMap((specimen, index) => specimenProblems(records, specimen, `/specimens/${index}`)),
    ...plan.lines.flatMap((line, index) => lineProblems(records, line, `/plan/lines/${index}`)),
  ];
}

function wrongProduct(pointer: string, what: string, found: string, expected: string): Problem {
  return {
    ...problemAt(
      'state.conflict',
      pointer,
      `${what} ${shown(found)}, and this bundle is of ${shown(expected)}. Judge it under a plan for its own product.`,
      found,
    ),
    expected,
  };
}

function specimenProblems(
  { bundle }: Records,
  specimen: Records['bundle']['specimens'][number],
  at: string,
): Problem[] {
  const { lot, people } = bundle;
  const drawer = people.find(({ person }) => person === lot.sampling?.drawnBy);
  const built = Object.entries(specimen.build ?? {}).find(
    ([, by]) => drawer !== undefined && (by === drawer.person || by === drawer.name),
  );
  return [
    ...(specimen.lot === lot.lot
      ? []
      : [
          problemAt(
            'state.conflict',
            `${at}/lot`,
            `specimen ${specimen.specimen} is of lot ${shown(specimen.lot)}, and this bundle is of ${lot.lot}. Move it to its own lot, or correct the key.`,
            specimen.lot,
          ),
        ]),
    ...(built && drawer
      ? [
          problemAt(
            'duty.conflict',
            '/lot/sampling/drawnBy',
            `${drawer.person} drew the specimens and built specimen ${specimen.specimen} (${built[0]}). Whoever builds does not draw: have another person draw.`,
            drawer.person,
          ),
        ]
      : []),
  ];
}

function lineProblems(records: Records, line: PlanLine, at: string): Problem[] {
  const { lot } = records.bundle;
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
    ...(line.specimens > lot.size
      ? [
          problemAt(
            'state.conflict',
            `${at}/specimens`,
            `the plan asks for ${line.specimens} specimens of a lot of ${lot.size}. Plan no more than the lot holds.`,
            String(line.specimens),
          ),
        ]
      : []),
    ...line.limits.flatMap((ref, index) => limitProblems(records, method, ref, `${at}/limits/${index}`)),
    ...line.criteria.flatMap((criterion, index) => {
      const limit = records.limitOf(criterion.limit);
      if (criterion.kind !== 'tolerance bound' || !limit || limit.bound === 'at least') return [];
      return [
        problemAt(
          'state.conflict',
          `${at}/criteria/${index}/limit`,
          `criterion ${criterion.criterion} sets a lower bound against ${limitName(limit)}, which is "${limit.bound}". Name an "at least" limit.`,
          limitName(limit),
        ),
      ];
    }),
  ];
}

function limitProblems(records: Records, method: Method, ref: LimitRef, at: string): Problem[] {
  const { plan, limits } = records.bundle;
  const limit = records.limitOf(ref);
  if (!limit)
    return [
      problemAt(
        'body.not-found',
        at,
        `there is no limit ${limitName(ref)}. Add this revision of the limit, or correct the plan line.`,
        limitName(ref),
      ),
    ];
  const place = `/limits/${limits.indexOf(limit)}`;
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
