import {
  type CharacteristicComparison,
  COMPARISON_LEVELS,
  type ComparisonCase,
  type ComparisonLevel,
  type ComparisonResult,
  type FeatureComparison,
  type ItemConclusion,
} from '@breakbook/lab';
import { capital, counted } from '../words/index.js';
import type { Member } from './gathered-values.js';
import { togetherOf } from './tools/tested.js';

/** What may be said of each item, and of all of them: the strongest finding, and never more than was found. */
export function conclusions(
  given: ComparisonCase,
  items: readonly Member[],
  characteristics: readonly CharacteristicComparison[],
  features: readonly FeatureComparison[],
): Pick<ComparisonResult, 'level' | 'sentences' | 'items'> {
  const groups = given.comparison.compared.what === 'two groups';
  const concluded = groups ? [] : items.map((item) => ofItem(given, item, characteristics, features));
  const ofGroups = [...characteristics.map(({ finding }) => finding), ...features.map(({ finding }) => finding)];
  const level = groups ? togetherOf(ofGroups) : togetherOf(concluded.map((one) => one.level));
  return {
    level,
    items: concluded,
    sentences: [
      `${capital(COMPARISON_LEVELS[level])}: ${overall(given, level, concluded, characteristics, features)}`,
      ...features.map(({ sentence }) => sentence),
      ...characteristics.map(({ sentence }) => sentence),
    ],
  };
}

function ofItem(
  given: ComparisonCase,
  { specimen }: Member,
  characteristics: readonly CharacteristicComparison[],
  features: readonly FeatureComparison[],
): ItemConclusion {
  const away = (given.setAside ?? []).find((one) => one.specimen === specimen);
  if (away) return { specimen, level: 'E', sentence: `Item ${specimen} is not compared: ${away.because}` };
  const found = [...characteristics.flatMap(({ each }) => each), ...features.flatMap(({ items }) => items)].filter(
    (one) => one.specimen === specimen,
  );
  const level = togetherOf(found.map((one) => one.level));
  if (level === 'D') {
    const isExamined = ({ each }: CharacteristicComparison) => each.some((one) => one.specimen === specimen);
    const examined = noDifference([`item ${specimen}`, 'the reference'], characteristics.filter(isExamined), features);
    const others = characteristics
      .filter((one) => !isExamined(one))
      .map(({ title }) => ` ${title} was not examined on it: it took another test.`);
    return { specimen, level, sentence: `${examined}${others.join('')}` };
  }
  const told = found.filter((one) => one.level === level || (level === 'A' && one.level === 'B'));
  return { specimen, level, sentence: told.map(({ sentence }) => sentence).join(' ') };
}

/** Agreement is told with what it rests on, and with what it does not show. */
function noDifference(
  [what, other]: readonly [what: string, other: string],
  characteristics: readonly CharacteristicComparison[],
  features: readonly FeatureComparison[],
): string {
  const examined = [
    ...(characteristics.length > 0 ? [`the ${counted(characteristics.length, 'characteristic')}`] : []),
    ...(features.length > 0 ? [`the ${counted(features.length, 'feature')}`] : []),
  ].join(' and ');
  const has = (...kinds: CharacteristicComparison['tool']['kind'][]) =>
    characteristics.some(({ tool }) => kinds.includes(tool.kind));
  // Within a margin a difference may well have been found.
  const beyond = [
    ...(has('prediction') ? ['the prediction bounds'] : []),
    ...(has('equivalence', 'non-inferiority') ? ['the margins declared'] : []),
  ].join(' or ');
  return `No difference ${beyond === '' ? '' : `beyond ${beyond} `}was found between ${what} and ${other}, in ${examined} examined. This does not show common origin.`;
}

function overall(
  { comparison }: ComparisonCase,
  level: ComparisonLevel,
  items: ComparisonResult['items'],
  characteristics: readonly CharacteristicComparison[],
  features: readonly FeatureComparison[],
): string {
  if (comparison.compared.what === 'two groups') {
    const { first, second } = comparison.compared;
    const named = `${second.title} and ${first.title}`;
    if (level === 'D') return noDifference([second.title, first.title], characteristics, features);
    const which = [...characteristics, ...features.map(({ feature, finding }) => ({ title: feature.title, finding }))]
      .filter(({ finding }) => finding === level)
      .map(({ title }) => title);
    return level === 'E'
      ? `${named} could not be compared.`
      : `${named} ${level === 'C' ? 'could not be told to agree or to differ in' : 'differ in'} ${which.join(', ')}.`;
  }
  const at = items.filter((one) => one.level === level).map(({ specimen }) => specimen);
  const who =
    items.length === 1 ? `item ${at[0] ?? ''}` : `${at.length} of ${counted(items.length, 'item')} (${at.join(', ')})`;
  switch (level) {
    case 'A':
      return `${who} ${at.length === 1 ? 'differs' : 'differ'} from the reference in what was seen.`;
    case 'B':
      return `${who} ${at.length === 1 ? 'differs' : 'differ'} from the reference in what was measured.`;
    case 'C':
      return `of ${who} it could not be decided how well ${at.length === 1 ? 'it agrees' : 'they agree'} with the reference.`;
    case 'D':
      return noDifference(
        [items.length > 1 && at.length === items.length ? `the ${items.length} items` : who, 'the reference'],
        characteristics,
        features,
      );
    case 'E':
      return 'custody, condition or what happened before prevents comparison of every item.';
  }
}
