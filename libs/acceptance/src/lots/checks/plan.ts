import { type Limit, type Person, type PlanLine, type Problem, type Specimen, shown } from '@breakbook/lab';
import { planLineProblems } from './plan-line.js';
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
    ...(drawer ? builtByDrawer(specimen, drawer, '/lot/sampling/drawnBy') : []),
  ];
}

/** Whoever builds a specimen does not draw it from its lot. */
export function builtByDrawer(specimen: Specimen, drawer: Person, at: string): Problem[] {
  const built = Object.entries(specimen.build ?? {}).find(([, by]) => by === drawer.person || by === drawer.name);
  if (!built) return [];
  return [
    problemAt(
      'duty.conflict',
      at,
      `${drawer.person} drew the specimens and built specimen ${specimen.specimen} (${built[0]}). Whoever builds does not draw: have another person draw.`,
      drawer.person,
    ),
  ];
}

function drawnFor({ specimens, retained = 0, witnesses = 0 }: PlanLine): number {
  return specimens + retained + witnesses;
}

function lineProblems(records: Records, line: PlanLine, at: string): Problem[] {
  const { lot, limits, plan } = records.bundle;
  const { methodOf, limitOf } = records;
  const placeOf = (limit: Limit) => `/limits/${limits.indexOf(limit)}`;
  return [
    ...planLineProblems(plan, line, at, { limits, methodOf, limitOf, placeOf }),
    ...(drawnFor(line) > lot.size
      ? [
          problemAt(
            'state.conflict',
            `${at}/specimens`,
            `the plan asks for ${drawnFor(line)} specimens of a lot of ${lot.size}${drawnFor(line) === line.specimens ? '' : ', those retained and the witnesses included'}. Plan no more than the lot holds.`,
            String(drawnFor(line)),
          ),
        ]
      : []),
  ];
}
