import { type Criterion, type Limit, limitName, type Plan, type PlanInWords, type PlanLine } from '@breakbook/lab';
import { criterionStatement } from './claims.js';
import { counted } from './counted.js';
import { limitInWords } from './limit-in-words.js';
import { percent } from './percent.js';
import { poolingInWords } from './pooling-in-words.js';
import { capital } from './verdict-sentence.js';

/** What does this plan ask for, and what must hold? `limits` are those it names; one that is not there is said to be missing. */
export function planInWords(plan: Plan, limits: readonly Limit[]): PlanInWords {
  const { statement, use, population, modeSet, censoring, pooling } = plan.claim;
  return {
    claim: [
      statement,
      `It speaks for ${population === 'lot' ? 'the units of this lot alone' : 'the process that made the lot'}, in this use: ${ended(use)}`,
      `Failure modes: ${ended(modeSet)}`,
      `Values known from one side only: ${ended(censoring)}`,
      `Pooling with earlier lots: ${ended(poolingInWords(pooling))}`,
    ],
    lines: plan.lines.map((line) => ({ line: line.line, title: line.title, says: lineInWords(line, plan, limits) })),
  };
}

function lineInWords(line: PlanLine, plan: Plan, limits: readonly Limit[]): string[] {
  const limitOf = (ref: { limit: string; revision: number }) =>
    limits.find(({ limit, revision }) => limit === ref.limit && revision === ref.revision);
  return [
    `${capital(counted(line.specimens, 'specimen'))}, by ${line.method} rev. ${line.methodRevision}${stagesInWords(line)}.`,
    ...besideInWords(line),
    ...line.limits.map((ref) => {
      const limit = limitOf(ref);
      return limit
        ? `Limit: ${limitInWords(limit)}, ${ended(limit.title)}`
        : `Limit ${limitName(ref)}, which is not there.`;
    }),
    ...line.criteria.flatMap((criterion) => {
      const limit = limitOf(criterion.limit);
      return limit
        ? [
            `Criterion ${criterion.criterion}: ${criterionStatement(criterion, limit, plan.claim.population)}`,
            ...raisedInWords(criterion),
          ]
        : [];
    }),
    ...combinationInWords(line),
  ];
}

function stagesInWords({ stages }: PlanLine): string {
  if (!stages) return ', looked at once, when all are tested';
  const adds = `${stages.slice(0, -1).join(', ')} and ${stages.at(-1)}`;
  return `, in ${stages.length} stages of ${adds}: a later one is made only where those before it settle nothing`;
}

function besideInWords({ retained = 0, witnesses = 0, survivorsOf }: PlanLine): string[] {
  return [
    ...(retained > 0 ? [`Drawn beside them and kept unbroken: ${counted(retained, 'specimen')}.`] : []),
    ...(witnesses > 0 ? [`Tested beside the claim as witnesses: ${counted(witnesses, 'specimen')}.`] : []),
    ...(survivorsOf ? [`Takes specimens that survived line ${survivorsOf.join(' or ')}.`] : []),
  ];
}

function raisedInWords(criterion: Criterion): string[] {
  if (criterion.kind !== 'zero failures' || !criterion.raised) return [];
  const { shape, shapeSource, lowerShapes, modes } = criterion.raised;
  return [
    `The Weibull shape of ${shape} rests on: ${ended(shapeSource)} What is shown at shapes of ${lowerShapes.join(', ')} is printed beside it. A failure mode other than ${modes.join(', ')} ends the demonstration.`,
  ];
}

function combinationInWords({ criteria, combination }: PlanLine): string[] {
  if (combination?.rule === 'any')
    return [
      `Any one of the criteria is enough; together they may accept wrongly in at most ${percent(combination.jointRisk)} of such lots.`,
    ];
  return criteria.length > 1 ? ['All criteria must be met.'] : [];
}

/** With one full stop at its end. */
function ended(text: string): string {
  return `${text.replace(/\.\s*$/, '')}.`;
}
