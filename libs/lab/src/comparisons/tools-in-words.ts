import { printDeclared, unitSymbol } from '@breakbook/units';
import type { ComparisonTool, Side } from './declarations.js';

/** On which side a difference counts, said of the items. */
export const COMPARISON_SIDES: Record<Side, string> = {
  below: 'below the reference',
  above: 'above the reference',
  either: 'either way',
};

/** How each kind of tool is called on its own. */
export const COMPARISON_TOOLS: Record<ComparisonTool['kind'], { word: string; hint: string }> = {
  prediction: {
    word: 'bounds that further units keep within',
    hint: 'Each item, or their mean, against bounds that further units of the reference’s kind keep within.',
  },
  'two groups': {
    word: 'difference of two groups',
    hint: 'Does one group tend to be larger? Told with its size and limits.',
  },
  'failure modes': {
    word: 'mix of failure modes',
    hint: 'Do both break in the same modes, in the same shares? Exact test.',
  },
  equivalence: {
    word: 'equivalence within a margin',
    hint: 'They differ by less than the margin either way, by two one-sided tests.',
  },
  'non-inferiority': {
    word: 'not worse by a margin',
    hint: 'Items are worse than the reference by less than the margin.',
  },
};

const SHARED_OUT = { specimens: 'of specimens', 'lot means': 'of the means of lots' } as const;

/** A tool as it was declared, in one line. */
export function toolInWords(tool: ComparisonTool, unit: string | undefined): string {
  const quantity = (value: number) => `${printDeclared(value)} ${unit === undefined ? '' : unitSymbol(unit)}`.trim();
  switch (tool.kind) {
    case 'prediction':
      return `${tool.of === 'each' ? 'each item' : 'the mean of the items'} against ${COMPARISON_TOOLS.prediction.word}, ${tool.distribution}, ${COMPARISON_SIDES[tool.side]}; ${
        tool.lots === 'vary' ? 'lots may differ' : 'lots taken as alike'
      }`;
    case 'two groups':
      return `${COMPARISON_TOOLS['two groups'].word} ${SHARED_OUT[tool.unit]}, ${tool.test}, ${COMPARISON_SIDES[tool.side]}`;
    case 'failure modes':
      return `${COMPARISON_TOOLS['failure modes'].word}, exact test`;
    case 'equivalence':
      return `equivalence ${SHARED_OUT[tool.unit]} within ${quantity(tool.margin[0])} to ${quantity(tool.margin[1])}, two one-sided tests`;
    case 'non-inferiority':
      return `not worse ${SHARED_OUT[tool.unit]} by ${quantity(tool.margin)}, where ${tool.better} is better`;
  }
}
