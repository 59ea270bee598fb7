import type { Calibration, LotBundle, Reading, Run } from '@breakbook/lab';

/**
 * Of a lot's records those that some of its runs were made under: enough to read their files again and to judge them.
 * Limits of a run's plan line are among them once its validity is decided; whoever decides it sees none.
 */
export function recordsOfRuns(
  { earlier: _, ...bundle }: LotBundle,
  keys: readonly string[],
  readings: readonly Pick<Reading, 'calibrations'>[],
): LotBundle {
  const runs = bundle.runs.filter(({ run }) => keys.includes(run));
  const sensors = new Set(readings.flatMap(({ calibrations }) => calibrations.map(({ sensor }) => sensor)));
  const named = new Set([bundle.lot.sampling?.drawnBy, ...runs.flatMap(peopleOf)]);
  const people = bundle.people.filter(({ person }) => named.has(person));
  const decided = runs.filter(({ validity }) => validity !== undefined);
  const limits = bundle.plan.lines
    .filter(({ line }) => decided.some(({ planLine }) => planLine === line))
    .flatMap((line) => line.limits);
  return {
    ...bundle,
    people: people.length > 0 ? people : bundle.people.slice(0, 1),
    specimens: bundle.specimens.filter(({ specimen }) => runs.some((one) => one.specimen === specimen)),
    limits: bundle.limits.filter(({ limit, revision }) =>
      limits.some((one) => one.limit === limit && one.revision === revision),
    ),
    methods: bundle.methods.filter(({ method, revision }) =>
      runs.some((one) => one.method === method && one.methodRevision === revision),
    ),
    layouts: bundle.layouts.filter(({ rig, revision }) =>
      runs.some((one) => one.rig === rig && one.layoutRevision === revision),
    ),
    rigs: bundle.rigs.filter(({ rig }) => runs.some((one) => one.rig === rig)),
    sensors: bundle.sensors.filter(({ sensor }) => sensors.has(sensor)),
    calibrations: bundle.calibrations.filter(({ sensor }: Calibration) => sensors.has(sensor)),
    runs,
  };
}

function peopleOf({ operator, examination, validity, measurements, readiness }: Run): (string | undefined)[] {
  return [
    operator,
    examination?.person,
    validity?.person,
    readiness?.confirmedBy,
    ...measurements.map(({ person }) => person),
  ];
}
