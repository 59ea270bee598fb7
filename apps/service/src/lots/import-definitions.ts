import { type LotBundle } from '@breakbook/lab';
import { newId, type Rows, tables } from '@breakbook/records';
import { nounOf, revisionOf, said } from '../records/revisions.js';

/** Everything a lot's runs rest on, kept before them: who, what, by which method, plan and limits, on which rig. */
export async function importDefinitions(rows: Rows, bundle: LotBundle): Promise<void> {
  for (const content of bundle.people) {
    const person = await nounOf(rows, tables.Person, content.person, { kind: 'person' });
    await said(rows, tables.PersonVersion, person.id, { content });
  }
  const product = await nounOf(rows, tables.Product, bundle.product.product, {});
  await said(rows, tables.ProductVersion, product.id, { content: bundle.product });

  for (const content of bundle.limits) {
    const limit = await nounOf(rows, tables.Limit, content.limit, {});
    await said(rows, tables.LimitRevision, limit.id, { content });
  }
  for (const content of bundle.methods) {
    const method = await nounOf(rows, tables.Method, content.method, {});
    await said(rows, tables.MethodRevision, method.id, { content });
  }
  await importPlan(rows, bundle, product.id);
  await importRigs(rows, bundle);
  await importLotRecord(rows, bundle, product.id);
}

async function importPlan(rows: Rows, { plan: content }: LotBundle, productId: string): Promise<void> {
  const plan = await nounOf(rows, tables.Plan, content.plan, { productId });
  const revision = await said(rows, tables.PlanRevision, plan.id, { content });
  if ((await rows.find(tables.PlanLine, { planRevisionId: revision.id })).length > 0) return;

  for (const line of content.lines) {
    const method = await rows.named(tables.Method, line.method);
    const methodRevision = await revisionOf(rows, tables.MethodRevision, method.id, line.methodRevision);
    const added = await rows.add(tables.PlanLine, {
      planRevisionId: revision.id,
      key: line.line,
      methodRevisionId: methodRevision.id,
    });
    for (const ref of line.limits) {
      const limit = await rows.named(tables.Limit, ref.limit);
      const limitRevision = await revisionOf(rows, tables.LimitRevision, limit.id, ref.revision);
      await rows.add(tables.PlanLineLimit, { planLineId: added.id, limitRevisionId: limitRevision.id });
    }
  }
}

async function importRigs(rows: Rows, bundle: LotBundle): Promise<void> {
  for (const content of bundle.sensors) {
    const sensor = await nounOf(rows, tables.Sensor, content.sensor, {});
    await said(rows, tables.SensorVersion, sensor.id, { content });
  }
  for (const { placements, ...body } of bundle.rigs) {
    const rig = await nounOf(rows, tables.Rig, body.rig, {});
    await said(rows, tables.RigVersion, rig.id, { content: body });
    for (const content of placements) await importPlacement(rows, rig.id, content);
  }
  for (const content of bundle.calibrations) {
    const sensor = await rows.named(tables.Sensor, content.sensor);
    const calibration = await nounOf(rows, tables.Calibration, content.calibration, { sensorId: sensor.id });
    await said(rows, tables.CalibrationVersion, calibration.id, { content });
  }
  for (const content of bundle.layouts) {
    const rig = await rows.named(tables.Rig, content.rig);
    const layout = await nounOf(rows, tables.Layout, content.layout, { rigId: rig.id });
    await said(rows, tables.LayoutRevision, layout.id, { content });
  }
}

/** A placement has no name; sensor, channel and first day tell it from others. */
async function importPlacement(rows: Rows, rigId: string, content: tables.SensorPlacement['content']): Promise<void> {
  const sensor = await rows.named(tables.Sensor, content.sensor);
  const known = await rows.find(tables.SensorPlacement, { rigId, sensorId: sensor.id });
  const before = known.find((one) => one.content.channel === content.channel && one.content.from === content.from);
  await said(rows, tables.SensorPlacement, before?.recordId ?? newId(), {
    rigId,
    sensorId: sensor.id,
    content,
  });
}

async function importLotRecord(rows: Rows, bundle: LotBundle, productId: string): Promise<void> {
  const { sampling, ...body } = bundle.lot;
  const lot = await nounOf(rows, tables.Lot, body.lot, { productId });
  await said(rows, tables.LotVersion, lot.id, { content: body, customer: bundle.customer });
  if (sampling) {
    const drawnBy = await rows.named(tables.Person, sampling.drawnBy);
    await said(rows, tables.SamplingRecord, lot.id, { drawnById: drawnBy.id, content: sampling });
  }
  for (const content of bundle.specimens) {
    const specimen = await nounOf(rows, tables.Specimen, content.specimen, { lotId: lot.id });
    await said(rows, tables.SpecimenVersion, specimen.id, { content });
  }
}
