import type { BurstMethod, Calibration, Examination, Layout, Rig, Run } from '@breakbook/lab';
import type { RunInput } from './run-input.js';

/** A run made up for tests: a straight ramp from a vented start, and a rim that lets go at a known pressure. */
export interface Invention {
  /** Samples a second. */
  rate: number;
  /** Gauge pressure in kPa at a time in seconds. */
  pressure: (time: number) => number;
  seconds: number;
  /** Changes made to a row before it is written; an empty answer drops the row. */
  row: (cells: { time: number; first: number; second: number }, index: number) => typeof cells | undefined;
  /** Standard deviation of seeded noise on both sensors, kPa. */
  noise: number;
  /** Of the noise. */
  seed: number;
  metadata: string;
  header: string;
  /** Changes the finished text of the file. */
  text: (text: string) => string;
  method: Partial<BurstMethod>;
  parameters: Partial<BurstMethod['parameters']>;
  rig: Partial<Rig>;
  calibrations: Calibration[];
  run: Partial<Run>;
  endReason: Examination['endReason'];
}

export const RAMP = { begins: 3, rate: 20, bursts: 1500 };
/** Time at which the straight ramp reaches its burst pressure. */
export const BURSTS_AT = RAMP.begins + RAMP.bursts / RAMP.rate;

/** Zero, straight ramp, and from the burst on an escape with a time constant of 10 ms. */
export function rampAndBurst(time: number): number {
  if (time >= BURSTS_AT) return RAMP.bursts * Math.exp(-(time - BURSTS_AT) / 0.01);
  return Math.max(0, RAMP.rate * (time - RAMP.begins));
}

export const METHOD: BurstMethod = {
  test: 'burst',
  method: 'B1',
  revision: 1,
  title: 'Burst',
  basis: 'invented for tests',
  inForceFrom: '2031-01-01',
  approvedBy: 'p1',
  channels: [
    {
      channel: 'rimPressure',
      kind: 'pressure',
      required: true,
      reference: 'gauge',
      minimumRate: { value: 100, unit: 'Hz' },
    },
    { channel: 'rimPressure2', kind: 'pressure', required: false, reference: 'gauge' },
    { channel: 'roomTemperature', kind: 'temperature', required: false },
  ],
  characteristics: [
    {
      characteristic: 'burstPressure',
      title: 'Burst pressure',
      kind: 'pressure',
      unit: 'kPa',
      reference: 'gauge',
      definition: 'largest despiked pressure before the fall',
      uncertainty: {
        k: 2,
        components: [
          { from: 'calibration', name: 'calibration', channel: 'rimPressure' },
          { from: 'half width', name: 'hysteresis', halfWidth: 0.06, unit: 'bar', distribution: 'rectangular' },
          { from: 'relative half width', name: 'linearity', halfWidth: 0.002, distribution: 'triangular' },
          { from: 'standard', name: 'temperature', u: 2, unit: 'kPa' },
        ],
      },
    },
    {
      characteristic: 'rawPeakPressure',
      title: 'Raw peak',
      kind: 'pressure',
      unit: 'bar',
      definition: 'largest reading',
    },
    { characteristic: 'rampRate', title: 'Ramp rate', kind: 'pressure rate', unit: 'kPa/s', definition: '10 to 90 %' },
    { characteristic: 'longestHold', title: 'Longest hold', kind: 'time', unit: 's', definition: 'time in the band' },
    {
      characteristic: 'pressureTimeIndex',
      title: 'Index',
      kind: 'pressure-time',
      unit: 'kPa.s',
      definition: 'integral',
    },
    { characteristic: 'safetyRatio', title: 'Ratio', kind: 'ratio', unit: '1', definition: 'burst over marked' },
  ],
  failureModes: [],
  minimumSpecimens: 5,
  readiness: [],
  parameters: {
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
    holds: [],
  },
};

export function calibration(sensor: string, over: Partial<Calibration> = {}): Calibration {
  return {
    calibration: `CAL-${sensor}`,
    sensor,
    date: '2031-01-10',
    due: '2032-01-10',
    unit: 'bar',
    asFound: { gain: 1, offset: 0 },
    asLeft: { gain: 1, offset: 0 },
    expandedUncertainty: 0.1,
    k: 2,
    tolerance: 0.2,
    certificate: 'C-1',
    traceableTo: 'national standard',
    by: 'lab',
    ...over,
  };
}

export const LAYOUT: Layout = {
  layout: 'R1-log',
  revision: 1,
  rig: 'R1',
  form: 'layout 1',
  time: { column: 'time', kind: 'time' },
  columns: [
    { column: 'P rim', channel: 'rimPressure' },
    { column: 'P rim 2', channel: 'rimPressure2' },
  ],
  requiredMetadata: ['medium'],
};

export const RIG: Rig = {
  rig: 'R1',
  name: 'Water rig',
  location: 'bay 1',
  placements: [
    { channel: 'rimPressure', sensor: 'S1', from: '2031-01-01', fullScale: { value: 30, unit: 'bar' } },
    { channel: 'rimPressure2', sensor: 'S2', from: '2031-01-01', fullScale: { value: 30, unit: 'bar' } },
  ],
};

const RUN: Run = {
  run: '42',
  specimen: '0417',
  planLine: 'A',
  method: 'B1',
  methodRevision: 1,
  rig: 'R1',
  layoutRevision: 1,
  operator: 'p1',
  startedAt: '2031-03-04T09:12:00Z',
  conditions: {},
  files: [],
  measurements: [],
  deviations: [],
};

/** What readRun takes, for an invention; left to itself it is a faultless run. */
export function inventedRun(over: Partial<Invention> = {}): RunInput {
  const invention: Invention = {
    rate: 100,
    pressure: rampAndBurst,
    seconds: 82,
    row: (cells) => cells,
    noise: 0.3,
    seed: 20310304,
    metadata: '# specimen: 0417\n# rig: R1\n# started: 2031-03-04T09:12:00Z\n# medium: water\n',
    header: 'time [s],P rim [kPa],P rim 2 [kPa]',
    text: (text) => text,
    method: {},
    parameters: {},
    rig: {},
    calibrations: [calibration('S1'), calibration('S2')],
    run: {},
    endReason: 'something broke',
    ...over,
  };
  return {
    method: { ...METHOD, ...invention.method, parameters: { ...METHOD.parameters, ...invention.parameters } },
    layout: LAYOUT,
    rig: { ...RIG, ...invention.rig },
    calibrations: invention.calibrations,
    files: [{ name: 'run-42.csv', bytes: new TextEncoder().encode(textOf(invention)), sha256: '0'.repeat(64) }],
    run: {
      ...RUN,
      examination: {
        endReason: invention.endReason,
        modes: [],
        partSound: 'not sound',
        person: 'p1',
        at: '2031-03-04T09:30:00Z',
      },
      ...invention.run,
    },
  };
}

function textOf({ rate, pressure, seconds, row, noise, seed, metadata, header, text }: Invention): string {
  const next = seededNormal(seed);
  const lines: string[] = [];
  for (let i = 0; i < seconds * rate; i++) {
    const time = i / rate;
    const true_ = pressure(time);
    const cells = row({ time, first: true_ + noise * next(), second: true_ + noise * next() }, i);
    if (cells) lines.push(`${cells.time},${cells.first.toFixed(3)},${cells.second.toFixed(3)}`);
  }
  return text(`${metadata}${header}\n${lines.join('\n')}\n`);
}

/** Normal numbers from a seed: a linear congruential generator (Numerical Recipes) and twelve uniforms. */
export function seededNormal(seed: number): () => number {
  const uniform = seededUniform(seed);
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += uniform();
    return sum;
  };
}

export function seededUniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
