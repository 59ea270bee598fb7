import { counted, valueInWords } from '@breakbook/acceptance';
import {
  type CharacteristicComparison,
  COMPARISON_LEVELS,
  type ComparedValue,
  type ComparisonCase,
  type ComparisonResult,
  type FeatureComparison,
  isNotEvaluated,
  type NotEvaluated,
  toolInWords,
  withInstants,
} from '@breakbook/lab';
import { timeOf } from '@breakbook/reports';
import { printPercent, printSignificant } from '@breakbook/units';
import { table, wrapped } from './terminal.js';

const WIDTH = 96;

/**
 * A comparison on the terminal: what was asked, what it came to, and all that it rests on, whatever that showed. Its
 * times are those where the lab is.
 */
export function comparisonSheet(
  { comparison, reference, custody, consents = [] }: ComparisonCase,
  result: ComparisonResult,
  zone: string,
): string {
  const { level, sentences, characteristics, features, gaps, notExamined, notes, earlierRevisions } = result;
  const [conclusion = '', ...found] = sentences;
  const inLabTime = (text: string) => withInstants(text, (instant) => timeOf(instant, zone));
  const parts = [
    [
      `Comparison ${comparison.comparison} rev. ${comparison.revision} · ${comparison.product} · declared ${timeOf(comparison.declaredAt, zone)}`,
      wrapped(comparison.title, WIDTH),
      wrapped(`Asked: ${comparison.question}`, WIDTH),
      ...(reference
        ? [
            wrapped(
              `Reference ${reference.reference} rev. ${reference.revision}, frozen ${timeOf(reference.frozenAt, zone)}: ${counted(reference.units.length, 'unit')} of ${counted(new Set(reference.units.map(({ lot }) => lot)).size, 'lot')}.`,
              WIDTH,
            ),
          ]
        : []),
    ].join('\n'),
    `${level}  ${COMPARISON_LEVELS[level].toUpperCase()}\n${wrapped(conclusion, WIDTH)}`,
    listed('Each item', result.items.map(inShort)),
    `Declared characteristics, ${printPercent(comparison.confidence)} together (${comparison.correction === 'none' ? 'no correction' : comparison.correction})\n${indented(characteristicTable(characteristics))}`,
    listed(
      'Compared as declared',
      characteristics.map(({ title, tool, unit }) => `${title}: ${toolInWords(tool, unit)}.`),
    ),
    ...(features.length > 0 ? [`Features looked at\n${indented(featureTable(features))}`] : []),
    listed('Found', found),
    listed(
      'Left out',
      characteristics.flatMap(({ title, leftOut }) => leftOutOf(title, leftOut, result)),
    ),
    listed(
      `Custody · entries ${custody.length} · consents and notices ${consents.length} · gaps ${gaps.length}`,
      gaps.map(({ sentence }) => inLabTime(sentence)),
      'always',
    ),
    listed('Not examined', notExamined),
    listed('What to know beside the numbers', notes.map(inLabTime)),
    listed(
      'Declared before',
      earlierRevisions.map(
        ({ revision, declaredAt, reason }) =>
          `Revision ${revision} of ${timeOf(declaredAt, zone)}, left because: ${reason}`,
      ),
    ),
    `Times are those of ${zone}.`,
  ];
  return parts.filter((part) => part !== '').join('\n\n');
}

/** What differs is told under what was found; of the rest, what an item's conclusion rests on. */
function inShort({ specimen, level, sentence }: ComparisonResult['items'][number]): string {
  const said = `${specimen}  ${level}, ${COMPARISON_LEVELS[level]}`;
  return level === 'A' || level === 'B' ? said : `${said}. ${sentence}`;
}

/** A head with its sentences, nothing where there are none. */
function listed(head: string, sentences: readonly string[], shown?: 'always'): string {
  if (sentences.length === 0 && shown === undefined) return '';
  return [head, ...sentences.map((one) => hanging(one))].join('\n');
}

/** A sentence by a dash, its further lines set under its words. */
function hanging(sentence: string): string {
  return wrapped(sentence, WIDTH, '    ').replace(/^ {4}/, '  - ');
}

function characteristicTable(characteristics: readonly CharacteristicComparison[]): string {
  return table(
    [
      { head: 'characteristic' },
      { head: 'n', side: 'right' },
      { head: 'lots', side: 'right' },
      { head: 'compared', side: 'right' },
      { head: 'p', side: 'right' },
      { head: 'held to', side: 'right' },
      { head: 'bounds, or difference' },
      { head: 'could have shown' },
      { head: 'finding' },
    ],
    characteristics.map((one) => [
      one.title,
      `${one.reference.length}`,
      `${one.lots}`,
      one.items.length === 1 ? onlyValue(one.items, one.unit) : `${one.items.length}`,
      chanceOf(one.p),
      printSignificant(one.level, 3),
      boundsOf(one),
      numberOf(one.smallestDifference, one.unit),
      `${one.finding}  ${COMPARISON_LEVELS[one.finding]}`,
    ]),
  );
}

function onlyValue([one]: readonly ComparedValue[], unit = '1'): string {
  return one ? valueInWords(one.value, unit) : '';
}

function chanceOf(p: number | NotEvaluated): string {
  if (isNotEvaluated(p)) return 'not evaluated';
  return p < 1e-4 ? '< 0.0001' : printSignificant(p, 2);
}

function numberOf(value: number | NotEvaluated | undefined, unit = '1'): string {
  if (value === undefined) return '';
  return isNotEvaluated(value) ? 'not evaluated' : valueInWords({ kind: 'exact', value }, unit);
}

/** What future units keep within, or how far the groups lie apart; or how often each mode was found. */
function boundsOf({ bounds, effect, modes, unit }: CharacteristicComparison): string {
  if (bounds) {
    const { lower, upper } = bounds;
    if (lower !== undefined && upper !== undefined) return `${numberOf(lower, unit)} to ${numberOf(upper, unit)}`;
    if (lower !== undefined) return `from ${numberOf(lower, unit)}`;
    return `to ${numberOf(upper, unit)}`;
  }
  if (effect) {
    const { difference, limits } = effect;
    const between = isNotEvaluated(limits)
      ? 'limits not evaluated'
      : `${numberOf(limits[0], unit)} to ${numberOf(limits[1], unit)}`;
    return `${numberOf(difference, unit)} (${between})`;
  }
  return (modes ?? []).map(({ mode, reference, items }) => `${mode} ${reference} : ${items}`).join(', ');
}

function featureTable(features: readonly FeatureComparison[]): string {
  return table(
    [{ head: 'feature' }, { head: 'kinds on the reference', side: 'right' }, { head: 'items' }, { head: 'finding' }],
    features.map(({ feature, reference, items, finding }) => [
      feature.title,
      `${reference.length}`,
      items.map(({ specimen, level }) => `${specimen} ${level}`).join(', '),
      `${finding}  ${COMPARISON_LEVELS[finding]}`,
    ]),
  );
}

/** What gave no value, told in full for items and counted for the reference by its reason. */
function leftOutOf(
  title: string,
  leftOut: CharacteristicComparison['leftOut'],
  { items }: Pick<ComparisonResult, 'items'>,
): string[] {
  const isItem = (specimen: string) => items.some((item) => item.specimen === specimen);
  const told = ({ specimen, run, because }: (typeof leftOut)[number]) =>
    `${title}: ${specimen}${run === undefined ? '' : `, run ${run}`}: ${because}.`;
  const others = leftOut.filter(({ specimen }) => !isItem(specimen));
  return [
    ...leftOut.filter(({ specimen }) => isItem(specimen)).map(told),
    ...[...new Set(others.map(({ because }) => because))].flatMap((because) => {
      const all = others.filter((one) => one.because === because);
      return all.length === 1 ? all.map(told) : [`${title}: ${all.length} specimens: ${because}.`];
    }),
  ];
}

function indented(text: string): string {
  return text
    .split('\n')
    .map((line) => `  ${line}`)
    .join('\n');
}
