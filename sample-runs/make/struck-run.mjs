/** One wheel on the drop tower: a file for each strike, what was keyed, and the record that people keep of it. */

import { createHash } from 'node:crypto';
import { Chance } from './chance.mjs';
import { DROP_RATE, dropChannels, INSTRUMENTS } from './drop-rig.mjs';
import { later } from './recorded-run.mjs';
import { channelFile } from './recorder.mjs';
import { GRAVITY, STRIKER_MASS, struck } from './strike.mjs';
import { WHO } from './world.mjs';

const PLACES = Array.from({ length: 8 }, (_, index) => `${45 * index}° from the valve`);
const STRUCK_AT = '90° from the valve, between two spoke holes';
const PAD_CHECKED = '2026-11-02';
/** Share of the weight that clean guides take, as the height is set. */
const USUAL_FRICTION = 0.0275;
const MINUTES_BETWEEN_STRIKES = 12;
/** How a permanent set at the struck place spreads: at it, 45° and 90° away. */
const SPREADS = [1, 0.45, 0.1];

/**
 * @typedef {object} StruckWheel
 * @property {number} onset force at which plies part, N
 * @property {number} lateralSet mm at the struck place
 * @property {number} radialSet
 * @property {number} stiffness relative
 * @property {{ force: number, share: number }[]} [partsAt] how it parts, where not as laminates usually do
 */

/**
 * @typedef {object} DropPlan
 * @property {string} run
 * @property {string} specimen
 * @property {string} planLine
 * @property {{ method: string, revision: number }} method
 * @property {string} startedAt UTC
 * @property {number} room °C
 * @property {number[]} targets J, one strike each; the series ends at the first that damages
 * @property {StruckWheel} wheel
 * @property {number} [friction] of the guides, where it is not the usual
 * @property {string} [padChecked] day
 * @property {number} [record] how long the recorder runs, s
 * @property {(how: { damaged: boolean, cracked: boolean, lateral: number }) => object} examined
 * @property {object} validity
 * @property {string} reviewedAt
 * @property {string[]} [deviations]
 */

/** @param {DropPlan} plan */
export function struckRun(plan) {
  const { run, specimen, startedAt } = plan;
  const chance = new Chance(`drop ${run}`);
  const several = plan.targets.length > 1;
  const pad = `85 Shore A, whole, checked ${plan.padChecked ?? PAD_CHECKED}`;
  const strikes = strikesOf(plan, chance);
  const files = strikes.map(({ made, at }, index) => ({
    name: several ? `runs/run-${run}-strike-${index + 1}.csv` : `runs/run-${run}.csv`,
    text: channelFile({
      seed: `run ${run} strike ${index + 1}`,
      metadata: { specimen, rig: 'R4', started: at, strike: `${index + 1}`, pad },
      rate: DROP_RATE,
      timeDigits: 5,
      channels: dropChannels(made.forces),
    }),
  }));
  const last = /** @type {(typeof strikes)[number]} */ (strikes.at(-1));
  const { measurements, lateral } = turned(plan, chance, last.at);

  return {
    files,
    damaged: last.damaged,
    lateral,
    record: {
      run,
      specimen,
      planLine: plan.planLine,
      method: plan.method.method,
      methodRevision: plan.method.revision,
      rig: 'R4',
      layoutRevision: 1,
      operator: WHO.records,
      startedAt,
      conditions: {
        tyre: 'none',
        pad,
        'room temperature': { value: plan.room, unit: 'Cel' },
      },
      passages: strikes.map(({ target, at, damaged }, index) => ({
        passage: index + 1,
        kind: 'strike',
        title: `Strike ${index + 1}, ${target} J`,
        startedAt: at,
        place: STRUCK_AT,
        file: /** @type {{ name: string }} */ (files[index]).name,
        target: { value: target, unit: 'J' },
        found: damaged ? 'damaged' : 'whole',
      })),
      files: files.map(({ name, text }) => ({ name, sha256: createHash('sha256').update(text).digest('hex') })),
      measurements: [
        ...strikes.flatMap(({ made, height, at }, index) => [
          keyed('dropHeight', Math.round(height * 1000), 'mm', INSTRUMENTS.height, later(at, -1), {
            passage: index + 1,
          }),
          keyed('gateTime', Math.round(made.gateTime * 1e6), 'us', INSTRUMENTS.gate, at, { passage: index + 1 }),
          keyed('reboundGateTime', Math.round(made.reboundGateTime * 1e6), 'us', INSTRUMENTS.gate, at, {
            passage: index + 1,
          }),
        ]),
        ...measurements,
      ],
      examination: {
        ...plan.examined({ damaged: last.damaged, cracked: last.cracked, lateral }),
        person: WHO.records,
        at: later(last.at, 30),
      },
      validity: { ...plan.validity, person: WHO.reviews, at: plan.reviewedAt },
      readiness: { confirmedBy: WHO.records, at: later(startedAt, -4) },
      deviations: plan.deviations ?? [],
    },
  };
}

/**
 * The strikes of a wheel until one damages it. Each strike that it survives brings the force at which plies part lower
 * by half a percent. A wheel whose plies have parted cracks where the force comes back to nine tenths of that.
 * @param {DropPlan} plan
 * @param {Chance} chance
 */
function strikesOf({ targets, wheel, startedAt, friction, record }, chance) {
  const strikes = [];
  let { onset } = wheel;
  for (const [index, target] of targets.entries()) {
    // The carriage is set to the millimetre.
    const height = Math.round((target / (STRIKER_MASS * GRAVITY * (1 - USUAL_FRICTION))) * 1000) / 1000;
    const made = struck(
      {
        height,
        friction: friction ?? chance.between(0.022, 0.033),
        stiffness: wheel.stiffness,
        thresholds: wheel.partsAt ?? [
          { force: onset, share: 0.2 },
          { force: 0.9 * onset, share: 0.3 },
        ],
        ...(record === undefined ? {} : { record }),
      },
      DROP_RATE,
    );
    strikes.push({
      target,
      height,
      made,
      at: later(startedAt, MINUTES_BETWEEN_STRIKES * index),
      damaged: made.damage > 0,
      cracked: made.damage > 0.3,
    });
    if (made.damage > 0) break;
    onset *= 0.995;
  }
  return strikes;
}

/**
 * The wheel turned under dial gauges before the first strike and after the last, and the tension of its spokes. Readings
 * grow away from the struck side and towards the hub; the gauge is set to zero at the lowest place before.
 * @param {DropPlan} plan
 * @param {Chance} chance
 * @param {string} lastStrike
 */
function turned({ wheel, startedAt }, chance, lastStrike) {
  const [before, after] = [later(startedAt, -15), later(lastStrike, 20)];
  const round = (/** @type {number} */ value) => Math.round(value * 100) / 100;
  const readings = (/** @type {string} */ of, /** @type {number} */ out, /** @type {number} */ set) => {
    const drawn = PLACES.map(() => chance.between(0, out));
    const lowest = Math.min(...drawn);
    const old = drawn.map((value) => round(value - lowest));
    const now = old.map((value, index) => {
      const away = Math.min(Math.abs(index - 2), 8 - Math.abs(index - 2));
      return round(Math.max(0, value + set * (SPREADS[away] ?? 0) + chance.between(-0.02, 0.02)));
    });
    return {
      grown: Math.max(...now) - Math.max(...old),
      keyed: [
        ...old.map((value, index) =>
          keyed(`${of}Before`, value, 'mm', INSTRUMENTS.runOut, before, { place: PLACES[index] }),
        ),
        ...now.map((value, index) =>
          keyed(`${of}After`, value, 'mm', INSTRUMENTS.runOut, after, { place: PLACES[index] }),
        ),
      ],
    };
  };
  const lateral = readings('lateralRunOut', 0.24, wheel.lateralSet);
  const radial = readings('radialRunOut', 0.2, wheel.radialSet);
  const tension = Math.round(chance.between(1015, 1065));
  const nearest = { place: 'mean of the four spokes nearest to the strike' };
  return {
    lateral: lateral.grown,
    measurements: [
      ...lateral.keyed,
      ...radial.keyed,
      keyed('spokeTensionBefore', tension, 'N', INSTRUMENTS.tension, before, nearest),
      keyed(
        'spokeTensionAfter',
        tension - Math.round(140 * wheel.lateralSet),
        'N',
        INSTRUMENTS.tension,
        after,
        nearest,
      ),
    ],
  };
}

/**
 * @param {string} of
 * @param {number} value
 * @param {string} unit
 * @param {string} instrument
 * @param {string} at
 * @param {object} other
 */
function keyed(of, value, unit, instrument, at, other) {
  return { of, quantity: { value, unit }, ...other, instrument, person: WHO.records, at };
}
