import { budgeted, calibrated, Draw, type Told, told } from './coverage-draw.fixture.js';
import {
  HEAT_CALIBRATIONS,
  HEAT_METHOD,
  inventedHeatRun,
  ONE_STAGE,
  RESISTANCE,
  ROOM,
  TIME_CONSTANT,
} from './invented-heat.fixture.js';
import { readRun } from './read-run.js';

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
