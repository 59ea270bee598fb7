import { type Method, type Problem, type Run, shown } from '@breakbook/lab';
import { problemAt, type Records, unknownPerson } from './records.js';

/** Does each run name things that are there, in an order that can be, and did no one review what they recorded? */
export function runProblems(records: Records): Problem[] {
  const named = new Map<string, string>();
  return records.bundle.runs.flatMap((run, index) => {
    const at = `/runs/${index}`;
    return [
      ...specimenProblems(records, run, at),
      ...methodProblems(records, run, at),
      ...peopleProblems(records, run, at),
      ...orderProblems(records, run, at),
      ...reviewProblems(run, at),
      ...run.files.flatMap(({ name, sha256 }, place) => {
        // Loggers give many files one name; where digests were recorded, they tell the files apart.
        const file = sha256 === undefined ? name : `${name} ${sha256}`;
        const other = named.get(file);
        named.set(file, run.run);
        if (other === undefined) return [];
        return [
          problemAt(
            'run.duplicate',
            `${at}/files/${place}/name`,
            `${shown(name)} is the file of run ${other} already. One file is the record of one run: name the file of ${run.run}.`,
            name,
          ),
        ];
      }),
    ];
  });
}

function specimenProblems({ specimens, bundle }: Records, run: Run, at: string): Problem[] {
  if (specimens.has(run.specimen)) return [];
  return [
    problemAt(
      'meta.unknown',
      `${at}/specimen`,
      `run ${run.run} is on specimen ${shown(run.specimen)}, which is not among the specimens of lot ${bundle.lot.lot}. Receive the specimen first, or correct the run.`,
      run.specimen,
    ),
  ];
}

function methodProblems(records: Records, run: Run, at: string): Problem[] {
  const { bundle, lines, rigs } = records;
  const line = lines.get(run.planLine);
  if (!line)
    return [
      problemAt(
        'meta.unknown',
        `${at}/planLine`,
        `run ${run.run} names plan line ${shown(run.planLine)}, and plan ${bundle.plan.plan} rev. ${bundle.plan.revision} has ${[...lines.keys()].join(', ')}. Name one of these, or judge the run under its own plan.`,
        run.planLine,
      ),
    ];
  const method = records.methodOf(run);
  if (run.method !== line.method || run.methodRevision !== line.methodRevision)
    return [
      {
        ...problemAt(
          'state.conflict',
          `${at}/method`,
          `run ${run.run} was made by ${run.method} rev. ${run.methodRevision}, and line ${line.line} asks for ${line.method} rev. ${line.methodRevision}. A run counts only under the method revision its plan names.`,
          `${run.method} rev. ${run.methodRevision}`,
        ),
        expected: `${line.method} rev. ${line.methodRevision}`,
      },
    ];
  // A method revision that is not there is told once, at the plan line.
  if (!method) return [];

  // A method that needs no channel may be run without a file: its values are keyed.
  const readsFile = run.files.length > 0 || method.channels.some(({ required }) => required);
  const rigless = method.test !== 'table' && readsFile && (run.rig === undefined || run.layoutRevision === undefined);
  return [
    ...(rigless
      ? [
          problemAt(
            'body.missing-field',
            run.rig === undefined ? `${at}/rig` : `${at}/layoutRevision`,
            `run ${run.run} by ${method.method} has a file to be read, and needs its rig and the layout revision of that file.`,
          ),
        ]
      : []),
    ...(run.rig !== undefined && !rigs.has(run.rig)
      ? [
          problemAt(
            'meta.unknown',
            `${at}/rig`,
            `there is no rig ${shown(run.rig)}. Add the rig, or correct the run.`,
            run.rig,
          ),
        ]
      : []),
    ...(run.rig !== undefined && rigs.has(run.rig) && run.layoutRevision !== undefined
      ? layoutProblems(records, run.rig, run.layoutRevision, at)
      : []),
    ...modeProblems(method, run, at),
  ];
}

function layoutProblems({ bundle }: Records, rig: string, revision: number, at: string): Problem[] {
  if (bundle.layouts.some((one) => one.rig === rig && one.revision === revision)) return [];
  return [
    problemAt(
      'body.not-found',
      `${at}/layoutRevision`,
      `rig ${rig} has no layout revision ${revision}. Add it, or name the revision under which the file was written.`,
      String(revision),
    ),
  ];
}

function modeProblems(method: Method, run: Run, at: string): Problem[] {
  const codes = method.failureModes.map(({ code }) => code);
  return (run.examination?.modes ?? []).flatMap(({ code }, index) =>
    codes.includes(code)
      ? []
      : [
          {
            ...problemAt(
              'meta.unknown',
              `${at}/examination/modes/${index}/code`,
              `${method.method} rev. ${method.revision} knows no failure mode ${shown(code)}. It knows ${codes.join(', ')}.`,
              code,
            ),
            expected: codes.join(', '),
          },
        ],
  );
}

function peopleProblems(records: Records, run: Run, at: string): Problem[] {
  const named: [pointer: string, person: string | undefined][] = [
    [`${at}/operator`, run.operator],
    [`${at}/examination/person`, run.examination?.person],
    [`${at}/validity/person`, run.validity?.person],
    [`${at}/readiness/confirmedBy`, run.readiness?.confirmedBy],
    ...run.measurements.map(({ person }, index): [string, string] => [`${at}/measurements/${index}/person`, person]),
    ...(run.instants ?? []).map(({ person }, index): [string, string] => [`${at}/instants/${index}/person`, person]),
  ];
  return named.flatMap(([pointer, person]) => (person === undefined ? [] : unknownPerson(records, person, pointer)));
}

/** Plan and method before the run, the specimen received before it, examination and decision after it. */
function orderProblems(records: Records, run: Run, at: string): Problem[] {
  const { bundle, specimens, dayOf } = records;
  const started = Date.parse(run.startedAt);
  const day = dayOf(run.startedAt);
  const received = specimens.get(run.specimen)?.receivedAt;
  const method = records.methodOf(run);
  const conflict = (pointer: string, sentence: string, found: string) => [
    problemAt('state.conflict', pointer, `run ${run.run} ${sentence}`, found),
  ];
  return [
    ...(day < bundle.plan.approvedOn
      ? conflict(
          `${at}/startedAt`,
          `was made on ${day}, before plan ${bundle.plan.plan} rev. ${bundle.plan.revision} was approved on ${bundle.plan.approvedOn}. What is claimed is declared before the test: judge it under the plan that was approved then.`,
          run.startedAt,
        )
      : []),
    ...(method && day < method.inForceFrom
      ? conflict(
          `${at}/startedAt`,
          `was made on ${day}, before ${method.method} rev. ${method.revision} came into force on ${method.inForceFrom}.`,
          run.startedAt,
        )
      : []),
    ...(received !== undefined && started < Date.parse(received)
      ? conflict(
          `${at}/startedAt`,
          `started at ${run.startedAt}, before specimen ${run.specimen} was received at ${received}. Correct one of the two.`,
          run.startedAt,
        )
      : []),
    ...(run.examination && Date.parse(run.examination.at) < started
      ? conflict(`${at}/examination/at`, 'was examined before it started. Correct one of the two.', run.examination.at)
      : []),
    ...(run.instants ?? []).flatMap(({ movedAt }, index) =>
      Date.parse(movedAt) < started
        ? conflict(
            `${at}/instants/${index}/movedAt`,
            'has a moment moved before it started. Correct one of the two.',
            movedAt,
          )
        : [],
    ),
    ...(run.validity && Date.parse(run.validity.at) < started
      ? conflict(`${at}/validity/at`, 'was decided before it started. Correct one of the two.', run.validity.at)
      : []),
  ];
}

/** Whoever recorded a run, its measurements or its examination does not decide whether it is valid. */
function reviewProblems(run: Run, at: string): Problem[] {
  const decider = run.validity?.person;
  if (decider === undefined) return [];
  const parts = [
    ...(run.operator === decider ? ['ran it'] : []),
    ...(run.measurements.some(({ person }) => person === decider) ? ['took measurements of it'] : []),
    ...(run.examination?.person === decider ? ['examined its specimen'] : []),
    ...(run.instants?.some(({ person }) => person === decider) ? ['moved a moment of its record'] : []),
  ];
  if (parts.length === 0) return [];
  return [
    problemAt(
      'duty.conflict',
      `${at}/validity/person`,
      `${decider} decided that run ${run.run} is ${run.validity?.validity} and ${parts.join(' and ')}. Recording and reviewing one run are two people's work: have another person decide.`,
      decider,
    ),
  ];
}
