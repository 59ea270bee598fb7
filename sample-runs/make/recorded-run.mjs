/** One run as a rig makes it: the raw file of its logger, and the record that people keep of it. */

import { createHash } from 'node:crypto';
import { Chance } from './chance.mjs';
import { pressurise } from './hydraulics.mjs';
import { runFile } from './logger.mjs';
import { circuits, pressureSensors, rigLimit, thermometer } from './rigs.mjs';
import { WHO } from './world.mjs';

const RATES = { R1: 200, R2: 100 };
const SET_UPS = { R1: 'metal bead clamps, rubber ring', R2: 'reference tyre 622-28 with tube' };
/** Seconds in which the water leaves a broken rim, and one whose tyre came off. */
const ESCAPE = { R1: 0.012, R2: 0.025 };

/**
 * @typedef {object} RunPlan
 * @property {string} run
 * @property {string} specimen
 * @property {string} planLine
 * @property {{ method: string, revision: number }} method
 * @property {import('./rigs.mjs').RigKey} rig
 * @property {string} startedAt UTC
 * @property {number} room °C
 * @property {number} [strength] of what lets go first, bar
 * @property {boolean} [hold] 304 s a little above 110 % of the marked pressure
 * @property {number} [tripAt] bar
 * @property {{ at: number, size: number }} [spike]
 * @property {object} examination end reason, modes and what was found of the rim
 * @property {object} validity
 * @property {string} reviewedAt
 * @property {string[]} [deviations]
 */

/** @param {RunPlan} plan @returns {{ record: object, file: { name: string, text: string } }} */
export function recordedRun(plan) {
  const { run, specimen, rig, startedAt } = plan;
  const setUp = SET_UPS[rig];
  const { pressures } = pressurise(
    circuits[rig],
    {
      ...(plan.hold ? { hold: { pressure: 9.22, duration: 304 } } : {}),
      ...(plan.strength === undefined ? {} : { letsGo: { pressure: plan.strength, escape: ESCAPE[rig] } }),
      ...(plan.tripAt === undefined ? {} : { tripAt: plan.tripAt }),
      stopAt: rigLimit(rig),
    },
    RATES[rig],
  );
  const text = runFile({
    seed: `run ${run}`,
    metadata: { specimen, rig, started: startedAt, medium: 'water', 'set-up': setUp },
    rate: RATES[rig],
    pressures,
    sensors: pressureSensors(rig),
    temperature: { sensor: thermometer(rig), room: plan.room },
    ...(plan.spike ? { spike: plan.spike } : {}),
  });
  const file = { name: `runs/run-${run}.csv`, text };

  const ended = later(startedAt, pressures.length / RATES[rig] / 60);
  return {
    file,
    record: {
      run,
      specimen,
      planLine: plan.planLine,
      method: plan.method.method,
      methodRevision: plan.method.revision,
      rig,
      layoutRevision: 1,
      operator: WHO.records,
      startedAt,
      conditions: {
        medium: 'water',
        'set-up': setUp,
        'room temperature': { value: plan.room, unit: 'Cel' },
        'water temperature': { value: waterTemperature(run, plan.room), unit: 'Cel' },
      },
      files: [{ name: file.name, sha256: createHash('sha256').update(text).digest('hex') }],
      measurements: [],
      examination: { ...plan.examination, person: WHO.records, at: later(ended, 14) },
      validity: { ...plan.validity, person: WHO.reviews, at: plan.reviewedAt },
      readiness: { confirmedBy: WHO.records, at: later(startedAt, -5) },
      deviations: plan.deviations ?? [],
    },
  };
}

/** Tap water stood in the tank overnight: a little cooler than the room. @param {string} run @param {number} room */
function waterTemperature(run, room) {
  return Math.round((room - new Chance(`water ${run}`).between(0.6, 1.4)) * 10) / 10;
}

/** An instant some minutes later, to the second. @param {string} instant @param {number} minutes */
export function later(instant, minutes) {
  return `${new Date(Date.parse(instant) + Math.round(minutes * 60) * 1000).toISOString().slice(0, 19)}Z`;
}
