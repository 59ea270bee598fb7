import type { Problem } from '@breakbook/lab';
import { sameDimension } from '@breakbook/units';
import { problemAt, type Records } from './records.js';

/**
 * Can the values of earlier lots stand beside those of this one? They are of another lot that was finished before, and in
 * a unit of the quantity that the method gives. What the plan does not ask for is not taken in, and harms nothing.
 */
export function earlierProblems({ bundle, methodOf }: Records): Problem[] {
  const { lot, earlier = [] } = bundle;
  return earlier.flatMap((one, index) => {
    const at = `/earlier/${index}`;
    const given = methodOf(one)?.characteristics.find(({ characteristic }) => characteristic === one.characteristic);
    return [
      ...(one.lot === lot.lot
        ? [
            problemAt(
              'state.conflict',
              `${at}/lot`,
              `${one.lot} is this lot, and no earlier one. Take it out.`,
              one.lot,
            ),
          ]
        : []),
      ...(one.lot !== lot.lot && one.madeTo >= lot.madeTo
        ? [
            problemAt(
              'state.conflict',
              `${at}/madeTo`,
              `lot ${one.lot} was finished on ${one.madeTo}, and lot ${lot.lot} on ${lot.madeTo}. Only lots finished before can be earlier ones: correct the day, or take it out.`,
              one.madeTo,
            ),
          ]
        : []),
      ...(given && !sameDimension(one.unit, given.unit)
        ? [
            {
              ...problemAt(
                'unit.wrong-dimension',
                `${at}/unit`,
                `values of lot ${one.lot} are in ${one.unit}, and ${one.characteristic} is given in ${given.unit}. Write them in a unit of ${given.kind}.`,
                one.unit,
              ),
              expected: given.unit,
            },
          ]
        : []),
    ];
  });
}
