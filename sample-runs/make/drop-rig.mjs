/** The drop tower: the cell in its striker, calibration and file layout. Speeds and heights are keyed from its gate. */

import { WHO } from './world.mjs';

export const DROP_RATE = 50_000;
const CELL = { sensor: 'F-R4', fullScale: 30, relation: { gain: 1.0042, offset: 0.011 }, noise: 0.012 };

/** What a person reads at the tower. */
export const INSTRUMENTS = {
  gate: 'timer GT-2 of the light barriers, certificate SWL-26-185',
  height: 'height scale of the tower, certificate SWL-26-186',
  runOut: 'dial gauge DG-12 on the truing fixture, certificate SWL-26-187',
  tension: 'spoke tension meter TM-4, certificate SWL-26-188',
};

export const dropRigDocument = {
  rigs: [
    {
      rig: 'R4',
      name: 'Guided drop tower for wheels',
      location: 'Test House, bay 4',
      placements: [
        {
          channel: 'strikerForce',
          sensor: CELL.sensor,
          from: '2026-04-01',
          fullScale: { value: CELL.fullScale, unit: 'kN' },
        },
      ],
      rigLimit: { value: 200, unit: 'J' },
    },
  ],
  layouts: [
    {
      layout: 'R4-log',
      revision: 1,
      rig: 'R4',
      form: 'layout 1',
      time: { column: 'time', kind: 'time' },
      columns: [{ column: 'striker force', channel: 'strikerForce' }],
      requiredMetadata: ['strike', 'pad'],
    },
  ],
  sensors: [
    {
      sensor: CELL.sensor,
      description: 'Piezoelectric cell 0 to 30 kN between carriage and striker, natural frequency with striker 11 kHz',
      serial: 'PZ-2240',
    },
  ],
  calibrations: [
    {
      calibration: 'CAL-26-F-R4',
      sensor: CELL.sensor,
      date: '2026-06-10',
      due: '2027-06-10',
      unit: 'kN',
      asFound: { gain: 1.0061, offset: 0.014 },
      asLeft: CELL.relation,
      expandedUncertainty: 0.12,
      k: 2,
      tolerance: 0.3,
      certificate: 'SWL-26-181',
      traceableTo: 'Reference cell RC-2 of the lab, certificate on file, to the national standard of force',
      by: WHO.calibrates,
    },
  ],
};

/**
 * The striker's force as the logger records it.
 * @param {number[]} forces N
 * @returns {import('./recorder.mjs').RecordedChannel[]}
 */
export function dropChannels(forces) {
  return [
    {
      column: 'striker force',
      unit: 'kN',
      values: forces.map((newton) => newton / 1000),
      relation: CELL.relation,
      noise: CELL.noise,
      span: [-0.05 * CELL.fullScale, 1.05 * CELL.fullScale],
      digits: 4,
    },
  ];
}
