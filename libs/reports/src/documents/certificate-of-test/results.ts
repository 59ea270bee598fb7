import { capital, nameOfLimit, rangeInWords, ruleInWords } from '@breakbook/acceptance';
import type { CriterionResult, Limit, Verdict, VerdictOutcome } from '@breakbook/lab';
import { converter } from '@breakbook/units';
import { isValid, type JudgedLine, linesOf, runsOf } from '../../content/judged-lot.js';
import type { Block, Cell, Section } from '../../parts/blocks.js';
import { boundSaid, statementInWords } from '../../words/judged-words.js';
import { formulaOf, inOtherUnits } from '../../words/limit-words.js';
import type { Printing } from '../../words/printing.js';
import { termIn } from '../../words/terms.js';
import { measuredInWords, uncertaintyInWords } from '../../words/units.js';
import type { CertificateContent } from './content.js';
import { MESSAGES } from './messages.js';

/** The limits, each with how many results conform; and each criterion as a sentence. */
export function resultsSection(content: CertificateContent, printing: Printing): Section {
  const { results } = MESSAGES[printing.language];
  const lines = linesOf(content);
  return {
    heading: results.heading,
    blocks: [
      ...lines.flatMap((line): Block[] => [limitTable(content, line, printing)]),
      ...lines.flatMap((line) =>
        line.result.criteria.map(
          (criterion): Block => ({
            block: 'paragraph',
            tone: 'claim',
            sign: criterion.outcome,
            text: claimOf(content, criterion, printing),
          }),
        ),
      ),
      { block: 'paragraph', tone: 'note', text: results.note },
    ],
  };
}

function limitTable(content: CertificateContent, line: JudgedLine, printing: Printing): Block {
  const { results } = MESSAGES[printing.language];
  return {
    block: 'table',
    title: `${line.line.line}: ${line.line.title}`,
    columns: [
      { title: results.limit },
      { title: results.asks },
      { title: results.specimens },
      { title: line.limits.some(({ bound }) => bound === 'at most') ? results.highest : results.lowest },
      { title: results.verdict },
    ],
    rows: line.limits.map((limit) => limitRow(content, line, limit, printing)),
    empty: results.noValid,
  };
}

function limitRow(content: CertificateContent, line: JudgedLine, limit: Limit, printing: Printing): Cell[] {
  const { results } = MESSAGES[printing.language];
  const verdicts = runsOf(content, line)
    .filter(isValid)
    .flatMap(({ judgement }) =>
      judgement.verdicts.filter((one) => one.limit.limit === limit.limit && one.limit.revision === limit.revision),
    );
  const conforming = verdicts.filter(({ outcome }) => outcome === 'conforms').length;
  const worst = worstOf(verdicts);
  return [
    {
      text: `${nameOfLimit(limit, printing.language)}: ${limit.title}`,
      under: `${limit.source} ${limit.edition}; ${results.inForce(limit.inForceFrom)}`,
    },
    {
      text: [rangeInWords(limit, printing.language), inOtherUnits(limit, printing)]
        .filter((one) => one !== '')
        .join(', '),
      under: `${ruleInWords(limit, printing.language)}: ${formulaOf(limit, printing)}`,
    },
    verdicts.length === 0 ? results.noValid : results.conform(conforming, verdicts.length),
    extremeOf(content, verdicts, limit, printing),
    { text: termIn(printing, worst), sign: worst },
  ];
}

/** The outcome that stands for all: that of the result which fared worst. */
export function worstOf(verdicts: readonly Pick<Verdict, 'outcome'>[]): VerdictOutcome {
  return WORST_FIRST.find((outcome) => verdicts.some((one) => one.outcome === outcome)) ?? 'not evaluated';
}

const WORST_FIRST: readonly VerdictOutcome[] = [
  'does not conform',
  'does not conform conditionally',
  'not evaluated',
  'conforms conditionally',
  'conforms',
];

/** The result nearest to the forbidden side of its limit, with its uncertainty. */
function extremeOf(content: CertificateContent, verdicts: readonly Verdict[], limit: Limit, printing: Printing): Cell {
  const { results } = MESSAGES[printing.language];
  const measured = verdicts.filter(({ value }) => value !== undefined);
  const [first, ...others] = measured;
  if (!first || limit.bound === 'absent') return '–';
  const lowOf = ({ value }: Verdict) => (value?.kind === 'between' ? value.lower : (value?.value ?? 0));
  const highOf = ({ value }: Verdict) => (value?.kind === 'between' ? value.upper : (value?.value ?? 0));
  const found =
    limit.bound === 'at most'
      ? others.reduce((a, b) => (highOf(b) > highOf(a) ? b : a), first)
      : others.reduce((a, b) => (lowOf(b) < lowOf(a) ? b : a), first);
  const { value, unit, uncertainty, limitValue } = found;
  if (!value) return '–';
  const reference = content.judgements
    .flatMap(({ results: all }) => all)
    .find(({ characteristic }) => characteristic === limit.characteristic)?.reference;
  const words = measuredInWords(
    {
      value,
      unit,
      limits: [limitValue.lower, limitValue.upper].filter((one) => one !== undefined),
      ...(uncertainty ? { uncertainty: uncertainty.expanded } : {}),
    },
    printing,
  );
  const spread = uncertainty
    ? `U = ${uncertaintyInWords(uncertainty.expanded, unit, printing)[0]}, k = ${printing.number(`${uncertainty.k}`)}`
    : results.noUncertainty;
  return {
    text: words[0],
    under: [words[1], reference === undefined ? '' : results.gauge[reference], spread]
      .filter((one) => one !== '')
      .join('; '),
  };
}

/** The outcome of a criterion with what it says of the population, or why it says nothing. */
function claimOf(content: CertificateContent, found: CriterionResult, printing: Printing): string {
  const word = termIn(printing, found.outcome);
  const why = found.because === undefined ? '' : ` ${capital(printing.told(found.because))}.`;
  return `${capital(word)} (${found.criterion}, ${nameOfLimit(found.limit, printing.language)}). ${saidOf(content, found, printing)}${why}`;
}

function saidOf(content: CertificateContent, found: CriterionResult, printing: Printing): string {
  const into = converter(found.unit, printing.units.of(found.unit));
  return boundSaid(found, printing, into) ?? statementInWords(found, content, printing);
}
