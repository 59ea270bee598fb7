import { typedNumber } from '../log/typed-number.js';
import type { RimOfRun, RunNumber } from './rim-of-run.js';

/** What a person fills in of a descent, in the units of the road. */
export const DESCENT_FIELDS = {
  slope: { label: 'Slope, %', first: '10', hint: 'Height over horizontal way.' },
  speed: { label: 'Speed, km/h', first: '25', hint: 'Held all the way down.' },
  height: { label: 'Height lost while braking, m', first: '300' },
  mass: { label: 'Mass of rider, bicycle and load, kg', first: '90' },
  dragArea: { label: 'Drag area, m²', first: '0.40', hint: 'Drag coefficient times frontal area.' },
  rolling: { label: 'Rolling resistance coefficient', first: '0.005' },
  airDensity: { label: 'Air density, kg/m³', first: '1.2' },
  share: { label: 'Share of the braking on this wheel, %', first: '60' },
  ambient: { label: 'Air temperature, °C', first: '20' },
  sure: {
    label: 'How well these are known: standard uncertainty, % of each',
    first: '5',
    hint: 'Of slope, speed, mass, drag area, rolling resistance, air density and share. 0 takes them as exact.',
  },
} as const satisfies Record<string, { label: string; first: string; hint?: string }>;

/** Asked for only where the run does not give them. */
export const RIM_FIELDS = {
  thermalResistance: { label: 'Thermal resistance of the rim, K/W' },
  timeConstant: { label: 'Time constant of the rim, s' },
} as const;

export type DescentTyped = Record<keyof typeof DESCENT_FIELDS | keyof typeof RIM_FIELDS, string>;

export const FIRST_TYPED: DescentTyped = {
  ...(Object.fromEntries(Object.entries(DESCENT_FIELDS).map(([name, { first }]) => [name, first])) as Record<
    keyof typeof DESCENT_FIELDS,
    string
  >),
  thermalResistance: '',
  timeConstant: '',
};

const RELATIVE = ['slope', 'speed', 'mass', 'dragArea', 'rolling', 'airDensity', 'share'] as const;

export interface DescentRequest {
  method: 'field-comparison';
  [input: string]: unknown;
}

/** The question to the calculator, in its units; or what is to be written instead, and where. */
export function descentRequest(typed: DescentTyped, rim: RimOfRun): { request: DescentRequest } | { said: string } {
  if (rim.airSpeed === undefined || !(rim.airSpeed > 0))
    return { said: 'The method of this run states no air stream, so that nothing can be scaled from it.' };
  const numbers = {} as Record<keyof DescentTyped, number>;
  const fields = { ...DESCENT_FIELDS, ...RIM_FIELDS };
  for (const name of Object.keys(fields) as (keyof DescentTyped)[]) {
    const ofRun = name === 'thermalResistance' || name === 'timeConstant' ? rim[name] : undefined;
    const read = ofRun ?? typedNumber(typed[name]);
    if ('said' in read) return { said: `${fields[name].label}: ${read.said}` };
    numbers[name] = read.value;
  }
  const inputs = {
    slope: numbers.slope / 100,
    speed: numbers.speed / 3.6,
    mass: numbers.mass,
    dragArea: numbers.dragArea,
    rolling: numbers.rolling,
    airDensity: numbers.airDensity,
    share: numbers.share / 100,
  };
  const sure = numbers.sure / 100;
  const uncertainties = {
    ...(sure > 0 ? Object.fromEntries(RELATIVE.map((name) => [name, sure * inputs[name]])) : {}),
    ...standardOf('thermalResistance', rim.thermalResistance),
    ...standardOf('timeConstant', rim.timeConstant),
  };
  const request: DescentRequest = {
    method: 'field-comparison',
    ...inputs,
    ambient: numbers.ambient,
    height: numbers.height,
    thermalResistance: numbers.thermalResistance,
    timeConstant: numbers.timeConstant,
    airSpeed: rim.airSpeed,
    uncertainties,
    reached: {
      ...(rim.energy ? { energy: rim.energy.value, ...standardOf('energyUncertainty', rim.energy) } : {}),
      ...(rim.temperature
        ? { temperature: rim.temperature.value, ...standardOf('temperatureUncertainty', rim.temperature) }
        : {}),
    },
  };
  return { request };
}

function standardOf(name: string, number: RunNumber | undefined): Record<string, number> {
  return number?.standard === undefined || !(number.standard > 0) ? {} : { [name]: number.standard };
}
