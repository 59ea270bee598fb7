import { type ComparedValue, isNotEvaluated, notEvaluated, type ToolOf } from '@breakbook/lab';
import { freemanHalton } from '@breakbook/statistics';
import { chance, levelInWords, sizeOf } from '../words.js';
import { type AtLevel, reaches, type Tested, type ToolQuestion, undecided, whyNotConsistent } from './tested.js';

/** What stands in place of a mode where nothing gave way. */
const NONE = 'none found';

/** Do items and reference break in the same modes, in the same shares? */
export function failureModesTool(question: ToolQuestion<ToolOf<'failure modes'>>): Tested {
  const { reference, items, names, declared } = question;
  const modeOf = ({ mode = NONE }: ComparedValue) => mode;
  const count = (values: readonly ComparedValue[], mode: string) => values.filter((one) => modeOf(one) === mode).length;
  const modes = [...new Set([...reference, ...items].map(modeOf))]
    .sort()
    .map((mode) => ({ mode, reference: count(reference, mode), items: count(items, mode) }));
  const tested = freemanHalton(modes.map((one) => [one.items, one.reference] as const));
  if (isNotEvaluated(tested)) return { p: tested, at: () => ({ ...undecided(question, tested), modes }) };
  const { p, tables, chanceOfTable } = tested;
  const smallest = notEvaluated(
    'of a mix of modes no single difference can be told',
    'one mode is declared as a characteristic of its own',
  );
  const listed = (of: 'reference' | 'items') =>
    modes
      .filter((one) => one[of] > 0)
      .map((one) => `${one.mode} ${one[of]}`)
      .join(', ');
  return {
    p,
    at(level): AtLevel {
      const unlike = whyNotConsistent(question, smallest);
      const called = reaches(p, level);
      const finding = called ? 'B' : unlike ? 'C' : 'D';
      const found = `Of ${names.items} ${sizeOf(items)}: ${listed('items')}; of ${names.reference} ${sizeOf(reference)}: ${listed('reference')}`;
      const at = levelInWords(level);
      const sentence = called
        ? `${declared.title}: the mix of failure modes differs at the ${at} level (exact test, p = ${chance(p)}). ${found}.`
        : `${declared.title}: no difference in the mix of failure modes was found at the ${at} level (exact test, p = ${chance(p)}). ${found}.`;
      return {
        modes,
        smallestDifference: smallest,
        finding,
        sentence,
        each: items.map(({ specimen }) => ({ specimen, level: finding, sentence })),
        steps: [
          {
            question: 'Do both sides break in the same modes, in the same shares?',
            numbers: {
              p,
              tables,
              'chance of this table': chanceOfTable,
              level,
              ...Object.fromEntries(modes.map((one) => [one.mode, `${one.items} against ${one.reference}`])),
            },
            answer: sentence,
            formula: 'the chance of all tables with these totals that are no more likely than the one seen',
            source: 'Freeman and Halton (1951), Biometrika 38, 141-149',
          },
        ],
      };
    },
  };
}
