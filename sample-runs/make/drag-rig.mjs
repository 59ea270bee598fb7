/** The brake-heat drum: its sensors, calibrations and file layout, and how its logger shows each channel. */

import { WHO } from './world.mjs';

export const DRAG_RATE = 2;
const FROM = '2026-04-01';
const CALIBRATED = '2026-06-08';
const DUE = '2027-06-08';

/**
 * One row a sensor. true = gain · indicated + offset in `unit`, as its certificate says; `drift` is what the adjustment
 * took away; `U` and `tolerance` in the same unit.
 */
const SENSORS = [
  {
    channel: 'surfaceSpeed',
    column: 'drum speed',
    sensor: 'V-R3',
    description: 'Pulse wheel on the drum, speed of its surface',
    serial: 'PW-0412',
    unit: 'km/h',
    relation: { gain: 1.0008, offset: 0.01 },
    drift: { gain: 0.0004, offset: 0 },
    U: 0.1,
    tolerance: 0.3,
    fullScale: 80,
    noise: 0.03,
    digits: 2,
    traceableTo: 'Frequency standard FQ-1 and diameter of the drum, certificates on file, to the national standards',
  },
  {
    channel: 'brakeForce',
    column: 'brake force',
    sensor: 'F-R3',
    description: 'Torque shaft of the drum, scaled to tangential force at the tread',
    serial: 'TS-118',
    unit: 'N',
    relation: { gain: 0.9976, offset: 0.12 },
    drift: { gain: 0.0011, offset: -0.1 },
    U: 0.5,
    tolerance: 1.5,
    fullScale: 250,
    noise: 0.4,
    digits: 2,
    traceableTo: 'Torque lever and weights TW-3 of the lab, certificate on file, to the national standard of mass',
  },
  {
    channel: 'trackTemperatureLeft',
    column: 'track left',
    sensor: 'TL-R3',
    description: 'Rubbing thermocouple type K on the left track, 150° behind the pads',
    serial: 'RK-31',
    unit: 'Cel',
    relation: { gain: 1.0031, offset: -0.4 },
    drift: { gain: -0.0008, offset: 0.5 },
    U: 1.5,
    tolerance: 3,
    fullScale: 400,
    noise: 0.4,
    digits: 1,
    traceableTo: 'Dry-block calibrator DB-1 of the lab, certificate on file, to the national standard of temperature',
  },
  {
    channel: 'trackTemperatureRight',
    column: 'track right',
    sensor: 'TR-R3',
    description: 'Rubbing thermocouple type K on the right track, 150° behind the pads',
    serial: 'RK-32',
    unit: 'Cel',
    relation: { gain: 0.9988, offset: 0.3 },
    drift: { gain: 0.0006, offset: -0.3 },
    U: 1.5,
    tolerance: 3,
    fullScale: 400,
    noise: 0.4,
    digits: 1,
    traceableTo: 'Dry-block calibrator DB-1 of the lab, certificate on file, to the national standard of temperature',
  },
  {
    channel: 'padTemperature',
    column: 'pad',
    sensor: 'TP-R3',
    description: 'Thermocouple type K, 2 mm deep in the left pad',
    serial: 'PK-07',
    unit: 'Cel',
    relation: { gain: 1.001, offset: 0.2 },
    drift: { gain: 0.0005, offset: 0.2 },
    U: 2,
    tolerance: 4,
    fullScale: 400,
    noise: 0.5,
    digits: 1,
    traceableTo: 'Dry-block calibrator DB-1 of the lab, certificate on file, to the national standard of temperature',
  },
  {
    channel: 'airSpeed',
    column: 'air speed',
    sensor: 'A-R3',
    description: 'Vane anemometer in the air stream, 0.3 m before the wheel',
    serial: 'VA-55',
    unit: 'km/h',
    relation: { gain: 1.012, offset: -0.2 },
    drift: { gain: 0.004, offset: 0.1 },
    U: 0.8,
    tolerance: 2,
    fullScale: 80,
    noise: 0.3,
    digits: 1,
    traceableTo: 'Wind tunnel of an accredited laboratory, certificate on file',
  },
  {
    channel: 'roomTemperature',
    column: 'room',
    sensor: 'T-R3',
    description: 'Resistance thermometer in the room, out of the air stream',
    serial: 'RT-14',
    unit: 'Cel',
    relation: { gain: 1.001, offset: -0.06 },
    drift: { gain: 0.0005, offset: 0.03 },
    U: 0.3,
    tolerance: 0.5,
    fullScale: 60,
    noise: 0.05,
    digits: 1,
    traceableTo: 'Reference thermometer TR-1 of the lab, certificate on file, to the national standard of temperature',
  },
  {
    channel: 'tyrePressure',
    column: 'tyre',
    sensor: 'P-R3',
    description: 'Gauge pressure transmitter 0 to 16 bar on the hub, by telemetry from the valve',
    serial: '16-3008',
    unit: 'bar',
    relation: { gain: 1.0006, offset: -0.008 },
    drift: { gain: 0.0003, offset: 0.006 },
    U: 0.06,
    tolerance: 0.12,
    fullScale: 16,
    noise: 0.006,
    digits: 3,
    traceableTo: 'Dead-weight tester DW-2 of the lab, certificate on file, to the national standard of pressure',
  },
];

export const dragRigDocument = {
  rigs: [
    {
      rig: 'R3',
      name: 'Brake-heat drum',
      location: 'Test House, bay 3',
      placements: SENSORS.map(({ channel, sensor, fullScale, unit }) => ({
        channel,
        sensor,
        from: FROM,
        fullScale: { value: fullScale, unit },
      })),
      rigLimit: { value: 1500, unit: 'W' },
    },
  ],
  layouts: [
    {
      layout: 'R3-log',
      revision: 1,
      rig: 'R3',
      form: 'layout 1',
      time: { column: 'time', kind: 'time' },
      columns: SENSORS.map(({ column, channel }) => ({ column, channel })),
      requiredMetadata: ['pads', 'tyre', 'control'],
    },
  ],
  sensors: SENSORS.map(({ sensor, description, serial }) => ({ sensor, description, serial })),
  calibrations: SENSORS.map(({ sensor, unit, relation, drift, U, tolerance, traceableTo }, index) => ({
    calibration: `CAL-26-${sensor}`,
    sensor,
    date: CALIBRATED,
    due: DUE,
    unit,
    asFound: { gain: rounded(relation.gain + drift.gain), offset: rounded(relation.offset + drift.offset) },
    asLeft: relation,
    expandedUncertainty: U,
    k: 2,
    tolerance,
    certificate: `SWL-26-${171 + index}`,
    traceableTo,
    by: WHO.calibrates,
  })),
};

/**
 * The channels of a run as the logger records them.
 * @param {import('./drag.mjs').Dragged['samples']} samples
 * @returns {import('./recorder.mjs').RecordedChannel[]}
 */
export function dragChannels({ speed, force, left, right, pads, air, room, pressure }) {
  const values = [speed, force, left, right, pads, air, room, pressure.map((kilopascal) => kilopascal / 100)];
  return SENSORS.map(({ column, unit, relation, noise, digits, fullScale }, index) => ({
    column,
    unit,
    values: /** @type {number[]} */ (values[index]),
    relation,
    noise,
    span: [-0.05 * fullScale, 1.05 * fullScale],
    digits,
  }));
}

/** @param {number} value */
function rounded(value) {
  return Math.round(value * 1e6) / 1e6;
}
