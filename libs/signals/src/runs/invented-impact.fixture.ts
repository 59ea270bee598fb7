import type { ImpactMethod, Measurement, Run, RunPassage } from '@breakbook/lab';
import { calibration, seededNormal } from './invented-run.fixture.js';
import type { RunInput } from './run-input.js';

export const MASS = 10.4;
export const GRAVITY = 9.81;
/** Length of the invented pulse, s, and the share of its speed that the striker gets back. */
export const PULSE = 0.006;
export const RESTITUTION = 0.5;
export const GATE = 0.05;
export const ABOVE = 0.02;
/** Seconds of record before contact, and in all. */
export const BEFORE = 0.01;
export const RECORD = 0.15;

/** A half-sine strike that gives the striker its speed back in part, worked out from the speed at contact. */
export function strikeOf(energy: number) {
  const speed = Math.sqrt((2 * energy) / MASS);
  const impulse = MASS * ((1 + RESTITUTION) * speed + GRAVITY * PULSE);
  const peak = (Math.PI * impulse) / (2 * PULSE);
  const deflectionAtEnd = speed * PULSE + (GRAVITY * PULSE ** 2) / 2 - (peak / MASS) * (PULSE ** 2 / Math.PI);
  return {
    energy,
    speed,
    rebound: RESTITUTION * speed,
    impulse,
    peak,
    /** ½ m (v_i² − v_r²) + m g δ at the end. */
    absorbed: (MASS * speed ** 2 * (1 - RESTITUTION ** 2)) / 2 + MASS * GRAVITY * deflectionAtEnd,
    /** Deflection, m, at a time after contact: the closed form of the half-sine pulse. */
    deflection: (t: number) =>
      speed * t +
      (GRAVITY * t * t) / 2 -
      (peak / MASS) * (PULSE / Math.PI) * (t - (PULSE / Math.PI) * Math.sin((Math.PI * t) / PULSE)),
    velocity: (t: number) =>
      speed + GRAVITY * t - (peak / MASS) * (PULSE / Math.PI) * (1 - Math.cos((Math.PI * t) / PULSE)),
    /** Time through the gate on the way down and on the way up, s. */
    gateTime: throughGate(speed),
    reboundGateTime: throughGate(RESTITUTION * speed),
    height: energy / (MASS * GRAVITY),
  };
}

/** Time through the gate of a striker that has `speed` at contact: uniformly accelerated. */
function throughGate(speed: number): number {
  const atEdge = Math.sqrt(speed ** 2 - 2 * GRAVITY * ABOVE);
  return (atEdge - Math.sqrt(atEdge ** 2 - 2 * GRAVITY * GATE)) / GRAVITY;
}

export interface ImpactInvention {
  /** Samples a second. */
  rate: number;
  /** Energy of each strike, J. */
  energies: number[];
  /** How the part was found after each; left out where nobody says. */
  found: (NonNullable<RunPassage['found']> | undefined)[];
  places: string[];
  /** Standard deviation of the force, N. */
  noise: number;
  /** Of the noise. */
  seed: number;
  /** Changes the force at a time after contact; an empty answer drops the row. */
  force: (newtons: number, time: number, strike: number) => number | undefined;
  displacement: ((metres: number, time: number) => number) | undefined;
  /** Does the run name its strikes as passages? */
  named: boolean;
  /** Are there files of the force? */
  recorded: boolean;
  measurements: (standard: Measurement[]) => Measurement[];
  method: Partial<ImpactMethod>;
  parameters: Partial<ImpactMethod['parameters']>;
  calibrations: RunInput['calibrations'];
  fullScale: number;
  run: Partial<Run>;
  endReason: NonNullable<Run['examination']>['endReason'];
  partSound: NonNullable<Run['examination']>['partSound'];
  seconds: number;
  text: (text: string, file: number) => string;
}

const characteristic = (name: string, kind: ImpactMethod['characteristics'][number]['kind'], unit: string) => ({
  characteristic: name,
  title: name,
  kind,
  unit,
  definition: 'invented for tests',
});
const uncertain = { k: 2, components: [{ from: 'calibration' as const, name: 'force', channel: 'strikerForce' }] };

export const IMPACT_METHOD: ImpactMethod = {
  test: 'impact',
  method: 'I1',
  revision: 1,
  title: 'Impact',
  basis: 'invented for tests',
  inForceFrom: '2031-01-01',
  approvedBy: 'p1',
  channels: [
    { channel: 'strikerForce', kind: 'force', required: true, minimumRate: { value: 50, unit: 'kHz' } },
    { channel: 'displacement', kind: 'length', required: false },
  ],
  characteristics: [
    characteristic('impactSpeed', 'speed', 'm/s'),
    characteristic('nominalEnergy', 'energy', 'J'),
    {
      ...characteristic('impactEnergy', 'energy', 'J'),
      uncertainty: {
        k: 2,
        components: [{ from: 'relative half width', name: 'gate', halfWidth: 0.005, distribution: 'rectangular' }],
      },
    },
    { ...characteristic('peakForce', 'force', 'kN'), uncertainty: uncertain },
    characteristic('unfilteredPeakForce', 'force', 'N'),
    characteristic('onsetForce', 'force', 'N'),
    { ...characteristic('maximumDeflection', 'length', 'mm'), uncertainty: uncertain },
    { ...characteristic('absorbedEnergy', 'energy', 'J'), uncertainty: uncertain },
    characteristic('reboundSpeed', 'speed', 'm/s'),
    { ...characteristic('impulse', 'impulse', 'N.s'), uncertainty: uncertain },
    characteristic('contactTime', 'time', 'ms'),
    characteristic('failureEnergy', 'energy', 'J'),
    characteristic('lateralRunOutChange', 'length', 'mm'),
    characteristic('lateralRunOutGrowth', 'length', 'mm'),
    characteristic('radialRunOutChange', 'length', 'mm'),
    characteristic('radialRunOutGrowth', 'length', 'mm'),
  ],
  failureModes: [],
  minimumSpecimens: 5,
  readiness: [],
  parameters: {
    series: 'single strike',
    mass: { value: 10.4, unit: 'kg' },
    targetEnergy: { value: 40, unit: 'J' },
    energyBand: 0.02,
    gateDistance: { value: 50, unit: 'mm' },
    gateAboveContact: { value: 20, unit: 'mm' },
    gravity: { value: GRAVITY, unit: 'm/s2' },
    baseline: { value: 5, unit: 'ms' },
    contactShare: 0.01,
    lowPass: { value: 3, unit: 'kHz' },
    onsetFall: 0.05,
    guideEfficiency: 0.95,
    momentumShare: 0.03,
    secondStrike: { value: 100, unit: 'ms' },
    forceShareOfFullScale: 0.9,
  },
};

const AT = '2031-03-04T09:30:00Z';
export const measured = (of: string, value: number, unit: string, over: Partial<Measurement> = {}): Measurement => ({
  of,
  quantity: { value, unit },
  instrument: 'I-1',
  person: 'p1',
  at: AT,
  ...over,
});

/** Run-out before and after at four places; a dent of 0.3 mm at 90° hides behind a larger run-out at 180°. */
export const RUN_OUT = [
  ...[0.1, 0.05, 0.4, 0.2].map((value, i) => measured('lateralRunOutBefore', value, 'mm', { place: `${90 * i}°` })),
  ...[0.1, 0.35, 0.42, 0.2].map((value, i) => measured('lateralRunOutAfter', value, 'mm', { place: `${90 * i}°` })),
];

/** What readRun takes, for an invention; left to itself one faultless strike of 40 J. */
export function inventedImpactRun(over: Partial<ImpactInvention> = {}): RunInput {
  const invention: ImpactInvention = {
    rate: 100_000,
    energies: [40],
    found: [],
    places: [],
    noise: 3,
    seed: 20310306,
    force: (newtons) => newtons,
    displacement: undefined,
    named: (over.energies?.length ?? 1) > 1 || over.found !== undefined,
    recorded: true,
    measurements: (standard) => standard,
    method: {},
    parameters: {},
    calibrations: [
      calibration('S-F', { unit: 'N', expandedUncertainty: 100, k: 2 }),
      calibration('S-D', { unit: 'mm', expandedUncertainty: 0.1, k: 2 }),
    ],
    fullScale: 25_000,
    run: {},
    endReason: 'programme ended',
    partSound: 'sound',
    seconds: RECORD,
    text: (text) => text,
    ...over,
  };
  const { energies, found, places, named, recorded } = invention;
  const keyed = energies.flatMap((energy, index) => {
    const { gateTime, reboundGateTime, height } = strikeOf(energy);
    const own = named ? { passage: index + 1 } : {};
    return [
      measured('gateTime', gateTime, 's', own),
      measured('reboundGateTime', 1000 * reboundGateTime, 'ms', own),
      measured('dropHeight', 1000 * height, 'mm', own),
    ];
  });
  return {
    method: {
      ...IMPACT_METHOD,
      ...invention.method,
      parameters: { ...IMPACT_METHOD.parameters, ...invention.parameters },
    },
    layout: {
      layout: 'R3-log',
      revision: 1,
      rig: 'R3',
      form: 'layout 1',
      time: { column: 'time', kind: 'time' },
      columns: [{ column: 'force', channel: 'strikerForce' }],
      requiredMetadata: [],
    },
    rig: {
      rig: 'R3',
      name: 'Drop tower',
      location: 'bay 3',
      placements: [
        {
          channel: 'strikerForce',
          sensor: 'S-F',
          from: '2031-01-01',
          fullScale: { value: invention.fullScale, unit: 'N' },
        },
        { channel: 'displacement', sensor: 'S-D', from: '2031-01-01', fullScale: { value: 100, unit: 'mm' } },
      ],
    },
    calibrations: invention.calibrations,
    files: recorded
      ? energies.map((energy, index) => ({
          name: `strike-${index + 1}.csv`,
          bytes: new TextEncoder().encode(invention.text(textOf(invention, energy, index), index)),
          sha256: String(index).repeat(64),
        }))
      : [],
    run: {
      run: '88',
      specimen: '0601',
      planLine: 'I',
      method: 'I1',
      methodRevision: 1,
      rig: 'R3',
      layoutRevision: 1,
      operator: 'p1',
      startedAt: '2031-03-04T09:12:00Z',
      conditions: {},
      ...(named
        ? {
            passages: energies.map((energy, index) => ({
              passage: index + 1,
              kind: 'strike' as const,
              title: `strike ${index + 1}`,
              startedAt: '2031-03-04T09:12:00Z',
              target: { value: energy, unit: 'J' },
              ...(recorded ? { file: `strike-${index + 1}.csv` } : {}),
              ...(found[index] ? { found: found[index] } : {}),
              ...(places[index] ? { place: places[index] } : {}),
            })),
          }
        : {}),
      files: [],
      measurements: invention.measurements(keyed),
      deviations: [],
      examination: {
        endReason: invention.endReason,
        modes: [],
        partSound: invention.partSound,
        person: 'p1',
        at: '2031-03-04T10:00:00Z',
      },
      ...invention.run,
    },
  };
}

function textOf(
  { rate, noise, seed, force, displacement, named, seconds }: ImpactInvention,
  energy: number,
  index: number,
) {
  const strike = strikeOf(energy);
  const next = seededNormal(seed + index);
  const ofDisplacement = seededNormal(seed + 100 + index);
  const rows: string[] = [];
  for (let i = 0; i < Math.round(seconds * rate); i++) {
    // The trigger is at contact: the record begins before its zero of time.
    const time = i / rate - BEFORE;
    const inContact = time >= 0 && time <= PULSE;
    const given = force(inContact ? strike.peak * Math.sin((Math.PI * time) / PULSE) : 0, time, index);
    if (given === undefined) continue;
    const cells = [time.toFixed(6), (given + noise * next()).toFixed(3)];
    if (displacement)
      cells.push(
        (
          1000 * displacement(inContact ? strike.deflection(time) : time < 0 ? 0 : strike.deflection(PULSE), time) +
          0.003 * noise * ofDisplacement()
        ).toFixed(4),
      );
    rows.push(cells.join(','));
  }
  const header = `time [s],force [N]${displacement ? ',displacement [mm]' : ''}`;
  const own = named ? `# passage: ${index + 1}\n` : '';
  return `# specimen: 0601\n# rig: R3\n# started: 2031-03-04T09:12:00Z\n${own}${header}\n${rows.join('\n')}\n`;
}
