/** One brake-heat run as the rig makes it: the raw file of its logger, and the record that people keep of it. */

import { createHash } from 'node:crypto';
import { Chance } from './chance.mjs';
import { dragged } from './drag.mjs';
import { DRAG_RATE, dragChannels } from './drag-rig.mjs';
import { DRAG_SPEED, heatDrag, STAGES, TYRE_AT_START } from './heat-method.mjs';
import { later } from './recorded-run.mjs';
import { channelFile } from './recorder.mjs';
import { WHO } from './world.mjs';

const CALLIPER = 'digital calliper CD-4, certificate SWL-26-191';
const SCALE = 'laboratory scale LS-2, certificate SWL-26-192';
const PADS = 'composite-rim compound, new';
const TYRE = '622-28 with butyl tube';

/**
 * @typedef {object} DragPlan
 * @property {string} run
 * @property {string} specimen
 * @property {string} startedAt UTC
 * @property {number} room °C
 * @property {number} [softensAt] °C, flange
 * @property {number} [tracksMeltAt] °C, hotter track
 * @property {number} [tubeGoesAt] °C, bed
 * @property {{ stage: number, after: number }} [blowerTrips]
 * @property {(ended: import('./drag.mjs').Dragged['ended'], chance: Chance) => object} examined
 * @property {object} validity
 * @property {string} reviewedAt
 * @property {string[]} [deviations]
 * @property {{ method: string, revision: number, stages: { name: string, power: number, duration: number }[], stopsAt?: number }} [programme]
 *   where it is not the drag in two stages
 */

/** @type {NonNullable<DragPlan['programme']>} */
const TWO_STAGES = { method: heatDrag.method, revision: heatDrag.revision, stages: STAGES };

/** @param {DragPlan} plan */
export function draggedRun(plan) {
  const { run, specimen, startedAt, programme = TWO_STAGES } = plan;
  const chance = new Chance(`drag ${run}`);
  const made = dragged(
    {
      stages: programme.stages,
      speed: DRAG_SPEED,
      room: plan.room,
      pressure: TYRE_AT_START + chance.between(-8, 8),
      leftShare: chance.between(0.505, 0.515),
      ...(plan.softensAt === undefined ? {} : { softensAt: plan.softensAt }),
      ...(programme.stopsAt === undefined ? {} : { stopsAt: programme.stopsAt }),
      ...(plan.tracksMeltAt === undefined ? {} : { tracksMeltAt: plan.tracksMeltAt }),
      ...(plan.tubeGoesAt === undefined ? {} : { tubeGoesAt: plan.tubeGoesAt }),
      ...(plan.blowerTrips ? { blowerTrips: plan.blowerTrips } : {}),
    },
    DRAG_RATE,
  );
  const text = channelFile({
    seed: `run ${run}`,
    metadata: { specimen, rig: 'R3', started: startedAt, pads: PADS, tyre: TYRE, control: 'constant power' },
    rate: DRAG_RATE,
    timeDigits: 1,
    channels: dragChannels(made.samples),
  });
  const file = { name: `runs/run-${run}.csv`, text };
  const at = (/** @type {number} */ seconds) => later(startedAt, seconds / 60);
  const ended = at(made.samples.speed.length / DRAG_RATE);

  return {
    file,
    ended: made.ended,
    energy: made.energy,
    record: {
      run,
      specimen,
      planLine: 'A',
      method: programme.method,
      methodRevision: programme.revision,
      rig: 'R3',
      layoutRevision: 1,
      operator: WHO.records,
      startedAt,
      conditions: {
        pads: PADS,
        tyre: TYRE,
        'load on the drum': { value: 650, unit: 'N' },
        'room temperature': { value: plan.room, unit: 'Cel' },
      },
      passages: made.stages.map(({ from }, index) => ({
        passage: index + 1,
        kind: 'stage',
        title: /** @type {{ name: string }} */ (programme.stages[index]).name,
        startedAt: at(Math.floor(from)),
      })),
      files: [{ name: file.name, sha256: createHash('sha256').update(text).digest('hex') }],
      measurements: measurements(made, chance, { before: later(startedAt, -20), at, after: later(ended, 40) }),
      examination: { ...plan.examined(made.ended, chance), person: WHO.records, at: later(ended, 55) },
      validity: { ...plan.validity, person: WHO.reviews, at: plan.reviewedAt },
      readiness: { confirmedBy: WHO.records, at: later(startedAt, -5) },
      deviations: plan.deviations ?? [],
    },
  };
}

/**
 * Width of the rim and mass of the pads. A rim that kept its tyre is wider by some hundredths of a millimetre after
 * each stage, one that opened by more than a millimetre; pads lose about a gram for 400 kJ.
 * @param {import('./drag.mjs').Dragged} made
 * @param {Chance} chance
 * @param {{ before: string, at: (seconds: number) => string, after: string }} when
 */
function measurements({ stages, ended, energy }, chance, when) {
  const keyed = (
    /** @type {string} */ of,
    /** @type {number} */ value,
    /** @type {string} */ unit,
    /** @type {string} */ instrument,
    /** @type {string} */ at,
    /** @type {object} */ other = {},
  ) => ({
    of,
    quantity: { value: Math.round(value * 100) / 100, unit },
    ...other,
    instrument,
    person: WHO.records,
    at,
  });
  const width = chance.between(26.75, 26.9);
  const first = width + chance.between(0.01, 0.04);
  const second =
    first +
    (ended === 'flange opened' || ended === 'tracks molten' ? chance.between(1.2, 2) : chance.between(0.03, 0.1));
  const pads = chance.between(41, 42);
  const place = { place: 'widest place, 270° from the valve' };
  return [
    keyed('padMassBefore', pads, 'g', SCALE, when.before),
    keyed('rimWidthBefore', width, 'mm', CALLIPER, when.before, place),
    ...(stages.length > 1
      ? [
          keyed('rimWidthAfter', first, 'mm', CALLIPER, when.at(Math.round(stages[1]?.from ?? 0) - 90), {
            ...place,
            passage: 1,
          }),
        ]
      : []),
    keyed('rimWidthAfter', second, 'mm', CALLIPER, when.after, { ...place, passage: stages.length }),
    keyed('padMassAfter', pads - energy / 400_000, 'g', SCALE, when.after),
  ];
}
