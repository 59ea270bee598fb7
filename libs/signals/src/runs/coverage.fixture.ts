import { type MethodCharacteristic, type Reading } from '@breakbook/lab';
import { type Generator, seededGenerator } from '@breakbook/statistics';
import {
  HEAT_CALIBRATIONS,
  HEAT_METHOD,
  inventedHeatRun,
  ONE_STAGE,
  RESISTANCE,
  ROOM,
  TIME_CONSTANT,
} from './invented-heat.fixture.js';
import { IMPACT_METHOD, inventedImpactRun, strikeOf } from './invented-impact.fixture.js';
import { calibration, inventedRun, METHOD } from './invented-run.fixture.js';
import { readRun } from './read-run.js';
import { named } from './reading.fixture.js';

/** Chance from a seed, in the shapes that a budget names (JCGM 100:2008, 4.3 and 4.4). */
class Draw {
  private readonly generator: Generator;

  constructor(seed: number) {
    this.generator = seededGenerator(seed);
  }

  /** A seed for the noise of the record, unlike that of the run before. */
  seed(): number {
    return this.generator.word();
  }

  between(from: number, to: number): number {
    return from + (to - from) * this.generator.uniform();
  }

  normal(): number {
    return this.generator.normal();
  }

  rectangular(halfWidth: number): number {
    return this.between(-halfWidth, halfWidth);
  }

  triangular(halfWidth: number): number {
    return this.rectangular(halfWidth / 2) + this.rectangular(halfWidth / 2);
  }
}

/** What a run of known truth gave: for each characteristic, how far off it was and what it said of itself. */
export interface Told {
  characteristic: string;
  off: number;
  expanded: number;
}

function told(reading: Reading, truths: Record<string, number>): Told[] {
  return Object.entries(truths).map(([characteristic, truth]) => {
    const { value, uncertainty } = named(reading, characteristic);
    if (!('value' in value) || !uncertainty) throw new Error(`${characteristic}: no number with its uncertainty`);
    return { characteristic, off: value.value - truth, expanded: uncertainty.expanded };
  });
}

type Budget = NonNullable<MethodCharacteristic['uncertainty']>;
const budgeted = (all: readonly MethodCharacteristic[], budgets: Record<string, Budget>): MethodCharacteristic[] =>
  all.flatMap(({ uncertainty: _, ...one }) => {
    const uncertainty = budgets[one.characteristic];
    return uncertainty ? [{ ...one, uncertainty }] : [];
  });
const calibrated = (...channels: string[]): Budget => ({
  k: 2,
  components: channels.map((channel) => ({ from: 'calibration', name: channel, channel })),
});

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

/** Standard uncertainty of the sensors of the drag: N, m/s, K. */
const HEAT_U = { brakeForce: 0.7, surfaceSpeed: 0.05, trackTemperatureLeft: 1, trackTemperatureRight: 1 } as const;

/** A drag at constant power whose sensors are off by their calibrations; the rim warms by the lumped model. */
export function dragOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const off = {
    force: HEAT_U.brakeForce * draw.normal(),
    speed: HEAT_U.surfaceSpeed * draw.normal(),
    left: HEAT_U.trackTemperatureLeft * draw.normal(),
    right: HEAT_U.trackTemperatureRight * draw.normal(),
  };
  const power = ['brakeForce', 'surfaceSpeed'] as const;
  const tracks = calibrated('trackTemperatureLeft', 'trackTemperatureRight');
  // One budget for the three numbers of the heated body, so that one set of trials serves them.
  const body = calibrated(...power, 'trackTemperatureLeft', 'trackTemperatureRight');
  const { reading } = readRun(
    inventedHeatRun({
      ...ONE_STAGE,
      rate,
      noise,
      seed: draw.seed(),
      row: (cells) => ({
        ...cells,
        speed: cells.speed + off.speed,
        force: cells.force + off.force,
        left: cells.left + off.left,
        right: cells.right + off.right,
      }),
      calibrations: HEAT_CALIBRATIONS.map((one) => ({
        ...one,
        expandedUncertainty: 2 * (HEAT_U[one.sensor.slice(2) as keyof typeof HEAT_U] ?? 1),
      })),
      method: {
        characteristics: budgeted(HEAT_METHOD.characteristics, {
          brakingEnergy: calibrated(...power),
          meanPower: calibrated(...power),
          peakTemperature: tracks,
          timeAbove120: tracks,
          thermalResistance: body,
          steadyRise: body,
          timeConstant: body,
        }),
      },
    }),
  );
  const risesTo = RESISTANCE * 600;
  const crossing = TIME_CONSTANT * Math.log(risesTo / (risesTo - (120 - ROOM)));
  return told(reading, {
    brakingEnergy: 144,
    meanPower: 600,
    peakTemperature: ROOM + risesTo * (1 - Math.exp(-240 / TIME_CONSTANT)),
    thermalResistance: RESISTANCE,
    steadyRise: risesTo,
    timeConstant: TIME_CONSTANT,
    // It is still above when the record ends, 20 s after the brake was let go.
    timeAbove120: 240 - crossing + 20 - 1 / rate,
  });
}

/** Standard uncertainty of the force at the peak, N. */
const FORCE_U = 80;

/** A half-sine strike whose force is off by its calibration, in proportion: its zero is taken off. */
export function strikeOfKnownTruth(seed: number, { noise, rate }: { noise: number; rate: number }): Told[] {
  const draw = new Draw(seed);
  const energy = draw.between(38, 42);
  const strike = strikeOf(energy);
  const reads = 1 + (FORCE_U * draw.normal()) / strike.peak;
  const force = calibrated('strikerForce');
  const { reading } = readRun(
    inventedImpactRun({
      rate,
      noise,
      seed: draw.seed(),
      seconds: 0.03,
      energies: [energy],
      force: (newtons) => reads * newtons,
      calibrations: [calibration('S-F', { unit: 'N', expandedUncertainty: 2 * FORCE_U, k: 2 })],
      method: {
        characteristics: budgeted(IMPACT_METHOD.characteristics, {
          peakForce: force,
          impulse: force,
          absorbedEnergy: force,
        }),
      },
    }),
  );
  return told(reading, { peakForce: strike.peak / 1000, impulse: strike.impulse, absorbedEnergy: strike.absorbed });
}
