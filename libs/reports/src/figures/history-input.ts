import type { AxisQuantity, LotHistoryInput, LotInHistory } from '@breakbook/figures';
import { isNotEvaluated } from '@breakbook/lab';
import { type JudgedLot, linesOf, resultOf, runsOf } from '../content/judged-lot.js';
import { both, measuredInWords } from '../words/units.js';
import { axisOf } from './quantity.js';
import { boundsOf, limitsOf } from './strip-input.js';

/** What one lot adds to the history of its product: the results of one characteristic by one method. */
export interface LotPart {
  method: string;
  characteristic: string;
  quantity: AxisQuantity;
  lot: LotInHistory;
  limits: LotHistoryInput['limits'];
  /** The same for whoever cannot see the picture. */
  said: string;
}

/** So many limits have strokes that can be told apart. */
const MOST_LIMITS = 4;

/** What a lot adds, for each line of its plan: the values of its claim, and the bound of the first criterion that has one. */
export function partsOf(judged: JudgedLot): LotPart[] {
  return linesOf(judged).flatMap((found): LotPart[] => {
    const { result, method } = found;
    const runs = runsOf(judged, found).filter(({ entry }) => entry?.inClaim);
    const results = runs.flatMap((one) => {
      const value = resultOf(one, result.characteristic)?.value;
      return value === undefined || isNotEvaluated(value) ? [] : [{ label: one.run.specimen, value }];
    });
    if (results.length === 0) return [];
    const [bound] = boundsOf(judged, result);
    const { lot } = judged.bundle.lot;
    const lowest = Math.min(...results.map(({ value }) => (value.kind === 'between' ? value.lower : value.value)));
    const printed = both(measuredInWords({ value: { kind: 'exact', value: lowest }, unit: result.unit }));
    return [
      {
        method: method.method,
        characteristic: result.characteristic,
        quantity: axisOf(
          runs.flatMap((one) => resultOf(one, result.characteristic) ?? []),
          result,
        ),
        lot: {
          lot,
          results,
          ...(bound?.estimate === undefined ? {} : { bound: { value: bound.value, estimate: bound.estimate } }),
        },
        limits: limitsOf(judged, found).map(({ label, value, external }) => ({ label, value, external })),
        said: [`${lot}: ${results.length} results, lowest ${printed}`, ...(bound ? [bound.words] : [])].join('. '),
      },
    ];
  });
}

/**
 * How the lots of a product did one after the other: a picture for each characteristic by a method, from what each lot
 * adds, in the order in which they were made. A limit is drawn across all lots; where there are more than strokes that can
 * be told apart, external ones and those of the last lots are, and the caption says how many are not.
 */
export function lotHistoriesOf(
  product: string,
  lots: readonly (readonly LotPart[])[],
): { method: string; characteristic: string; history: LotHistoryInput }[] {
  const parts = lots.flat();
  const kinds = new Map(parts.map((one) => [`${one.method} ${one.characteristic} ${one.quantity.unit}`, one]));
  return [...kinds.values()].map(({ method, characteristic, quantity }) => {
    const same = parts.filter(
      (one) => one.method === method && one.characteristic === characteristic && one.quantity.unit === quantity.unit,
    );
    const limits = [
      ...new Map(
        same.toReversed().flatMap((one) => one.limits.map((limit) => [`${limit.label} ${limit.value}`, limit])),
      ).values(),
    ].sort((a, b) => Number(b.external) - Number(a.external));
    const drawn = limits.slice(0, MOST_LIMITS);
    const decimals = Math.max(...same.map((one) => one.quantity.decimals));
    return {
      method,
      characteristic,
      history: {
        title: `${quantity.title} by lot, product ${product}`,
        alt: same.map(({ said }) => said).join('; '),
        caption: [
          `${quantity.title} by ${method}, lot by lot in the order in which they were made: the results of each claim, and the lower bound that its plan declared.`,
          ...(limits.length > drawn.length ? [`${limits.length - drawn.length} further limits are not drawn.`] : []),
          'Coverage and confidence are those of each plan. Lots side by side show how they did; they are no test of a difference.',
        ].join(' '),
        quantity: { ...quantity, decimals },
        lots: same.map(({ lot }) => lot),
        limits: drawn,
      },
    };
  });
}
