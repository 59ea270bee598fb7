/** Methods that end the wheel, for comparing wheels: a drag until something lets go, and one hard strike. */

import { DRAG_SPEED, heatDrag } from './heat-method.mjs';
import { singleDrop } from './impact-methods.mjs';

export const HARD_STRIKE = 105;
/** °C at the hotter track: as far as the brake-heat drum goes. */
const DRUM_STOPS_AT = 229;
/** The recorder of a hard strike keeps this long, s; a second strike is looked for within half of it. */
export const SHORT_RECORD = 0.06;

const STAGES = [{ name: '800 W until something lets go', power: 800, duration: 1200 }];

/** Of a rim that has come to rest, which one that lets go within minutes has not. */
const OF_REST = ['timeToSteady', 'timeConstant', 'thermalResistance'];

const dragToTheEnd = {
  ...heatDrag,
  method: 'HEAT-END',
  revision: 1,
  title: 'Drag of a rim brake at constant power until something lets go',
  basis:
    'Saltmarsh Wheelworks test instruction TI-14. Wheel, drum, load, tyre, pads and air stream as in TI-11; one stage of 800 W, ended when something lets go, or by the rig where a track reaches 229 °C.',
  inForceFrom: '2026-08-03',
  minimumSpecimens: 4,
  characteristics: heatDrag.characteristics.filter(({ characteristic }) => !OF_REST.includes(characteristic)),
  failureModes: [
    ...heatDrag.failureModes,
    {
      code: 'HM-TRK',
      meaning: 'brake track molten all round',
      countsAs: { energySurvived: 'failure', timeSurvived: 'failure', temperatureAtFailure: 'failure' },
    },
  ],
  parameters: {
    ...heatDrag.parameters,
    stages: STAGES.map(({ name, power, duration }) => ({
      name,
      power: { value: power, unit: 'W' },
      duration: { value: duration, unit: 's' },
      speed: { value: DRAG_SPEED, unit: 'km/h' },
      airSpeed: { value: DRAG_SPEED, unit: 'km/h' },
    })),
  },
};

export const heatEnd = {
  document: dragToTheEnd,
  method: dragToTheEnd.method,
  revision: 1,
  stages: STAGES,
  stopsAt: DRUM_STOPS_AT,
};

export const hardDrop = {
  ...singleDrop,
  method: 'DROP-END',
  revision: 1,
  title: 'One strike that a wheel is not expected to survive, guided drop tower',
  basis: `Saltmarsh Wheelworks test instruction TI-15. Wheel, fixture, striker and pad as in TI-12; the height is set for ${HARD_STRIKE} J. The recorder keeps 60 ms; whether the catcher held is seen on the high-speed video. Wheels are told apart by the force at which they begin to give way.`,
  inForceFrom: '2026-08-03',
  minimumSpecimens: 3,
  failureModes: [
    ...singleDrop.failureModes,
    { code: 'IS-OUT', meaning: 'spokes pulled out of the rim', countsAs: { failureEnergy: 'failure' } },
  ],
  parameters: {
    ...singleDrop.parameters,
    targetEnergy: { value: HARD_STRIKE, unit: 'J' },
    secondStrike: { value: 30, unit: 'ms' },
  },
};
