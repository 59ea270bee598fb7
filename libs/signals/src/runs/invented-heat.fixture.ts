import type { HeatMethod, Layout, Rig, Run, RunPassage } from '@breakbook/lab';
import { calibration, seededNormal } from './invented-run.fixture.js';
import type { RunInput } from './run-input.js';

/** One sample of an invented drag. */
export interface HeatCells {
  time: number;
  speed: number;
  force: number;
  left: number;
  right: number;
  air: number;
  room: number;
  tyre: number;
}

/** A drag made up for tests: stages of constant power, a rim that warms by the lumped model, and an end as asked. */
export interface HeatInvention {
  /** Samples a second. */
  rate: number;
  /** Power of each stage, W, the seconds it lasts, and the seconds of cooling before it. */
  stages: { power: number; seconds: number; cooling: number }[];
  /** Seconds of the last stage after which the rim fails; left out where it survives. */
  failsAfter?: number;
  /** Share of the noise that sensors have. */
  noise: number;
  /** Of the noise. */
  seed: number;
  /** Changes made to a row before it is written; an empty answer drops the row. `at` is seconds of braking in its stage. */
  row: (cells: HeatCells, at: { stage: number; braking: number }) => HeatCells | undefined;
  /** What an infrared sensor on the left track reads, by what that track has; left out where there is none. */
  infrared?: (left: number, at: { stage: number; braking: number }) => number;
  /** One file a stage, in place of one file. */
  split: boolean;
  /** Does the run name its stages? */
  named: boolean;
  method: Partial<HeatMethod>;
  parameters: Partial<HeatMethod['parameters']>;
  run: Partial<Run>;
  calibrations: RunInput['calibrations'];
  rig: Partial<Rig>;
  endReason: NonNullable<Run['examination']>['endReason'];
  text: (text: string, file: number) => string;
}

export const SPEED = 25 / 3;
export const ROOM = 23;
/** K/W and s of the invented rim. */
export const RESISTANCE = 0.3;
export const TIME_CONSTANT = 90;
/** Seconds of record before the first braking and after the last. */
export const BEFORE = 10;
export const AFTER = 20;
const STARTED = '2031-03-04T09:00:00Z';

const uncertain = (channel: string) => ({
  k: 2,
  components: [{ from: 'calibration' as const, name: channel, channel }],
});

export const HEAT_METHOD: HeatMethod = {
  test: 'heat',
  method: 'H1',
  revision: 1,
  title: 'Brake heat',
  basis: 'invented for tests',
  inForceFrom: '2031-01-01',
  approvedBy: 'p1',
  channels: [
    { channel: 'surfaceSpeed', kind: 'speed', required: true },
    { channel: 'brakeForce', kind: 'force', required: true, minimumRate: { value: 5, unit: 'Hz' } },
    { channel: 'trackTemperatureLeft', kind: 'temperature', required: true },
    { channel: 'trackTemperatureRight', kind: 'temperature', required: false },
    { channel: 'trackTemperatureInfrared', kind: 'temperature', required: false },
    { channel: 'airSpeed', kind: 'speed', required: false },
    { channel: 'roomTemperature', kind: 'temperature', required: false },
    { channel: 'tyrePressure', kind: 'pressure', required: false, reference: 'gauge' },
  ],
  characteristics: [
    {
      characteristic: 'brakingEnergy',
      title: 'Braking energy',
      kind: 'energy',
      unit: 'kJ',
      definition: 'integral of force times speed',
      uncertainty: {
        k: 2,
        components: [
          { from: 'calibration', name: 'force', channel: 'brakeForce' },
          { from: 'calibration', name: 'speed', channel: 'surfaceSpeed' },
        ],
      },
    },
    {
      characteristic: 'meanPower',
      title: 'Mean power',
      kind: 'power',
      unit: 'W',
      definition: 'energy while on over time on',
      uncertainty: uncertain('brakeForce'),
    },
    {
      characteristic: 'peakTemperature',
      title: 'Peak temperature',
      kind: 'temperature',
      unit: 'Cel',
      definition: 'hottest filtered reading',
      uncertainty: {
        k: 2,
        components: ['Left', 'Right'].map((side) => ({
          from: 'calibration' as const,
          name: side,
          channel: `trackTemperature${side}`,
        })),
      },
    },
    {
      characteristic: 'temperatureAtFailure',
      title: 'Temperature at failure',
      kind: 'temperature',
      unit: 'Cel',
      definition: 'last 2 s before',
    },
    {
      characteristic: 'timeAbove120',
      title: 'Time above 120 °C',
      kind: 'time',
      unit: 's',
      definition: 'crossings interpolated',
      uncertainty: uncertain('trackTemperatureLeft'),
    },
    { characteristic: 'timeConstant', title: 'Time constant', kind: 'time', unit: 's', definition: 'by the fit' },
    {
      characteristic: 'thermalResistance',
      title: 'Thermal resistance',
      kind: 'thermal resistance',
      unit: 'K/W',
      definition: 'by the fit',
    },
    {
      characteristic: 'steadyRise',
      title: 'Steady rise',
      kind: 'temperature difference',
      unit: 'K',
      definition: 'by the fit, at the mean power',
    },
    { characteristic: 'timeSurvived', title: 'Time survived', kind: 'time', unit: 's', definition: 'time braked' },
    {
      characteristic: 'energySurvived',
      title: 'Energy survived',
      kind: 'energy',
      unit: 'J',
      definition: 'until the failure',
    },
  ],
  failureModes: [],
  minimumSpecimens: 5,
  readiness: [],
  parameters: {
    control: 'constant power',
    stages: [stage('first', 300, 120), stage('second', 600, 240)],
    offPower: { value: 50, unit: 'W' },
    powerBand: 0.05,
    powerShareInBand: 0.9,
    speedBand: 0.05,
    airSpeedBand: 0.1,
    interruptions: { most: 2, longest: { value: 10, unit: 's' } },
    longestGap: { value: 2, unit: 's' },
    temperatureWindow: { value: 3, unit: 's' },
    thresholds: [{ value: 120, unit: 'Cel' }],
    pressureFall: 0.2,
    pressureFallTime: { value: 1, unit: 's' },
    room: { from: { value: 18, unit: 'Cel' }, to: { value: 28, unit: 'Cel' } },
    startAtMost: { value: 35, unit: 'Cel' },
    trackDifference: { most: { value: 30, unit: 'K' }, longest: { value: 60, unit: 's' } },
    detachedRate: 50,
    tyrePressure: { at: { value: 800, unit: 'kPa' }, band: 0.05 },
  },
};

/** The second stage alone, in one file of a run that names no passages. */
export const ONE_STAGE = {
  stages: [{ power: 600, seconds: 240, cooling: 0 }],
  parameters: { stages: HEAT_METHOD.parameters.stages.slice(1) },
  named: false,
};

function stage(name: string, power: number, seconds: number): HeatMethod['parameters']['stages'][number] {
  return {
    name,
    power: { value: power, unit: 'W' },
    duration: { value: seconds, unit: 's' },
    speed: { value: 30, unit: 'km/h' },
    airSpeed: { value: 30, unit: 'km/h' },
  };
}

const CHANNELS = [
  ['surfaceSpeed', 'm/s', 50],
  ['brakeForce', 'N', 400],
  ['trackTemperatureLeft', 'Cel', 400],
  ['trackTemperatureRight', 'Cel', 400],
  ['trackTemperatureInfrared', 'Cel', 400],
  ['airSpeed', 'm/s', 50],
  ['roomTemperature', 'Cel', 100],
  ['tyrePressure', 'kPa', 2000],
] as const;

export const HEAT_CALIBRATIONS = CHANNELS.map(([channel, unit]) =>
  calibration(`S-${channel}`, { unit, expandedUncertainty: 2, k: 2 }),
);

/** What readRun takes, for an invention; left to itself it is a faultless run of two stages that the rim survives. */
export function inventedHeatRun(over: Partial<HeatInvention> = {}): RunInput {
  const invention: HeatInvention = {
    rate: 10,
    stages: [
      { power: 300, seconds: 120, cooling: 0 },
      { power: 600, seconds: 240, cooling: 60 },
    ],
    noise: 1,
    seed: 20310305,
    row: (cells) => cells,
    split: false,
    named: true,
    method: {},
    parameters: {},
    run: {},
    calibrations: HEAT_CALIBRATIONS,
    rig: {},
    endReason: 'programme ended',
    text: (text) => text,
    ...over,
  };
  const { files, passages } = filesOf(invention);
  const layout: Layout = {
    layout: 'R1-log',
    revision: 1,
    rig: 'R1',
    form: 'layout 1',
    time: { column: 'time', kind: 'time' },
    columns: [{ column: 'speed', channel: 'surfaceSpeed' }],
    requiredMetadata: [],
  };
  return {
    method: { ...HEAT_METHOD, ...invention.method, parameters: { ...HEAT_METHOD.parameters, ...invention.parameters } },
    layout,
    rig: {
      rig: 'R1',
      name: 'Drum rig',
      location: 'bay 2',
      placements: CHANNELS.map(([channel, unit, value]) => ({
        channel,
        sensor: `S-${channel}`,
        from: '2031-01-01',
        fullScale: { value, unit },
      })),
      ...invention.rig,
    },
    calibrations: invention.calibrations,
    files: files.map((text, index) => ({
      name: `drag-${index + 1}.csv`,
      bytes: new TextEncoder().encode(invention.text(text, index)),
      sha256: String(index).repeat(64),
    })),
    run: {
      run: '77',
      specimen: '0501',
      planLine: 'H',
      method: 'H1',
      methodRevision: 1,
      rig: 'R1',
      layoutRevision: 1,
      operator: 'p1',
      startedAt: STARTED,
      conditions: {},
      ...(invention.named ? { passages } : {}),
      files: [],
      measurements: [],
      deviations: [],
      examination: {
        endReason: invention.endReason,
        modes: [],
        partSound: 'sound',
        person: 'p1',
        at: '2031-03-04T10:00:00Z',
      },
      ...invention.run,
    },
  };
}

function filesOf({ rate, stages, failsAfter, noise, seed, row, infrared, split }: HeatInvention) {
  const next = seededNormal(seed);
  const noisy = (value: number, sd: number) => value + noise * sd * next();
  const texts: string[] = [];
  const passages: RunPassage[] = [];
  let [temperature, clock, begins] = [ROOM, 0, 0];
  let lines: string[] = [];
  let fileStart = 0;

  const sample = (stage: number, braking: number, power: number, burst: boolean) => {
    const true_: HeatCells = {
      time: Number((clock - (split ? fileStart : 0)).toFixed(6)),
      speed: SPEED,
      force: power / SPEED,
      left: temperature,
      right: temperature - 4,
      air: SPEED,
      room: ROOM,
      tyre: burst ? 0 : 800 * (1 + (temperature - ROOM) / 600),
    };
    const written = row(true_, { stage, braking });
    if (written)
      lines.push(
        [
          written.time,
          noisy(written.speed, 0.02).toFixed(9),
          noisy(written.force, 0.5).toFixed(6),
          noisy(written.left, 0.3).toFixed(3),
          noisy(written.right, 0.3).toFixed(3),
          noisy(written.air, 0.1).toFixed(3),
          noisy(written.room, 0.05).toFixed(3),
          noisy(written.tyre, 0.5).toFixed(2),
          ...(infrared ? [noisy(infrared(true_.left, { stage, braking }), 0.3).toFixed(3)] : []),
        ].join(','),
      );
    clock += 1 / rate;
    // The lumped model over one sample, exactly: constant power within it.
    temperature += -Math.expm1(-1 / rate / TIME_CONSTANT) * (ROOM + RESISTANCE * power - temperature);
  };
  const close = (passage: number) => {
    const started = new Date(Date.parse(STARTED) + 1000 * fileStart).toISOString();
    const header =
      'time [s],speed [m/s],brakeForce [N],trackTemperatureLeft [Cel],trackTemperatureRight [Cel],airSpeed [m/s],roomTemperature [Cel],tyrePressure [kPa]';
    const beside = infrared ? ',trackTemperatureInfrared [Cel]' : '';
    const own = split ? `# passage: ${passage}\n` : '';
    texts.push(`# specimen: 0501\n# rig: R1\n# started: ${started}\n${own}${header}${beside}\n${lines.join('\n')}\n`);
    lines = [];
    fileStart = clock;
  };

  for (const [index, { power, seconds, cooling }] of stages.entries()) {
    const last = index === stages.length - 1;
    for (let i = 0; i < cooling * rate; i++) sample(index, 0, 0, false);
    begins = clock;
    passages.push({
      passage: index + 1,
      kind: 'stage',
      title: `stage ${index + 1}`,
      startedAt: new Date(Date.parse(STARTED) + 1000 * begins).toISOString(),
      ...(split ? { file: `drag-${index + 1}.csv` } : {}),
    });
    for (let i = 0; i < BEFORE * rate; i++) sample(index, 0, 0, false);
    const failing = last && failsAfter !== undefined;
    for (let i = 0; i < (failing ? failsAfter : seconds) * rate; i++) sample(index, i / rate, power, false);
    for (let i = 0; i < AFTER * rate; i++) sample(index, 0, 0, failing);
    if (split || last) close(index + 1);
  }
  return { files: texts, passages };
}
