/** The methods of the sample lots, with their failure modes and uncertainty budgets. */

import { benchTableReadiness, waterReadiness } from './readiness.mjs';
import { WHO } from './world.mjs';

const RIM_BROKE = [
  ['BF-FLG', 'bead flange or hook broke or peeled outward'],
  ['BF-WAL', 'sidewall split'],
  ['BF-BED', 'tyre bed tore, or a spoke hole'],
  ['BF-JNT', 'moulded joint or bond line opened'],
  ['BF-VAL', 'crack from the valve hole'],
];
const SOMETHING_ELSE = [
  ['BX-SEAL', 'bladder, seal or valve gave way'],
  ['BN-NONE', 'stopped at the rig limit or the end of the programme; nothing broke'],
];
const TYRE = [
  ['BT-OFF', 'tyre came off'],
  ['BT-CAR', 'tyre casing or bead wire burst'],
];

/**
 * Only a broken rim says how strong the rim is; whatever gave way before it says that a sound rim holds at least as much.
 * @param {string[][]} others @param {string[]} strengths
 */
function failureModes(others, strengths) {
  const counting = (/** @type {string} */ as) => Object.fromEntries(strengths.map((name) => [name, as]));
  return [
    ...RIM_BROKE.map(([code, meaning]) => ({ code, meaning, countsAs: counting('failure') })),
    ...others.map(([code, meaning]) => ({ code, meaning, countsAs: counting('at least') })),
  ];
}

const calibrated = { from: 'calibration', name: 'calibration of the rim pressure sensor', channel: 'rimPressure' };

/**
 * U of a pressure: calibration of the sensor, its zero and span over the working temperature, its hysteresis.
 * With the calibration's 0.10 bar (k 2): sqrt(5.0² + 4.6² + 1.7²) = 7.0 kPa, so U = 14 kPa.
 */
const pressureBudget = {
  k: 2,
  components: [
    calibrated,
    {
      from: 'half width',
      name: 'zero and span between 18 and 28 °C',
      halfWidth: 8,
      unit: 'kPa',
      distribution: 'rectangular',
    },
    { from: 'half width', name: 'hysteresis', halfWidth: 3, unit: 'kPa', distribution: 'rectangular' },
  ],
};

const characteristics = {
  burstPressure: {
    characteristic: 'burstPressure',
    title: 'Burst pressure',
    kind: 'pressure',
    unit: 'kPa',
    reference: 'gauge',
    definition:
      'Largest despiked rim pressure before it falls by 10 % within 100 ms; the largest of all where it does not.',
    uncertainty: pressureBudget,
  },
  rawPeakPressure: {
    characteristic: 'rawPeakPressure',
    title: 'Raw peak pressure',
    kind: 'pressure',
    unit: 'kPa',
    reference: 'gauge',
    definition:
      'Largest single reading of the rim pressure, spikes included. It shows what despiking changed and is never judged.',
    uncertainty: pressureBudget,
  },
  rampRate: {
    characteristic: 'rampRate',
    title: 'Ramp rate, 10 to 90 %',
    kind: 'pressure rate',
    unit: 'kPa/s',
    definition:
      '0.8 · peak / (t90 − t10): t90 is the first crossing of 90 % of the peak, t10 the last crossing of 10 % before it.',
  },
  longestHold: {
    characteristic: 'longestHold',
    title: 'Longest hold in the band',
    kind: 'time',
    unit: 's',
    definition: 'Longest unbroken time with the rim pressure inside the band of the hold.',
    uncertainty: {
      k: 2,
      components: [
        {
          from: 'half width',
          name: 'clock of the logger and one sample at either end',
          halfWidth: 0.03,
          unit: 's',
          distribution: 'rectangular',
        },
      ],
    },
  },
  pressureTimeIndex: {
    characteristic: 'pressureTimeIndex',
    title: 'Pressure-time index',
    kind: 'pressure-time',
    unit: 'kPa.s',
    definition: 'Integral of the rim pressure over time (trapezoids): how severe the run was, not an energy.',
  },
  safetyRatio: {
    characteristic: 'safetyRatio',
    title: 'Burst pressure over marked pressure',
    kind: 'ratio',
    unit: '1',
    definition: 'Burst pressure divided by the pressure marked on the rim.',
    uncertainty: {
      k: 2,
      components: [
        calibrated,
        {
          from: 'half width',
          name: 'zero and span between 18 and 28 °C, 8 kPa over 830 kPa',
          halfWidth: 0.0096,
          unit: '1',
          distribution: 'rectangular',
        },
        {
          from: 'half width',
          name: 'hysteresis, 3 kPa over 830 kPa',
          halfWidth: 0.0036,
          unit: '1',
          distribution: 'rectangular',
        },
      ],
    },
  },
};

const channels = (/** @type {number} */ hertz) => [
  {
    channel: 'rimPressure',
    kind: 'pressure',
    required: true,
    reference: 'gauge',
    minimumRate: { value: hertz, unit: 'Hz' },
  },
  { channel: 'rimPressure2', kind: 'pressure', required: false, reference: 'gauge' },
  { channel: 'roomTemperature', kind: 'temperature', required: false },
];

const reading = {
  despikeSamples: 5,
  spikeShare: 0.01,
  failureFall: 0.1,
  failureWindow: { value: 100, unit: 'ms' },
  rampRate: { from: { value: 10, unit: 'kPa/s' }, to: { value: 50, unit: 'kPa/s' } },
  rampShareInBand: 0.9,
  zeroDriftShare: 0.003,
  zeroTime: { value: 2, unit: 's' },
  rangeShare: 0.95,
  gapPeriods: 2,
  redundantShare: 0.01,
  temperature: { from: { value: 18, unit: 'Cel' }, to: { value: 28, unit: 'Cel' } },
};

const common = { approvedBy: WHO.approves, minimumSpecimens: 5 };

export const burstInClamps = {
  test: 'burst',
  ...common,
  method: 'BURST-CLAMP',
  revision: 2,
  title: 'Burst of a bare rim in metal bead clamps, water',
  basis:
    'Saltmarsh Wheelworks test instruction TI-07. A rubber ring between two steel bead clamps stands in for the tyre, so that the rim is the weakest part. Clamp bead radius 1.2 mm, rim unlaced.',
  inForceFrom: '2026-02-02',
  channels: channels(100),
  characteristics: [
    characteristics.burstPressure,
    characteristics.rawPeakPressure,
    characteristics.rampRate,
    characteristics.pressureTimeIndex,
    characteristics.safetyRatio,
  ],
  failureModes: failureModes(SOMETHING_ELSE, ['burstPressure', 'safetyRatio']),
  parameters: { ...reading, holds: [] },
  readiness: ['The bead clamps are torqued to 24 N·m in two passes, and their screws are in date.', ...waterReadiness],
};

export const holdWithTyre = {
  test: 'burst',
  ...common,
  method: 'HOLD-TYRE',
  revision: 1,
  title: 'Hold and over-inflation of a rim with a tyre, water',
  basis:
    'Saltmarsh Wheelworks test instruction TI-08. A reference tyre with tube (622-28, marked 8.5 bar) on the rim; hold at 110 % of the lower marked pressure, then a ramp until something lets go or the rig stops at 16 bar.',
  inForceFrom: '2026-02-02',
  channels: channels(50),
  characteristics: [
    characteristics.burstPressure,
    characteristics.rawPeakPressure,
    characteristics.rampRate,
    characteristics.longestHold,
    characteristics.pressureTimeIndex,
    characteristics.safetyRatio,
  ],
  failureModes: failureModes([...TYRE, ...SOMETHING_ELSE], ['burstPressure', 'safetyRatio']),
  parameters: {
    ...reading,
    holds: [
      {
        name: '110 % of the marked pressure',
        pressure: { value: 913, unit: 'kPa' },
        below: 0,
        above: 0.05,
        duration: { value: 300, unit: 's' },
      },
    ],
  },
  readiness: [
    'Tyre, tube and rim strip are new, and the tyre seat is checked all round at 3 bar before the shield is closed.',
    ...waterReadiness,
  ],
};

const keyedPressure = {
  ...characteristics.burstPressure,
  definition: 'Rim pressure read from the gauge of the bench when the rim broke, or when the programme ended.',
  uncertainty: {
    k: 2,
    components: [
      { from: 'standard', name: 'reference gauge of the bench, certificate OR-311, 0.10 bar (k 2)', u: 5, unit: 'kPa' },
      { from: 'half width', name: 'gauge read to 0.1 bar', halfWidth: 5, unit: 'kPa', distribution: 'rectangular' },
      {
        from: 'half width',
        name: 'pressure lost between gauge and station',
        halfWidth: 8,
        unit: 'kPa',
        distribution: 'rectangular',
      },
    ],
  },
};

export const burstTable = {
  test: 'table',
  ...common,
  method: 'BURST-TABLE',
  revision: 1,
  title: 'Burst of bare rims on a ten-station bench, values keyed',
  basis:
    "The moulder's bench instruction, witnessed by our test engineer: ten rims in bead clamps on one water line, one ramp of 0.3 bar/s for all. A station isolates itself when its rim breaks. The programme ends, and all stations are vented, at the seventh break.",
  inForceFrom: '2026-05-04',
  channels: [],
  characteristics: [keyedPressure],
  failureModes: failureModes(SOMETHING_ELSE, ['burstPressure']),
  parameters: {},
  readiness: benchTableReadiness,
};

export const holdTable = {
  test: 'table',
  ...common,
  method: 'HOLD-TABLE',
  revision: 1,
  title: 'Hold of a rim with a tyre, values keyed',
  basis:
    'Saltmarsh Wheelworks test instruction TI-08 on a bench without a logger: 110 % of the marked pressure by gauge and stop-watch, then 12.5 bar, then vented.',
  inForceFrom: '2026-05-04',
  channels: [],
  characteristics: [
    keyedPressure,
    {
      ...characteristics.longestHold,
      definition: 'Time by stop-watch with the gauge between 9.2 and 9.5 bar.',
      uncertainty: {
        k: 2,
        components: [
          {
            from: 'half width',
            name: 'start and stop by hand',
            halfWidth: 0.5,
            unit: 's',
            distribution: 'rectangular',
          },
        ],
      },
    },
  ],
  failureModes: failureModes([...TYRE, ...SOMETHING_ELSE], ['burstPressure']),
  parameters: {},
  readiness: waterReadiness,
};
