import { type Problem, shown } from '@breakbook/lab';
import { problemAt, type Records } from './records.js';

/** Is every key of the bundle used once only? A second record under one key could answer for the first. */
export function doubledKeys({ bundle }: Records): Problem[] {
  const revised = (key: string, revision: number) => `${key} rev. ${revision}`;
  const lists: [pointer: string, field: string, keys: string[]][] = [
    ['/people', 'person', bundle.people.map(({ person }) => person)],
    ['/specimens', 'specimen', bundle.specimens.map(({ specimen }) => specimen)],
    ['/limits', 'limit', bundle.limits.map(({ limit, revision }) => revised(limit, revision))],
    ['/methods', 'method', bundle.methods.map(({ method, revision }) => revised(method, revision))],
    ['/layouts', 'layout', bundle.layouts.map(({ rig, revision }) => revised(`layout of ${rig}`, revision))],
    ['/rigs', 'rig', bundle.rigs.map(({ rig }) => rig)],
    ['/sensors', 'sensor', bundle.sensors.map(({ sensor }) => sensor)],
    ['/calibrations', 'calibration', bundle.calibrations.map(({ calibration }) => calibration)],
    ['/runs', 'run', bundle.runs.map(({ run }) => run)],
    [
      '/earlier',
      'lot',
      (bundle.earlier ?? []).map(({ lot, line, characteristic }) => `${characteristic} of ${lot}, line ${line}`),
    ],
    ['/plan/lines', 'line', bundle.plan.lines.map(({ line }) => line)],
    ...bundle.plan.lines.map(({ criteria }, index): [string, string, string[]] => [
      `/plan/lines/${index}/criteria`,
      'criterion',
      criteria.map(({ criterion }) => criterion),
    ]),
  ];
  return lists.flatMap(([pointer, field, keys]) => {
    const seen = new Map<string, number>();
    return keys.flatMap((key, index) => {
      const first = seen.get(key);
      if (first === undefined) {
        seen.set(key, index);
        return [];
      }
      return [
        problemAt(
          'meta.duplicate',
          `${pointer}/${index}/${field}`,
          `${shown(key)} stands at ${pointer}/${first} already. Give each its own key, or remove one.`,
          key,
        ),
      ];
    });
  });
}
