import { type Problem, shown } from '@breakbook/lab';
import { problemAt, type Records } from './records.js';

/** Do placements, calibrations and layouts name rigs and sensors that are there? */
export function rigProblems({ bundle, rigs, sensors }: Records): Problem[] {
  const missing = (pointer: string, what: string, key: string) =>
    problemAt('body.not-found', pointer, `there is no ${what} ${shown(key)}. Add it, or correct the key.`, key);
  return [
    ...bundle.rigs.flatMap(({ placements }, index) =>
      placements.flatMap(({ sensor }, place) =>
        sensors.has(sensor) ? [] : [missing(`/rigs/${index}/placements/${place}/sensor`, 'sensor', sensor)],
      ),
    ),
    ...bundle.calibrations.flatMap(({ sensor }, index) =>
      sensors.has(sensor) ? [] : [missing(`/calibrations/${index}/sensor`, 'sensor', sensor)],
    ),
    ...bundle.layouts.flatMap(({ rig }, index) =>
      rigs.has(rig) ? [] : [missing(`/layouts/${index}/rig`, 'rig', rig)],
    ),
  ];
}
