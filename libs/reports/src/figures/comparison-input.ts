import { nameOfLimit } from '@breakbook/acceptance';
import type { ComparedLane, ComparisonInput, PredictionBound, StripLimit } from '@breakbook/figures';
import {
  type CharacteristicComparison,
  type ComparedValue,
  isExternal,
  isNotEvaluated,
  type MeasuredLimit,
  type NotEvaluated,
  notEvaluated,
  type Result,
} from '@breakbook/lab';
import { convert, converter } from '@breakbook/units';
import type { ComparisonReportContent } from '../documents/comparison-report/content.js';
import { MESSAGES } from '../documents/comparison-report/messages/index.js';
import { coverageInWords, referenceOf, sidesOf, sourceInWords } from '../documents/comparison-report/words.js';
import { PLAIN, type Printing } from '../words/printing.js';
import { both, mapped, measuredInWords } from '../words/units.js';
import { axisOf } from './quantity.js';

type Drawn = Pick<ComparisonReportContent, 'case' | 'limits'>;

/** So many items are told to whoever cannot see the picture; the table has all of them. */
const MOST_TOLD = 30;

/** The picture of one compared characteristic: reference by lot, items, prediction bounds, and limits where they are given. */
export function comparisonFigureOf(
  content: Drawn,
  found: CharacteristicComparison,
  printing: Printing = PLAIN,
): ComparisonInput | NotEvaluated {
  const words = MESSAGES[printing.language].characteristic;
  const { unit, title, reference, items } = found;
  if (unit === undefined)
    return notEvaluated('failure modes are counted and lie on no axis', 'a characteristic with a unit is compared');
  if (reference.length + items.length === 0)
    return notEvaluated('no specimen gave a value', 'a valid run or an observation gives a value');
  const { compared } = content.case.comparison;
  const into = converter(unit, printing.units.of(unit));
  const said = (value: ComparedValue['value']) => both(measuredInWords({ value, unit }, printing));
  const bounds = boundsOf(found, printing);
  const groups = compared.what === 'two groups';
  const sides = sidesOf(content, printing);
  const told = items.slice(0, MOST_TOLD).map(({ specimen, value }) => `${specimen}: ${said(value)}`);
  const more = items.length - told.length;
  const known = reference.flatMap(({ value }) =>
    value.kind === 'between' ? [value.lower, value.upper] : [value.value],
  );
  const exact = (value: number) => said({ kind: 'exact', value });
  return {
    title: words.figure(title),
    alt: words.alt({
      reference:
        known.length === 0
          ? ''
          : words.altReference(reference.length, found.lots, exact(Math.min(...known)), exact(Math.max(...known))),
      items: words.altItems([...told, ...(more > 0 ? [words.altMore(more)] : [])].join('; ') || words.noValues),
      bounds:
        bounds.length === 0
          ? words.noBounds
          : words.bounds(bounds.map(({ value, level }) => `${exact(value)}, ${level}`).join('; ')),
    }),
    caption: words
      .caption({
        title,
        known: sides.known,
        asked: sides.asked,
        reference: reference.length,
        lots: words.lot(found.lots),
        items: items.length,
        source: sourceInWords(found, content, printing),
      })
      .concat(bounds.length === 0 ? '' : ` ${words.captionBounds(coverageInWords(found.level, printing))}`),
    language: printing.figures,
    axes: [
      {
        quantity: axisOf(
          [...reference, ...items].map((one) => asResult(one, found, content)),
          { title, unit },
          printing.units,
        ),
        reference: {
          title: sides.known,
          lanes: lanesOf(reference, ({ lot }) => lot, into),
        },
        items: {
          title: sides.asked,
          lanes: lanesOf(items, ({ lot, specimen }) => (groups ? lot : specimen), into),
        },
        bounds: bounds.map((bound) => ({ ...bound, value: into(bound.value) })),
        limits: limitsOf(content, found, printing).map((limit) => ({ ...limit, value: into(limit.value) })),
      },
    ],
  };
}

function lanesOf(
  values: readonly ComparedValue[],
  nameOf: (value: ComparedValue) => string,
  into: (value: number) => number,
): ComparedLane[] {
  const lanes = new Map<string, ComparedLane['values'][number][]>();
  for (const one of values) {
    const lane = lanes.get(nameOf(one)) ?? [];
    lane.push({ label: one.specimen, value: mapped(one.value, into) });
    lanes.set(nameOf(one), lane);
  }
  return [...lanes].map(([label, own]) => ({ label, values: own }));
}

/** As the axis asks for its digits. */
function asResult(
  { value, uncertainty }: ComparedValue,
  found: CharacteristicComparison,
  content: Pick<ComparisonReportContent, 'case'>,
): Result {
  const reference = referenceOf(found, content);
  return {
    characteristic: found.name,
    title: found.title,
    unit: found.unit ?? '1',
    value,
    ...(reference ? { reference } : {}),
    ...(uncertainty ? { uncertainty } : {}),
    because: '',
  };
}

function boundsOf({ bounds, level }: CharacteristicComparison, printing: Printing): PredictionBound[] {
  return (['lower', 'upper'] as const).flatMap((side) => {
    const value = bounds?.[side];
    if (value === undefined || isNotEvaluated(value)) return [];
    return [{ side, value, level: coverageInWords(level, printing) }];
  });
}

function limitsOf(
  { limits }: Pick<Drawn, 'limits'>,
  { name, unit = '1' }: CharacteristicComparison,
  printing: Printing,
): StripLimit[] {
  const words = MESSAGES[printing.language].characteristic;
  return limits
    .filter(({ characteristic }) => characteristic === name)
    .flatMap(({ limit }) => {
      const label = (isExternal(limit) ? words.externalLimit : words.internalLimit)(
        nameOfLimit(limit, printing.language),
      );
      return strokesOf(limit).map(({ value, conforms }) => ({
        label,
        external: isExternal(limit),
        value: convert(value, limit.unit, unit),
        conforms,
      }));
    });
}

function strokesOf(limit: MeasuredLimit): Pick<StripLimit, 'value' | 'conforms'>[] {
  if (limit.bound === 'at least') return [{ value: limit.value, conforms: 'at or above' }];
  if (limit.bound === 'at most') return [{ value: limit.value, conforms: 'at or below' }];
  return [
    { value: limit.lower, conforms: 'at or above' },
    { value: limit.upper, conforms: 'at or below' },
  ];
}
