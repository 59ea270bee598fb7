import type { Characteristic, Method, Reading } from '@breakbook/lab';
import { convert, unitByCode, valueIn } from '@breakbook/units';

/** A number of the run in a fixed unit, with its standard uncertainty where the method states one. */
export interface RunNumber {
  value: number;
  standard?: number;
  /** Known from below only. */
  atLeast: boolean;
}

/** What a run on the rig says of the rim as one heated body, and what it reached. */
export interface RimOfRun {
  /** K/W and s; undefined where the run does not give them. */
  thermalResistance: RunNumber | undefined;
  timeConstant: RunNumber | undefined;
  /** W, J and °C. */
  power: RunNumber | undefined;
  energy: RunNumber | undefined;
  temperature: RunNumber | undefined;
  /** Of the air stream that the stage with the most energy asks for, m/s. */
  airSpeed: number | undefined;
}

/** The rim as this run found it; undefined for a run that is no brake-heat run. */
export function rimOfRun(reading: Reading, method: Method): RimOfRun | undefined {
  if (method.test !== 'heat') return undefined;
  const given = (name: string, unit: string) =>
    numberOf(
      reading.characteristics.find(({ characteristic }) => characteristic === name),
      unit,
    );
  const { stages } = method.parameters;
  const energies = (reading.passages ?? []).map(({ passage, characteristics }) => ({
    passage,
    energy: numberOf(
      characteristics.find(({ characteristic }) => characteristic === 'brakingEnergy'),
      'J',
    )?.value,
  }));
  // Where no stage tells its energy, the last is taken: it is the one that a rim is dragged to its end in.
  const most = energies.reduce<{ passage: number; energy: number } | undefined>(
    (best, { passage, energy }) =>
      energy !== undefined && (!best || energy > best.energy) ? { passage, energy } : best,
    undefined,
  );
  const stage = most ? stages[most.passage - 1] : stages.at(-1);
  return {
    thermalResistance: given('thermalResistance', 'K/W'),
    timeConstant: given('timeConstant', 's'),
    power: given('meanPower', 'W'),
    energy: given('energySurvived', 'J') ?? given('brakingEnergy', 'J'),
    temperature: given('peakTemperature', 'Cel'),
    airSpeed: stage && valueIn(stage.airSpeed, 'm/s'),
  };
}

function numberOf(characteristic: Characteristic | undefined, unit: string): RunNumber | undefined {
  if (!characteristic || unitByCode(characteristic.unit)?.dimension !== unitByCode(unit)?.dimension) return undefined;
  const { value, uncertainty } = characteristic;
  if (!('kind' in value) || value.kind === 'between' || value.kind === 'atMost') return undefined;
  return {
    value: convert(value.value, characteristic.unit, unit),
    ...(uncertainty
      ? { standard: convert(uncertainty.expanded / uncertainty.k, characteristic.unit, unit, { difference: true }) }
      : {}),
    atLeast: value.kind === 'atLeast',
  };
}
