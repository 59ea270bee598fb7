/** The two water rigs: their sensors, calibrations and file layouts, and the models that stand for them here. */

import { WHO } from './world.mjs';

/** @typedef {'R1' | 'R2'} RigKey */
/** @typedef {{ gain: number, offset: number }} Relation */

const FROM = '2026-04-01';
const SPANS = { R1: 40, R2: 25 };
const NAMES = { R1: 'Water burst rig with bead clamps', R2: 'Water hold rig for rims with tyres' };
const RIG_LIMITS = { R1: 30, R2: 16 };
/**
 * true = gain · indicated + offset, in bar and °C, as the certificates say: rim pressure, second pressure, room.
 * @type {Record<RigKey, [Relation, Relation, Relation]>}
 */
const AS_LEFT = {
  R1: [
    { gain: 1.0012, offset: -0.006 },
    { gain: 0.9991, offset: -0.011 },
    { gain: 1.002, offset: -0.08 },
  ],
  R2: [
    { gain: 0.9986, offset: -0.004 },
    { gain: 1.0009, offset: -0.009 },
    { gain: 0.998, offset: 0.05 },
  ],
};
/** What the adjustment took away: as-found less as-left. */
const DRIFT_FOUND = [
  { gain: -0.0006, offset: 0.012 },
  { gain: 0.0004, offset: 0.008 },
  { gain: 0.0005, offset: 0.03 },
];

/**
 * What rigs.json holds for these rigs.
 * @param {RigKey[]} keys
 */
export function rigDocuments(keys) {
  return {
    rigs: keys.map((rig) => ({
      rig,
      name: NAMES[rig],
      location: rig === 'R1' ? 'Test House, bay 1' : 'Test House, bay 2',
      placements: [
        {
          channel: 'rimPressure',
          sensor: `P-${rig}-1`,
          from: FROM,
          fullScale: { value: SPANS[rig], unit: 'bar' },
        },
        {
          channel: 'rimPressure2',
          sensor: `P-${rig}-2`,
          from: FROM,
          fullScale: { value: SPANS[rig], unit: 'bar' },
        },
        { channel: 'roomTemperature', sensor: `T-${rig}`, from: FROM, fullScale: { value: 60, unit: 'Cel' } },
      ],
      rigLimit: { value: RIG_LIMITS[rig], unit: 'bar' },
    })),
    layouts: keys.map((rig) => ({
      layout: `${rig}-log`,
      revision: 1,
      rig,
      form: 'layout 1',
      time: { column: 'time', kind: 'time' },
      columns: [
        { column: 'rim pressure', channel: 'rimPressure' },
        { column: 'second pressure', channel: 'rimPressure2' },
        { column: 'room temperature', channel: 'roomTemperature' },
      ],
      requiredMetadata: ['medium', 'set-up'],
    })),
    sensors: keys.flatMap((rig) => [
      {
        sensor: `P-${rig}-1`,
        description: `Gauge pressure transmitter 0 to ${SPANS[rig]} bar, at the rim valve`,
        serial: rig === 'R1' ? '40-2219' : '25-1107',
      },
      {
        sensor: `P-${rig}-2`,
        description: `Gauge pressure transmitter 0 to ${SPANS[rig]} bar, at the manifold`,
        serial: rig === 'R1' ? '40-2231' : '25-1112',
      },
      {
        sensor: `T-${rig}`,
        description: 'Resistance thermometer in the room, 1 m from the rig',
        serial: rig === 'R1' ? 'RT-08' : 'RT-11',
      },
    ]),
    calibrations: keys.flatMap((rig) => AS_LEFT[rig].map((asLeft, index) => calibration(rig, index, asLeft))),
  };
}

/** @param {RigKey} rig @param {number} index @param {{ gain: number, offset: number }} asLeft */
function calibration(rig, index, asLeft) {
  const pressure = index < 2;
  const sensor = pressure ? `P-${rig}-${index + 1}` : `T-${rig}`;
  const drift = DRIFT_FOUND[index] ?? { gain: 0, offset: 0 };
  return {
    calibration: `CAL-26-${sensor}`,
    sensor,
    date: pressure ? '2026-05-18' : '2026-05-19',
    due: pressure ? '2027-05-18' : '2027-05-19',
    unit: pressure ? 'bar' : 'Cel',
    asFound: { gain: rounded(asLeft.gain + drift.gain), offset: rounded(asLeft.offset + drift.offset) },
    asLeft,
    expandedUncertainty: pressure ? 0.1 : 0.3,
    k: 2,
    tolerance: pressure ? 0.15 : 0.5,
    certificate: `SWL-26-${rig === 'R1' ? 140 + index : 150 + index}`,
    traceableTo: pressure
      ? 'Dead-weight tester DW-2 of the lab, certificate on file, to the national standard of pressure'
      : 'Reference thermometer TR-1 of the lab, certificate on file, to the national standard of temperature',
    by: WHO.calibrates,
  };
}

/** @param {number} value */
function rounded(value) {
  return Math.round(value * 1e6) / 1e6;
}

/**
 * The sensors of a rig as they answer.
 * @param {RigKey} rig
 * @returns {[import('./logger.mjs').SensorModel, import('./logger.mjs').SensorModel]}
 */
export function pressureSensors(rig) {
  const [first, second] = AS_LEFT[rig];
  const common = { fullScale: SPANS[rig], noise: 0.004 };
  return [
    { ...first, ...common },
    { ...second, ...common },
  ];
}

/** @param {RigKey} rig */
export function thermometer(rig) {
  return AS_LEFT[rig][2];
}

/** @param {RigKey} rig */
export function rigLimit(rig) {
  return RIG_LIMITS[rig];
}

/**
 * Pump and compliance. R1: rubber ring in clamps, stiff. R2: a tyre with tube, soft, and less easily bled.
 * @type {Record<RigKey, import('./hydraulics.mjs').Circuit>}
 */
export const circuits = {
  R1: { flow: 5.6, compliance: 14, stiffening: 0.004, trappedAir: 5 },
  R2: { flow: 17, compliance: 46, stiffening: 0.006, trappedAir: 24 },
};
