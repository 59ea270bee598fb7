import type { Criterion, Language, Limit, Plan, PlanInWords, PlanLine } from '@breakbook/lab';
import { criterionStatement } from './claims.js';
import { countedIn } from './counted.js';
import { limitInWords, nameOfLimit } from './limit-in-words.js';
import { percent } from './percent.js';
import { poolingInWords } from './pooling-in-words.js';
import { plain, sayIn } from './say.js';
import { capital } from './verdict-sentence.js';

/** What does this plan ask for, and what must hold? `limits` are those it names; one that is not there is said to be missing. */
export function planInWords(plan: Plan, limits: readonly Limit[], language: Language = 'en'): PlanInWords {
  const say = sayIn(language);
  const { statement, use, population, modeSet, censoring, pooling } = plan.claim;
  return {
    claim: [
      statement,
      population === 'lot'
        ? say('It speaks for the units of this lot alone, in this use: {use}', { use: ended(use) })
        : say('It speaks for the process that made the lot, in this use: {use}', { use: ended(use) }),
      say('Failure modes: {modes}', { modes: ended(modeSet) }),
      say('Values known from one side only: {censoring}', { censoring: ended(censoring) }),
      say('Pooling with earlier lots: {pooling}', { pooling: ended(poolingInWords(pooling, language)) }),
    ],
    lines: plan.lines.map((line) => ({
      line: line.line,
      title: line.title,
      says: lineInWords(line, plan, limits, language),
    })),
  };
}

function lineInWords(line: PlanLine, plan: Plan, limits: readonly Limit[], language: Language): string[] {
  const say = sayIn(language);
  const limitOf = (ref: { limit: string; revision: number }) =>
    limits.find(({ limit, revision }) => limit === ref.limit && revision === ref.revision);
  return [
    say('{specimens}, by {method} rev. {revision}{stages}.', {
      specimens: capital(countedIn(language, line.specimens, 'specimen')),
      method: line.method,
      revision: line.methodRevision,
      stages: stagesInWords(line, language),
    }),
    ...besideInWords(line, language),
    ...line.limits.map((ref) => {
      const limit = limitOf(ref);
      return limit
        ? say('Limit: {limit}, {title}', { limit: limitInWords(limit, language), title: ended(limit.title) })
        : say('Limit {limit}, which is not there.', { limit: nameOfLimit(ref, language) });
    }),
    ...line.criteria.flatMap((criterion) => {
      const limit = limitOf(criterion.limit);
      return limit
        ? [
            say('Criterion {criterion}: {statement}', {
              criterion: criterion.criterion,
              statement: criterionStatement(criterion, limit, plan.claim.population, language),
            }),
            ...raisedInWords(criterion, language),
          ]
        : [];
    }),
    ...combinationInWords(line, language),
  ];
}

function stagesInWords({ stages }: PlanLine, language: Language): string {
  const say = sayIn(language);
  if (!stages) return say(', looked at once, when all are tested');
  return say(', in {n} stages of {adds} and {last}: a later one is made only where those before it settle nothing', {
    n: stages.length,
    adds: stages.slice(0, -1).join(', '),
    last: `${stages.at(-1)}`,
  });
}

function besideInWords({ retained = 0, witnesses = 0, survivorsOf }: PlanLine, language: Language): string[] {
  const say = sayIn(language);
  const specimens = (number: number) => countedIn(language, number, 'specimen');
  return [
    ...(retained > 0
      ? [say('Drawn beside them and kept unbroken: {specimens}.', { specimens: specimens(retained) })]
      : []),
    ...(witnesses > 0
      ? [say('Tested beside the claim as witnesses: {specimens}.', { specimens: specimens(witnesses) })]
      : []),
    ...(survivorsOf
      ? [
          say('Takes specimens that survived line {lines}.', {
            lines: survivorsOf.join(say(' or ')),
          }),
        ]
      : []),
  ];
}

function raisedInWords(criterion: Criterion, language: Language): string[] {
  if (criterion.kind !== 'zero failures' || !criterion.raised) return [];
  const { shape, shapeSource, lowerShapes, modes } = criterion.raised;
  return [
    sayIn(language)(
      'The Weibull shape of {shape} rests on: {source} What is shown at shapes of {shapes} is printed beside it. A failure mode other than {modes} ends the demonstration.',
      {
        shape: plain(shape, language),
        source: ended(shapeSource),
        shapes: lowerShapes.map((one) => plain(one, language)).join(language === 'en' ? ', ' : '; '),
        modes: modes.join(', '),
      },
    ),
  ];
}

function combinationInWords({ criteria, combination }: PlanLine, language: Language): string[] {
  const say = sayIn(language);
  if (combination?.rule === 'any')
    return [
      say('Any one of the criteria is enough; together they may accept wrongly in at most {risk} of such lots.', {
        risk: percent(combination.jointRisk, language),
      }),
    ];
  return criteria.length > 1 ? [say('All criteria must be met.')] : [];
}

/** With one full stop at its end. */
function ended(text: string): string {
  return `${text.replace(/\.\s*$/, '')}.`;
}
