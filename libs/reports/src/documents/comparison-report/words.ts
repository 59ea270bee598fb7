import { confidenceAt, percent } from '@breakbook/acceptance';
import type { Outcome } from '@breakbook/figures';
import {
  type CharacteristicComparison,
  type ComparisonLevel,
  type DeclaredCharacteristic,
  isNotEvaluated,
  type NotEvaluated,
  withInstants,
} from '@breakbook/lab';
import { printSignificant } from '@breakbook/units';
import type { Cell } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { both, differenceInWords, uncertaintyInWords } from '../../words/units.js';
import { numberOf } from '../lot-test-report/head.js';
import { type ComparisonReportContent, nameIn } from './content.js';
import { MESSAGES } from './messages/index.js';

/** A sign apart from the others for each way an item may stand to the reference; the words beside it say which. */
const SIGNS: Record<ComparisonLevel, Outcome> = {
  A: 'not met',
  B: 'not met',
  C: 'undecided',
  D: 'conforms',
  E: 'undecided',
};

export function signOf(level: ComparisonLevel): Outcome {
  return SIGNS[level];
}

export function levelInWords(level: ComparisonLevel, { language }: Printing): string {
  const messages = MESSAGES[language];
  return messages.level(level, messages.levels[level]);
}

export function levelCell(level: ComparisonLevel, printing: Printing): Cell {
  return { text: levelInWords(level, printing), sign: signOf(level) };
}

/** How a characteristic is compared, as it was declared. */
export function toolInWords({ tool, unit = '1' }: DeclaredCharacteristic, printing: Printing): string {
  const { tools } = MESSAGES[printing.language];
  const margin = (value: number) => both(differenceInWords(value, unit, printing));
  switch (tool.kind) {
    case 'prediction':
      return tools.prediction({
        distribution: tools.distributions[tool.distribution] ?? tool.distribution,
        of: tool.of,
        side: tools.sides[tool.side],
        lots: tool.lots,
      });
    case 'two groups':
      return tools.groups({
        test: tools.tests[tool.test],
        side: tools.sides[tool.side],
        unit: tools.units[tool.unit],
      });
    case 'failure modes':
      return tools.modes;
    case 'equivalence':
      return tools.equivalence(margin(tool.margin[0]), margin(tool.margin[1]), tools.units[tool.unit]);
    case 'non-inferiority':
      return tools.nonInferiority(
        both(uncertaintyInWords(tool.margin, unit, printing)),
        tool.better,
        tools.units[tool.unit],
      );
  }
}

/** Which values a characteristic takes, as it was declared. */
export function sourceInWords(
  { source }: Pick<DeclaredCharacteristic, 'source'>,
  { case: { comparison, runs } }: Pick<ComparisonReportContent, 'case'>,
  printing: Printing,
): string {
  const { declared } = MESSAGES[printing.language];
  if (source.from === 'examination') {
    const feature = comparison.features.find((one) => one.feature === source.feature);
    return declared.ofFeature(feature?.title ?? source.feature);
  }
  const title = runs
    .flatMap(({ results }) => results)
    .find(({ characteristic }) => characteristic === source.characteristic)?.title;
  return declared.ofRuns(
    numberOf({ number: source.method, revision: source.methodRevision }, printing),
    printing.named(title ?? source.characteristic),
  );
}

/** What a level leaves to future units, as the sentences of the comparison have it: `98.3 %`. */
export function coverageInWords(level: number, { number }: Pick<Printing, 'number'>): string {
  return number(confidenceAt(level));
}

export function shareOf(share: number, { language }: Printing): string {
  return percent(share, language);
}

/** p beside the level it is held to: on its side of it in print as in the numbers. */
export function chanceBeside(p: number, level: number, { number }: Printing): string {
  const digits = [2, 3, 4, 6, 9].find((one) => Math.sign(Number(p.toPrecision(one)) - level) === Math.sign(p - level));
  return number(printSignificant(p, digits ?? 12));
}

/** The word for what is not there, or what the number says. */
export function orWhy<T>(answer: T | NotEvaluated, printing: Printing, said: (value: T) => string): string {
  if (!isNotEvaluated(answer)) return said(answer);
  const { characteristic } = MESSAGES[printing.language];
  const { because, possibleIf } = answer.notEvaluated;
  return characteristic.notEvaluated(printing.told(because), printing.told(possibleIf));
}

/** Pressures are gauge or absolute: as the runs have it. */
export function referenceOf(
  { source }: Pick<CharacteristicComparison, 'source'>,
  { case: { runs } }: Pick<ComparisonReportContent, 'case'>,
): 'gauge' | 'absolute' | undefined {
  if (source.from !== 'runs') return undefined;
  return runs
    .flatMap(({ results }) => results)
    .find(({ characteristic, reference }) => characteristic === source.characteristic && reference)?.reference;
}

/** Who did something, and when. */
export function byAt(content: ComparisonReportContent, by: string, at: string): string {
  return `${nameIn(content, by)}, ${timeOf(at, content.lab.zone)}`;
}

/** `X-1, serial D42-17`: an item or unit as a reader finds it again. */
export function specimenNamed({ case: { specimens } }: Pick<ComparisonReportContent, 'case'>, key: string): string {
  const serial = specimens.find(({ specimen }) => specimen === key)?.serial;
  return serial === undefined || serial === key ? key : `${key} (${serial})`;
}

/** A stored sentence in the language of the document, with its instants in the time of the lab. */
export function toldIn({ lab }: Pick<ComparisonReportContent, 'lab'>, { told }: Printing, stored: string): string {
  // Before it is worded: a language may write the numbers of an instant its own way.
  return told(withInstants(stored, (instant) => timeOf(instant, lab.zone)));
}

/** How both sides are called: reference and items, or the groups by their titles. */
export function sidesOf(
  { case: { comparison } }: Pick<ComparisonReportContent, 'case'>,
  { language }: Pick<Printing, 'language'>,
): Record<'known' | 'knownOne' | 'asked' | 'askedOne', string> {
  const { characteristic: words } = MESSAGES[language];
  const { compared } = comparison;
  if (compared.what === 'items with a reference')
    return { known: words.inReference, knownOne: words.reference, asked: words.inItems, askedOne: words.item };
  const { first, second } = compared;
  return { known: first.title, knownOne: first.title, asked: second.title, askedOne: second.title };
}
