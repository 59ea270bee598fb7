/** The brake-heat method of the sample lots, with its failure modes and uncertainty budgets. */

import { heatReadiness } from './readiness.mjs';
import { WHO } from './world.mjs';

const RIM = [
  ['HD-BLI', 'blister or local delamination of a brake track'],
  ['HD-DEL', 'delamination of sidewall or flange'],
  ['HF-SPR', 'flange spread: the rim opened by softening'],
  ['HF-RUP', 'flange or sidewall ruptured, pressure lost'],
  ['HC-CRK', 'crack in track, bed or joint'],
  ['HM-RES', 'resin softened, charred, sweated out or smoked'],
  ['HW-WAR', 'warped: run-out or width beyond the drawing after cooling'],
];
const SOMETHING_ELSE = [
  ['HT-TUB', 'tube, tyre or valve let go by heat, rim whole'],
  ['HP-PAD', 'pad melted, glazed or worn out'],
  ['HN-SUR', 'survived the whole programme'],
  ['HX-RIG', 'rig stopped, sensor or power lost'],
];
const LIVES = ['energySurvived', 'timeSurvived', 'temperatureAtFailure'];

const counting = (/** @type {string} */ as) => Object.fromEntries(LIVES.map((name) => [name, as]));

/** @param {string} name @param {number} halfWidth share of the value */
const share = (name, halfWidth) => ({ from: 'relative half width', name, halfWidth, distribution: 'rectangular' });

/** U of an energy or a mean power is a little over 1 % of it; the torque shaft leads. */
const powerBudget = {
  k: 2,
  components: [
    { from: 'calibration', name: 'calibration of the torque shaft', channel: 'brakeForce' },
    { from: 'calibration', name: 'calibration of the drum speed', channel: 'surfaceSpeed' },
    share('hysteresis and zero of the torque shaft', 0.005),
    share('slip between tread and drum', 0.003),
  ],
};

/** U of a temperature is 5 °C: sqrt(0.75² + 2.31² + 0.58²) = 2.5 °C, k 2. Only the sensor that gave the value counts. */
const temperatureBudget = {
  k: 2,
  components: [
    { from: 'calibration', name: 'calibration of the left thermocouple', channel: 'trackTemperatureLeft' },
    { from: 'calibration', name: 'calibration of the right thermocouple', channel: 'trackTemperatureRight' },
    { from: 'half width', name: 'rubbing contact', halfWidth: 4, unit: 'K', distribution: 'rectangular' },
    { from: 'half width', name: 'place on the track', halfWidth: 1, unit: 'K', distribution: 'rectangular' },
  ],
};

/**
 * Of the rim as one heated body: errors of the sensors, drawn once for a record, and beside them that the place of the
 * thermocouple is not the rim: 3 % of the number.
 */
const bodyBudget = {
  k: 2,
  components: [
    ...powerBudget.components.slice(0, 2),
    ...temperatureBudget.components.slice(0, 2),
    { from: 'calibration', name: 'calibration of the room sensor', channel: 'roomTemperature' },
    share('one place of the track taken for the rim', 0.03),
  ],
};

const clockBudget = {
  k: 2,
  components: [
    {
      from: 'half width',
      name: 'one sample of the logger at either end of a stage',
      halfWidth: 1,
      unit: 's',
      distribution: 'rectangular',
    },
  ],
};

const timeAbove = (/** @type {number} */ degrees) => ({
  characteristic: `timeAbove${degrees}`,
  title: `Time above ${degrees} °C`,
  kind: 'time',
  unit: 's',
  definition: `Sum of the times in which the hotter track is above ${degrees} °C, crossings by linear interpolation.`,
});

const channel = (/** @type {string} */ name, /** @type {string} */ kind, required = true) => ({
  channel: name,
  kind,
  required,
  ...(kind === 'pressure' ? { reference: 'gauge' } : {}),
  minimumRate: { value: 2, unit: 'Hz' },
});

export const STAGES = [
  { name: '300 W, 15 min', power: 300, duration: 900 },
  { name: '600 W until failure or 20 min', power: 600, duration: 1200 },
];
export const DRAG_SPEED = 30;
export const TYRE_AT_START = 800;

export const heatDrag = {
  test: 'heat',
  method: 'HEAT-DRAG',
  revision: 1,
  title: 'Long drag of a rim brake at constant power, in two stages',
  basis:
    'Saltmarsh Wheelworks test instruction TI-11. The wheel runs on a driven drum under 650 N, tyre 622-28 with tube at 8 bar; the force is measured at the drum and scaled to the tread, the speed is that of the tread, so that force times speed is the power of the brake. New pads, bedded by 20 stops. Stage 1, then cooling to 32 °C at the track and the width of the rim, then stage 2. An air stream of the speed of the wheel, on throughout.',
  inForceFrom: '2026-06-15',
  approvedBy: WHO.approves,
  minimumSpecimens: 5,
  channels: [
    channel('surfaceSpeed', 'speed'),
    channel('brakeForce', 'force'),
    channel('trackTemperatureLeft', 'temperature'),
    channel('trackTemperatureRight', 'temperature'),
    channel('padTemperature', 'temperature', false),
    channel('airSpeed', 'speed'),
    channel('roomTemperature', 'temperature'),
    channel('tyrePressure', 'pressure'),
  ],
  characteristics: [
    {
      characteristic: 'brakingEnergy',
      title: 'Braking energy',
      kind: 'energy',
      unit: 'kJ',
      definition:
        'Integral of brake force times surface speed over all stages, by trapezoids; gaps over 2 s are not bridged.',
      uncertainty: powerBudget,
    },
    {
      characteristic: 'meanPower',
      title: 'Mean braking power',
      kind: 'power',
      unit: 'W',
      definition: 'Energy while the brake was on divided by the time it was on, all stages together.',
      uncertainty: powerBudget,
    },
    {
      characteristic: 'peakTemperature',
      title: 'Peak track temperature',
      kind: 'temperature',
      unit: 'Cel',
      definition: 'Largest value of either track after a running median over 4 s.',
      uncertainty: temperatureBudget,
    },
    {
      characteristic: 'temperatureAtFailure',
      title: 'Track temperature at failure',
      kind: 'temperature',
      unit: 'Cel',
      definition:
        'Median of the hotter track in the last 2 s before something let go; where nothing did, at least the peak.',
      uncertainty: temperatureBudget,
    },
    {
      characteristic: 'powerStability',
      title: 'Share of braking time in the power band',
      kind: 'ratio',
      unit: '1',
      definition: 'Share of the braking time, all stages, with the power within 5 % of what the stage asks.',
    },
    {
      characteristic: 'interruptions',
      title: 'Interruptions of the braking',
      kind: 'count',
      unit: '1',
      definition: 'How often the brake was let go within a stage; cooling between stages is none.',
    },
    {
      characteristic: 'peakRise',
      title: 'Largest rise above the room',
      kind: 'temperature difference',
      unit: 'K',
      definition:
        'Largest difference of the hotter track and the room at one moment, each by a running median over 4 s.',
    },
    {
      characteristic: 'marginToGlassTransition',
      title: 'Margin to the glass transition',
      kind: 'temperature difference',
      unit: 'K',
      definition: 'Glass transition of the resin, as the product states it, less the peak track temperature.',
      uncertainty: temperatureBudget,
    },
    {
      characteristic: 'timeToSteady',
      title: 'Time until the track came to rest',
      kind: 'time',
      unit: 's',
      definition:
        'In the stage with the most energy, from the first braking until the track changes by no more than 0.5 K/min over 180 s with the power in its band.',
    },
    {
      characteristic: 'timeConstant',
      title: 'Time constant of the track',
      kind: 'time',
      unit: 's',
      definition: 'Of one heated body, fitted to the stage with the most energy.',
      uncertainty: bodyBudget,
    },
    {
      characteristic: 'thermalResistance',
      title: 'Thermal resistance of the track',
      kind: 'thermal resistance',
      unit: 'K/W',
      definition:
        'Rise above the room for each watt braked, of one heated body fitted to the stage with the most energy.',
      uncertainty: bodyBudget,
    },
    timeAbove(120),
    timeAbove(150),
    timeAbove(180),
    {
      characteristic: 'timeSurvived',
      title: 'Braking time survived',
      kind: 'time',
      unit: 's',
      definition:
        'Time braked until something let go, or until the end. It adds stages of unlike power; lives are compared by energy.',
      uncertainty: clockBudget,
    },
    {
      characteristic: 'energySurvived',
      title: 'Braking energy survived',
      kind: 'energy',
      unit: 'kJ',
      definition: 'Braking energy of all stages until something let go, or until the end.',
      uncertainty: powerBudget,
    },
  ],
  failureModes: [
    ...RIM.map(([code, meaning]) => ({ code, meaning, countsAs: counting('failure') })),
    ...SOMETHING_ELSE.map(([code, meaning]) => ({ code, meaning, countsAs: counting('at least') })),
  ],
  parameters: {
    control: 'constant power',
    stages: STAGES.map(({ name, power, duration }) => ({
      name,
      power: { value: power, unit: 'W' },
      duration: { value: duration, unit: 's' },
      speed: { value: DRAG_SPEED, unit: 'km/h' },
      airSpeed: { value: DRAG_SPEED, unit: 'km/h' },
    })),
    offPower: { value: 30, unit: 'W' },
    powerBand: 0.05,
    powerShareInBand: 0.9,
    speedBand: 0.05,
    airSpeedBand: 0.1,
    interruptions: { most: 10, longest: { value: 10, unit: 's' } },
    longestGap: { value: 2, unit: 's' },
    temperatureWindow: { value: 4, unit: 's' },
    thresholds: [120, 150, 180].map((value) => ({ value, unit: 'Cel' })),
    pressureFall: 0.2,
    pressureFallTime: { value: 1, unit: 's' },
    room: { from: { value: 18, unit: 'Cel' }, to: { value: 28, unit: 'Cel' } },
    startAtMost: { value: 35, unit: 'Cel' },
    trackDifference: { most: { value: 30, unit: 'K' }, longest: { value: 60, unit: 's' } },
    detachedRate: 50,
    steadyState: { window: { value: 180, unit: 's' }, slopeAtMost: 0.5 },
    recorded: ['pads', 'pad mass', 'tube'],
    tyrePressure: { at: { value: TYRE_AT_START, unit: 'kPa' }, band: 0.05 },
  },
  readiness: heatReadiness,
};
