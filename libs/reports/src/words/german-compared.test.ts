import { compareCase } from '@breakbook/acceptance';
import type { CharacteristicValue, Comparison, ComparisonCase, ComparisonResult, ComparisonTool } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { inventedComparison } from '../fixtures/invented-comparison.js';
import { printingOf } from './printing.js';

const { told } = printingOf({ print: { paper: 'A4', language: 'de', units: 'as kept' } });
const whole = inventedComparison().case;
const [burst] = whole.comparison.characteristics;
if (!burst) throw new Error('There is a characteristic.');

const GROUPS: Comparison['compared'] = {
  what: 'two groups',
  first: { title: 'Before the change', lots: ['D42-2401', 'D42-2402'] },
  second: { title: 'After the change', lots: ['D42-2403', 'MARKET-1'] },
};

interface Asked {
  tool: ComparisonTool;
  groups?: boolean;
  /** Of the two items, in the place of what was measured. */
  values?: readonly [CharacteristicValue, CharacteristicValue];
  differenceThatMatters?: number;
}

/** The same invented rims, compared otherwise. */
function asked({ tool, groups = false, values, differenceThatMatters }: Asked): ComparisonCase {
  const { differenceThatMatters: _, ...declared } = { ...burst, tool } as Comparison['characteristics'][number];
  return {
    ...whole,
    comparison: {
      ...whole.comparison,
      ...(groups ? { compared: GROUPS } : {}),
      characteristics: [{ ...declared, ...(differenceThatMatters === undefined ? {} : { differenceThatMatters }) }],
    },
    runs: whole.runs.map((run) => {
      const value = values?.[['X-1', 'X-2'].indexOf(run.specimen)];
      return value ? { ...run, results: run.results.map((one) => ({ ...one, value })) } : run;
    }),
  };
}

/** All that a comparison says, as it is kept. */
function sentencesOf({ sentences, items, notes, gaps, features, characteristics }: ComparisonResult): string[] {
  return [
    ...sentences,
    ...notes,
    ...[...items, ...gaps, ...features, ...features.flatMap((one) => one.items)].map(({ sentence }) => sentence),
    ...characteristics.flatMap((one) => [
      one.sentence,
      ...one.each.map(({ sentence }) => sentence),
      ...one.leftOut.map(({ because }) => because),
      ...one.steps.flatMap(({ question, answer }) => [question, answer]),
      ...[one.p, one.smallestDifference, one.bounds?.lower, one.bounds?.upper, one.effect?.limits].flatMap((number) =>
        typeof number === 'object' && 'notEvaluated' in number
          ? [number.notEvaluated.because, number.notEvaluated.possibleIf]
          : [],
      ),
    ]),
  ];
}

const atLeast = (value: number): CharacteristicValue => ({ kind: 'atLeast', value });
const exact = (value: number): CharacteristicValue => ({ kind: 'exact', value });
const predicted = (
  side: 'below' | 'above' | 'either',
  distribution: 'normal' | 'distribution-free' = 'normal',
  of: 'each' | 'mean' = 'each',
) => ({ kind: 'prediction', distribution, of, side, lots: 'vary' }) as const;
const grouped = (test: 'Welch' | 'Mann-Whitney' | 'permutation', unit: 'specimens' | 'lot means' = 'specimens') =>
  ({ kind: 'two groups', test, side: 'either', unit }) as const;
const NEAR = [exact(1850), exact(1860)] as const;
const LOW = [exact(900), exact(910)] as const;
const APART = [exact(900), exact(3200)] as const;
const SURVIVED = [atLeast(1700), atLeast(1750)] as const;
const UNKNOWN = [atLeast(900), { kind: 'atMost', value: 900 }] as const;
const equivalent = (margin: number) => ({ kind: 'equivalence', margin: [-margin, margin], unit: 'specimens' }) as const;
const noWorse = (better: 'higher' | 'lower') =>
  ({ kind: 'non-inferiority', better, margin: 150, unit: 'specimens' }) as const;

const CASES: [string, Asked][] = [
  ['items that keep within one bound', { tool: predicted('below'), values: NEAR }],
  ['items that keep within the other', { tool: predicted('above'), values: NEAR }],
  ['items that keep within two bounds', { tool: predicted('either'), values: NEAR }],
  ['items beyond both', { tool: predicted('either'), values: APART }],
  ['a mean within', { tool: predicted('below', 'normal', 'mean'), values: NEAR }],
  ['a mean of which nothing is known', { tool: predicted('either', 'normal', 'mean'), values: UNKNOWN }],
  ['a difference that was too small to show', { tool: predicted('either'), values: NEAR, differenceThatMatters: 1 }],
  ['values known from one side', { tool: predicted('below'), values: UNKNOWN }],
  ['too few lots for a bound without a distribution', { tool: predicted('below', 'distribution-free'), values: LOW }],
  ['means of items without a distribution', { tool: predicted('below', 'distribution-free', 'mean'), values: LOW }],
  ...(['Welch', 'Mann-Whitney', 'permutation'] as const).flatMap((test) =>
    [false, true].flatMap((groups): [string, Asked][] => {
      const who = groups ? 'groups' : 'items and reference';
      return [
        [`${who} alike, by ${test}`, { tool: grouped(test), groups, values: NEAR }],
        [`${who} apart, by ${test}`, { tool: grouped(test), groups, values: LOW }],
        [`${who} where values survived, by ${test}`, { tool: grouped(test), groups, values: SURVIVED }],
        [`${who} by their lots and ${test}`, { tool: grouped(test, 'lot means'), groups, values: NEAR }],
        [
          `${who} where a difference matters, by ${test}`,
          { tool: grouped(test), groups, values: NEAR, differenceThatMatters: 1 },
        ],
      ];
    }),
  ),
  ...[false, true].flatMap((groups) =>
    [NEAR, LOW, SURVIVED].flatMap((values): [string, Asked][] => {
      const who = `${groups ? 'groups' : 'items and reference'}, values ${values.map((one) => JSON.stringify(one)).join()}`;
      return [
        [`equivalence of ${who}`, { tool: equivalent(300), groups, values }],
        [`equivalence by a margin too narrow, of ${who}`, { tool: equivalent(1), groups, values }],
        [`no worse where higher is better: ${who}`, { tool: noWorse('higher'), groups, values }],
        [`no worse where lower is better: ${who}`, { tool: noWorse('lower'), groups, values }],
      ];
    }),
  ),
  ['modes of items', { tool: { kind: 'failure modes' } }],
  ['modes of groups', { tool: { kind: 'failure modes' }, groups: true }],
];

const numbersIn = (text: string) => (text.replace(/[\u00a0\u202f]/g, '').match(/\d+(?:\.\d+)*/g) ?? []).sort();

describe.each(CASES)('a comparison in German: %s', (_, given) => {
  it('quotes no sentence in English, and keeps every number', () => {
    for (const sentence of sentencesOf(compareCase(asked(given)))) {
      const german = told(sentence);
      expect(german).not.toContain('(englisch)');
      // "1 lot" may be said "einem Los".
      const numbers = numbersIn(german.replace(/(?<=\d),(?=\d)/g, '.'));
      expect(numbersIn(sentence).filter((number) => number !== '1')).toEqual(
        numbers.filter((number) => number !== '1'),
      );
    }
  });
});
