import type { Characteristic, MethodCharacteristic } from '@breakbook/lab';
import { type Computed, characteristicOf } from './characteristic.js';
import { interruptions, longestInterruption, powerStability } from './heat-course.js';
import { brakingEnergy, energySurvived, meanPower, timeSurvived } from './heat-energies.js';
import { overLevel } from './heat-levels.js';
import { marginToGlassTransition, peakRise } from './heat-margins.js';
import { steadyRise, thermalResistance, timeConstant } from './heat-model.js';
import type { HeatSource } from './heat-source.js';
import { timeToSteady } from './heat-steady.js';
import { peakTemperature, temperatureAtFailure } from './heat-temperatures.js';

type Compute = (source: HeatSource) => Computed;

/** What one stage gives as well as the whole run. */
const OF_A_STAGE = new Map<string, Compute>(
  Object.entries({
    brakingEnergy,
    meanPower,
    powerStability,
    interruptions,
    longestInterruption,
    peakTemperature,
    peakRise,
    marginToGlassTransition,
    timeToSteady,
    timeConstant,
    thermalResistance,
    steadyRise,
  }),
);
const OF_THE_RUN = new Map<string, Compute>([
  ...OF_A_STAGE,
  ...Object.entries({ temperatureAtFailure, timeSurvived, energySurvived }),
]);

/** The characteristics of a heat run that its method asks for, by name; undefined for a name it does not give. */
export function heatCharacteristic(wanted: MethodCharacteristic, source: HeatSource): Characteristic | undefined {
  const compute = OF_THE_RUN.get(wanted.characteristic) ?? overLevel(wanted.characteristic);
  return compute && characteristicOf(wanted, compute(source), source.calibrations);
}

/** The same of one stage alone; undefined for a name that only the whole run gives. */
export function stageCharacteristic(wanted: MethodCharacteristic, source: HeatSource): Characteristic | undefined {
  const compute = OF_A_STAGE.get(wanted.characteristic) ?? overLevel(wanted.characteristic);
  return compute && characteristicOf(wanted, compute(source), source.calibrations);
}
