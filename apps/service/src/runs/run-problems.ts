import type { LotBundle, Problem, Run } from '@breakbook/lab';
import { type Reader, tables } from '@breakbook/records';
import { In } from 'typeorm';
import { acceptance } from '../arithmetic.js';
import { contentsById, limitsOf, peopleOf } from '../lots/lot-bundle.js';
import type { RunContext } from './run-context.js';

const AT = '/runs/0';

/**
 * Does this run fit the records it was made under: people that are there, the method its plan line asks for, modes the
 * method knows, an order of events that can be? A run that does not would keep its whole lot from being judged.
 */
export async function problemsOfRun(reader: Reader, context: RunContext, run: Run): Promise<Problem[]> {
  const { checkBundle } = await acceptance();
  const problems = checkBundle(await bundleOfRun(reader, context, run));
  return problems.flatMap(({ pointer, ...problem }) => {
    // What is wrong elsewhere is not the sender's doing, and is told when the lot is judged.
    if (pointer === undefined || !pointer.startsWith(`${AT}/`)) return [];
    const within = pointer.slice(AT.length);
    return [{ ...problem, pointer: within, detail: problem.detail.replace(`${pointer}: `, `${within}: `) }];
  });
}

export async function bundleOfRun(reader: Reader, context: RunContext, run: Run): Promise<LotBundle> {
  const { lot, specimen, planRevision, layoutRevision, rig } = context;
  const lotVersion = await reader.latest(tables.LotVersion, lot.id);
  const lines = await reader.find(tables.PlanLine, { planRevisionId: planRevision.id });
  const sensors = await reader.find(tables.Sensor, {
    key: In(rig?.content.placements.map(({ sensor }) => sensor) ?? []),
  });
  const sensorVersions = await reader.latestOf(
    tables.SensorVersion,
    sensors.map(({ id }) => id),
  );
  return {
    lab: (await reader.latest(tables.LabVersion, reader.labId)).content,
    customer: lotVersion.customer,
    people: await peopleOf(reader),
    product: context.product.content,
    lot: lotVersion.content,
    specimens: [(await reader.latest(tables.SpecimenVersion, specimen.id)).content],
    plan: planRevision.content,
    limits: await limitsOf(reader, planRevision.id),
    methods: await contentsById(
      reader,
      tables.MethodRevision,
      lines.map(({ methodRevisionId }) => methodRevisionId),
    ),
    layouts: layoutRevision ? [layoutRevision.content] : [],
    rigs: rig ? [rig.content] : [],
    sensors: [...sensorVersions.values()].map(({ content }) => content),
    calibrations: context.calibrations.map(({ content }) => content),
    runs: [run],
  };
}
