import { CHANNELS, characteristic, placed, withColumns } from './burst-columns.fixture.js';
import { type Budget, budgeted, certificate, covering, Draw, type Told, told } from './coverage-draw.fixture.js';
import { calibration, inventedRun, METHOD, RIG } from './invented-run.fixture.js';
import { readRun } from './read-run.js';

const PRESSURE_BUDGET = METHOD.characteristics.find(({ characteristic }) => characteristic === 'burstPressure')
  ?.uncertainty as Budget;

/**
 * A straight ramp to a burst at a random pressure, between two samples at random. The sensor is off at the burst by what
 * the budget of the fixture's method names, and in proportion below: its zero is taken off.
 */
export function burstOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const [ramp, begins] = [40, 3];
  const burst = draw.between(450, 550);
  const at = begins + burst / ramp;
  const error = 5 * draw.normal() + draw.rectangular(6) + draw.triangular(0.002 * burst) + 2 * draw.normal();
  const reads = 1 + error / burst;
  const input = inventedRun({
    rate,
    noise,
    seed: draw.seed(),
    seconds: at + 1,
    pressure: (t) => reads * (t < at ? Math.max(0, ramp * (t - begins)) : burst * Math.exp(-(t - at) / 0.01)),
    method: {
      characteristics: budgeted(METHOD.characteristics, { burstPressure: PRESSURE_BUDGET, safetyRatio: SAFETY_BUDGET }),
    },
  });
  const { reading } = readRun({ ...input, markedMaximum: { value: 500, unit: 'kPa' } });
  return told(reading, { burstPressure: burst, safetyRatio: burst / 500 });
}

/** The same errors, as shares of 500 kPa marked. */
const SAFETY_BUDGET: Budget = {
  k: 2,
  components: [
    { from: 'calibration', name: 'calibration', channel: 'rimPressure' },
    { from: 'half width', name: 'hysteresis', halfWidth: 6 / 500, unit: '1', distribution: 'rectangular' },
    { from: 'relative half width', name: 'linearity', halfWidth: 0.002, distribution: 'triangular' },
    { from: 'standard', name: 'temperature', u: 2 / 500, unit: '1' },
  ],
};

/** Half width of the error of the logger's clock, as a share. */
const CLOCK = 0.005;
const clock = {
  from: 'relative half width' as const,
  name: 'clock',
  halfWidth: CLOCK,
  distribution: 'rectangular' as const,
};
/**
 * Of the two crossings of a band of 30 kPa at 40 kPa/s: 1 % of it by the sensor, and a noise of 0.3 kPa at each; s.
 */
const crossings = {
  from: 'standard' as const,
  name: 'crossings of the band',
  u: Math.hypot(0.3, 0.3, 0.3) / 40,
  unit: 's',
};
/** Standard uncertainty of the pressure at the burst, kPa, by the certificate of the fixture's sensor. */
const PRESSURE_U = 5;

/** A ramp with a hold on its way, written by a logger whose clock is off. */
export function holdOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const [ramp, begins, at] = [40, 3, 300];
  const [held, burst] = [draw.between(10, 20), draw.between(450, 550)];
  const [up, on] = [begins + at / ramp, begins + at / ramp + held];
  const end = on + (burst - at) / ramp;
  const reads = 1 + (PRESSURE_U * draw.normal()) / burst;
  const off = 1 + draw.rectangular(CLOCK);
  const pressure = (t: number) =>
    t < up
      ? Math.max(0, ramp * (t - begins))
      : t < on
        ? at
        : t < end
          ? at + ramp * (t - on)
          : burst * Math.exp(-(t - end) / 0.01);
  const { reading } = readRun(
    inventedRun({
      rate,
      noise,
      seed: draw.seed(),
      seconds: end + 1,
      pressure: (t) => reads * pressure(t),
      row: (cells) => ({ ...cells, time: off * cells.time }),
      parameters: {
        holds: [
          {
            name: 'on its way',
            pressure: { value: at, unit: 'kPa' },
            below: 0.05,
            above: 0.05,
            duration: { value: 8, unit: 's' },
          },
        ],
      },
      method: {
        characteristics: budgeted(METHOD.characteristics, {
          longestHold: covering(clock, crossings),
          rampRate: covering(clock, certificate('rimPressure')),
          pressureTimeIndex: covering(clock, certificate('rimPressure')),
        }),
      },
    }),
  );
  const area = (at * at) / ramp / 2 + at * held + (burst * burst - at * at) / ramp / 2;
  return told(reading, {
    // Inside the band of 5 % from 285 to 315 kPa.
    longestHold: held + (2 * 0.05 * at) / ramp,
    rampRate: ramp,
    pressureTimeIndex: area,
  });
}

const FLOW_U = 0.6;
const WIDTH_U = 0.01;
const VOLUME = { share: 0.01, millilitres: 1800 };
const GROWS = [0.3, 0.42, 0.2];
/** Pressure per volume of the part, kPa/mL, and where it begins to give twice as much, kPa. */
const PART = { stiff: 10, yields: 300 };

/** A ramp to a burst with its flow and three widths, each sensor off by its certificate. */
export function burstBesideOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const [ramp, begins] = [40, 3];
  const burst = draw.between(450, 550);
  const at = begins + burst / ramp;
  const reads = 1 + (PRESSURE_U * draw.normal()) / burst;
  const flowOff = FLOW_U * draw.normal();
  const widths = GROWS.map((grows) => ({ grows, under: WIDTH_U * draw.normal(), after: WIDTH_U * draw.normal() }));
  const filled = VOLUME.millilitres * (1 + draw.rectangular(VOLUME.share));
  const pressure = (t: number) => (t < at ? Math.max(0, ramp * (t - begins)) : burst * Math.exp(-(t - at) / 0.01));
  const flow = (t: number) =>
    t < begins || t >= at ? 0 : (60 * ramp * (pressure(t) < PART.yields ? 1 : 2)) / PART.stiff;
  const columns = {
    'flow [mL/min]': (t: number) => flow(t) + flowOff,
    ...Object.fromEntries(
      widths.map(({ grows, under, after }, i) => [
        `rimWidth${i + 1} [mm]`,
        (t: number) => 25 + (t < at ? ((grows + under) * pressure(t)) / burst : grows / 4 + after),
      ]),
    ),
  };
  const input = inventedRun({
    rate,
    noise,
    seed: draw.seed(),
    seconds: at + 3,
    pressure: (t) => reads * pressure(t),
    text: withColumns(columns),
    rig: {
      placements: [
        ...RIG.placements,
        placed('flow', 'S3', 1000, 'mL/min'),
        ...GROWS.map((_, i) => placed(`rimWidth${i + 1}`, `W${i + 1}`, 50, 'mm')),
      ],
    },
    calibrations: [
      calibration('S1'),
      calibration('S2'),
      calibration('S3', { unit: 'mL/min', expandedUncertainty: 2 * FLOW_U }),
      ...GROWS.map((_, i) => calibration(`W${i + 1}`, { unit: 'mm', expandedUncertainty: 2 * WIDTH_U })),
    ],
    run: { conditions: { medium: 'air' } },
    parameters: {
      compliance: { from: 0.1, to: 0.4, departure: 0.05 },
      filledVolume: { value: filled, unit: 'mL' },
      roomPressure: { value: 100, unit: 'kPa' },
    },
    method: {
      channels: CHANNELS,
      characteristics: [
        {
          ...characteristic('hydraulicWork', 'energy', 'J'),
          uncertainty: covering(certificate('rimPressure'), certificate('flow')),
        },
        { ...characteristic('pumpedVolume', 'volume', 'mL'), uncertainty: covering(certificate('flow')) },
        {
          ...characteristic('pressureVolumeSlope', 'pressure per volume', 'kPa/mL'),
          uncertainty: covering(certificate('rimPressure'), certificate('flow')),
        },
        {
          ...characteristic('kneePressureByVolume', 'pressure', 'kPa'),
          uncertainty: covering(certificate('rimPressure')),
        },
        {
          ...characteristic('storedEnergy', 'energy', 'J'),
          uncertainty: covering(certificate('rimPressure'), {
            from: 'relative half width',
            name: 'volume',
            halfWidth: VOLUME.share,
            distribution: 'rectangular',
          }),
        },
        ...['widthGrowth', 'meanWidthGrowth', 'permanentSet', 'meanPermanentSet'].map((name) => ({
          ...characteristic(name, 'length', 'mm'),
          uncertainty: covering(...GROWS.map((_, i) => certificate(`rimWidth${i + 1}`))),
        })),
      ],
    },
  });
  const mean = GROWS.reduce((sum, one) => sum + one / GROWS.length, 0);
  const { stiff, yields } = PART;
  return told(readRun(input).reading, {
    // ∫ P dV: P²/2 over the stiffness of each stretch, kPa·mL.
    hydraulicWork: (yields ** 2 / 2 / stiff + (burst ** 2 - yields ** 2) / stiff) / 1000,
    pumpedVolume: yields / stiff + (2 * (burst - yields)) / stiff,
    pressureVolumeSlope: stiff,
    kneePressureByVolume: yields / 0.95,
    // The isentropic expansion of a perfect gas of γ = 1.4 to 100 kPa.
    storedEnergy: (2.5 * (burst + 100) * VOLUME.millilitres * (1 - (100 / (burst + 100)) ** (2 / 7))) / 1000,
    widthGrowth: Math.max(...GROWS),
    meanWidthGrowth: mean,
    permanentSet: Math.max(...GROWS) / 4,
    meanPermanentSet: mean / 4,
  });
}
